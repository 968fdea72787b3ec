/** Setups from and to files: chosen, dropped on the page, saved. What cannot be read changes nothing and says why. Comes after the first curve. */
import { fileOpen, fileSave } from "browser-fs-access";
import { warningsOf, warningText } from "../../../setup/dimension/plausible.ts";
import { readSetupText } from "../../../setup/file/readSetup.ts";
import { writeSetup } from "../../../setup/file/writeSetup.ts";
import { SetupError } from "../../../setup/problem.ts";
import type { Setup } from "../../../setup/setup.ts";
import { fetchArithmetic, isJsonReadable } from "../../form/arithmetic.ts";
import type { Store } from "../store.ts";
import { unlessGivenUp } from "./fileDialog.ts";
import { setupFileName } from "./setupFileName.ts";

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
