/** Keeps all notebooks in the browser from whichever is opened first, and says when that is done. */
import { followKeeping } from "../../src/app/tasks/learn/keptNotebooks.ts";
import { keptWords } from "../../src/words/keptNotebooks.ts";

export async function showKept(beside: HTMLElement): Promise<void> {
  const line = document.createElement("p");
  line.dataset.testid = "notebooks-kept";
  line.setAttribute("role", "status");
  beside.after(line);
  // what is read comes first
  await new Promise((loaded) =>
    document.readyState === "complete" ? loaded(null) : addEventListener("load", loaded),
  );
  try {
    await navigator.serviceWorker?.register(new URL("../sw.js", document.baseURI));
  } catch {
    // said below: nothing is kept without it
  }
  followKeeping(new URL("./", document.baseURI), (kept) => {
    line.textContent = keptWords(kept);
  });
}
