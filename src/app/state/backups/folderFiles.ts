/**
 * The backup in a folder of the person's own: two files that take turns. Each is written whole beside itself and put in place
 * at the end (`createWritable`), then read back: whatever happens meanwhile, the other one stands as it was.
 */

/** The folder as the browser hands it out; not all browsers ask for leave. */
export interface Folder {
  readonly name: string;
  queryPermission?(wanted: { readonly mode: "readwrite" }): Promise<PermissionState>;
  requestPermission?(wanted: { readonly mode: "readwrite" }): Promise<PermissionState>;
  getFileHandle(name: string, options?: { readonly create?: boolean }): Promise<FolderFile>;
  removeEntry(name: string): Promise<void>;
}

export interface FolderFile {
  getFile(): Promise<Blob>;
  createWritable(): Promise<FolderWriting>;
}

export interface FolderWriting {
  write(text: string): Promise<void>;
  close(): Promise<void>;
  abort(): Promise<void>;
}

export type FileNames = readonly [string, string];

/** @param browser the record's id: one that was lost and begun anew, or another machine's, never writes over these */
export const folderFileNames = (browser: string): FileNames => {
  const short = browser.slice(0, 8);
  return [`annulus-backup-${short}-a.json`, `annulus-backup-${short}-b.json`];
};

/** Puts the text where none stands that is whole, or else in place of the older. @throws what the browser says of it */
export async function writeInTurn(folder: Folder, names: FileNames, text: string): Promise<void> {
  const [a, b] = await madeIn(folder, names);
  const name = names[a === null || (b !== null && a <= b) ? 0 : 1];
  const file = await folder.getFileHandle(name, { create: true });
  const writing = await file.createWritable();
  try {
    await writing.write(text);
    await writing.close();
  } catch (error) {
    await writing.abort().catch(() => {});
    throw error;
  }
  const written = await (await file.getFile()).text();
  if (written === text) return;
  await folder.removeEntry(name).catch(() => {});
  throw new DOMException("what was written reads otherwise", "DataError");
}

/** When the newest that is whole was made; null: there is none. */
export async function newestIn(folder: Folder, names: FileNames): Promise<string | null> {
  const made = await madeIn(folder, names);
  return (
    made
      .filter((one) => one !== null)
      .sort()
      .at(-1) ?? null
  );
}

const madeIn = (folder: Folder, names: FileNames) => Promise.all(names.map((name) => madeOf(folder, name)));

const HEAD = /^\{"format":"annulus-backup","version":\d+,"made":"([^"]*)"/;
const HEAD_BYTES = 200;
const END = "\n]}\n";

/** When a backup was made, by its head, if its end is there too: whoever restores it has its checksums looked at. */
async function madeOf(folder: Folder, name: string): Promise<string | null> {
  try {
    const file = await (await folder.getFileHandle(name)).getFile();
    const [head, end] = await Promise.all([file.slice(0, HEAD_BYTES).text(), file.slice(-END.length).text()]);
    return end === END ? (HEAD.exec(head)?.[1] ?? null) : null;
  } catch (error) {
    if ((error as DOMException).name === "NotFoundError") return null;
    throw error;
  }
}
