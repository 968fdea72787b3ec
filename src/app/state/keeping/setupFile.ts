/** Setups from and to files: chosen, dropped on the page, saved. What cannot be read changes nothing and says why. */
import { fileOpen, fileSave } from "browser-fs-access";
import { warningsOf, warningText } from "../../../setup/dimension/plausible.ts";
import { readSetupText } from "../../../setup/file/readSetup.ts";
import { writeSetup } from "../../../setup/file/writeSetup.ts";
import { SetupError } from "../../../setup/problem.ts";
import type { Setup } from "../../../setup/setup.ts";
import { fetchArithmetic, isJsonReadable } from "../../form/arithmetic.ts";
import type { Store } from "../store.ts";

/** What file dialogs offer. */
export const SETUP_FILES = {
  description: "Instrument setup",
  mimeTypes: ["application/json"],
  extensions: [".json"],
  id: "setups",
};

/** How files of jobs begin, which are no instruments. */
const JOBS = /^\s*\{\s*"format"\s*:\s*"annulus-(backup|backup-encrypted|job|document)"/;

/** Lets the person choose a file and opens it. */
export async function openSetupFile(store: Store): Promise<void> {
  const file = await unlessGivenUp(() => fileOpen(SETUP_FILES), store);
  if (file) await openFile(file, store);
}

/** Opens a file; a setup that is refused is named in one line and what was open stays open. */
export async function openFile(file: Pick<File, "name" | "text">, store: Store): Promise<void> {
  try {
    const text = await file.text();
    // where it cannot be fetched, reading says what cannot be read
    if (!isJsonReadable(text)) await fetchArithmetic().catch(() => {});
    if (JOBS.test(text)) {
      store.say("error", `${file.name}: a file of jobs; take it in under Jobs, by “Restore from a file”.`);
      return;
    }
    const setup = readSetupText(text);
    store.open(setup);
    const [warning, ...others] = warningsOf(setup).map(warningText);
    const more = others.length > 0 ? ` (and ${others.length} more)` : "";
    store.say("note", `Opened ${file.name}.${warning ? ` To check: ${warning}${more}` : ""}`);
  } catch (error) {
    const reason = error instanceof SetupError ? error.message : "the file cannot be read; choose another";
    store.say("error", `${file.name}: ${reason}`);
  }
}

/** Opens a file that is dropped anywhere on the page. */
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
    else if (file) void openFile(file, store);
  });
}

/** Saves the instrument as it is, with your gap; where the slider stands is a view and not saved as a fact. */
export async function saveSetupFile(store: Store): Promise<void> {
  const { setup } = store.state.document;
  const text = setupFileText(setup);
  const blob = new Blob([text], { type: "application/json" });
  const saved = await unlessGivenUp(async () => {
    await fileSave(blob, { ...SETUP_FILES, fileName: setupFileName(setup) });
    return true;
  }, store);
  if (saved) store.say("note", "Saved.");
}

/** The text of a setup's file. */
export const setupFileText = (setup: Setup): string => `${JSON.stringify(writeSetup(setup), null, 1)}\n`;

/** A file name that every system takes, from the setup's name. */
export function setupFileName({ name }: Setup): string {
  const plain = name
    .normalize("NFKD")
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .slice(0, 60)
    .replace(/^-|-$/g, "");
  return `${plain || "instrument"}.setup.json`;
}

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
