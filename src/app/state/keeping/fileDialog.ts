import type { Store } from "../store.ts";

/** What a file dialog gives; null when the person closed it or the browser refused, which is said. */
export async function unlessGivenUp<T>(dialog: () => Promise<T>, store: Store): Promise<T | null> {
  try {
    return await dialog();
  } catch (error) {
    const isGivenUp = error instanceof DOMException && error.name === "AbortError";
    if (!isGivenUp)
      store.say("error", `The browser refused: ${error instanceof Error ? error.message : error}`);
    return null;
  }
}
