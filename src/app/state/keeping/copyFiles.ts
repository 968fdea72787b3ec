/** Reads the second copy, whichever tab holds its files. */
import { type Copy, readCopy } from "../../../record/journal.ts";
import type { Working } from "./workingStore.ts";

const NONE: Copy = { held: new Map(), current: null, damaged: 0 };

/** What is copied under a name; nothing where there are no such files. */
export async function readCopied(name: "work" | "jobs"): Promise<Copy> {
  try {
    const folder = await navigator.storage.getDirectory();
    const bytes = await Promise.all(["a", "b"].map((which) => bytesOf(folder, `${name}-${which}`)));
    return readCopy([bytes[0], bytes[1]]);
  } catch {
    return NONE;
  }
}

/** What tabs had open. */
export async function workCopied(): Promise<Working[]> {
  const { held } = await readCopied("work");
  return [...held].map(([key, value]) => ({ ...(value as Omit<Working, "key">), key }));
}

/** Another tab may be writing to it just now. */
async function bytesOf(folder: FileSystemDirectoryHandle, name: string, tries = 3): Promise<Uint8Array> {
  try {
    const file = await (await folder.getFileHandle(name)).getFile();
    return new Uint8Array(await file.arrayBuffer());
  } catch (error) {
    if ((error as DOMException).name === "NotFoundError" || tries <= 1) return new Uint8Array();
    return bytesOf(folder, name, tries - 1);
  }
}
