/** Tables as CSV files, chosen and saved by the person. */
import { fileOpen, fileSave } from "browser-fs-access";
import { unlessGivenUp } from "../state/keeping/fileDialog.ts";
import type { Store } from "../state/store.ts";

const KIND = {
  description: "Table",
  mimeTypes: ["text/csv"],
  extensions: [".csv", ".txt"],
  id: "tables",
};

/** A file the person chooses; null when none is. */
export async function openTableFile(
  store: Store,
): Promise<{ readonly name: string; readonly text: string } | null> {
  return unlessGivenUp(async () => {
    const file = await fileOpen(KIND);
    return { name: file.name, text: await file.text() };
  }, store);
}

/** @param remark what to say beside that it is saved */
export async function saveTableFile(csv: string, fileName: string, store: Store, remark = ""): Promise<void> {
  const saved = await unlessGivenUp(async () => {
    await fileSave(new Blob([csv], { type: "text/csv" }), { ...KIND, fileName });
    return true;
  }, store);
  if (saved) store.say("note", `Saved ${fileName}.${remark}`);
}
