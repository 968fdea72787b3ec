/** Files let go over the page. */
import type { Store } from "../state/store.ts";
import { setupFiles, whenThere } from "./onDemand.ts";

/** Those over a part that takes them for what it is about, before the page takes one for an instrument. */
export function dropped(event: DragEvent): readonly File[] {
  const files = [...(event.dataTransfer?.files ?? [])];
  if (files.length > 0) {
    event.preventDefault();
    event.stopPropagation();
  }
  return files;
}

/** Opens a file that is dropped anywhere on the page, and lets files be dragged over all of it. */
export function acceptDrops(page: Window, store: Store): void {
  const hasFiles = ({ dataTransfer }: DragEvent) => dataTransfer?.types.includes("Files") ?? false;
  page.addEventListener("dragover", (event) => {
    if (!hasFiles(event)) return;
    event.preventDefault();
    event.dataTransfer!.dropEffect = "copy";
  });
  page.addEventListener("drop", (event) => {
    if (!hasFiles(event)) return;
    event.preventDefault();
    const [file, ...others] = event.dataTransfer!.files;
    if (others.length > 0)
      store.say("error", `${others.length + 1} files were dropped; give one setup at a time.`);
    else if (file) whenThere(setupFiles(), store, ({ openFile }) => openFile(file, store));
  });
}
