/** A whole document inside an address: JSON, deflated, in the letters an address takes. Nothing is sent anywhere. */

import { SetupError } from "../../../setup/problem.ts";
import { fetchArithmetic } from "../../form/arithmetic.ts";
import { type Task, writeHash } from "../../shell/route.ts";
import { sayFlaws } from "../record/openJobMessages.ts";
import type { Document } from "../state.ts";
import type { Store } from "../store.ts";
import { deflateText, inflateText } from "./deflate.ts";
import { writeDocument } from "./documentFile.ts";
import { readDocument } from "./readDocument.ts";

/** Mail and chat programs cut addresses longer than this. */
const LONGEST_SAFE_LINK = 8000;
const LONGEST_TEXT = 10_000_000;

export const encodeDocument = async (document: Document): Promise<string> =>
  toAddressLetters(await deflateText(JSON.stringify(writeDocument(document))));

/** @throws SetupError in words, whatever `text` is */
export async function decodeDocument(text: string): Promise<Document> {
  let json: unknown;
  try {
    json = JSON.parse(await inflateText(fromAddressLetters(text), LONGEST_TEXT));
  } catch {
    const message = "the link is damaged or cut short; ask for it again, or for the setup as a file";
    throw new SetupError([{ path: "", value: text.slice(0, 200), message }]);
  }
  return readDocument(json);
}

/** The address of this page with the document in it. */
export const shareLink = async (document: Document, task: Task, page: Location = location): Promise<string> =>
  page.href.replace(/#.*$/s, "") + writeHash(task, await encodeDocument(document));

/** Puts the link on the clipboard and says so. */
export async function copyShareLink(store: Store, task: Task): Promise<void> {
  const link = await shareLink(store.state.document, task);
  try {
    await navigator.clipboard.writeText(link);
  } catch {
    return store.say(
      "error",
      "The browser does not let the page use the clipboard: save the setup to a file instead.",
    );
  }
  const warning =
    link.length > LONGEST_SAFE_LINK
      ? ` It is ${link.length} characters long and some programs cut such links: a file is safer.`
      : "";
  store.say("note", `The link is on the clipboard; the whole instrument is in it.${warning}`);
}

/** Opens what a link brought; a broken one is named and what was open stays open. */
export async function openShared(text: string, store: Store): Promise<void> {
  try {
    await fetchArithmetic().catch(() => {});
    const document = await decodeDocument(text);
    store.open(document);
    if (sayFlaws(store, "What the link brought", document.setup)) return;
    store.say("note", "Opened from a link; undo brings back what was here before.");
  } catch (error) {
    const reason = error instanceof SetupError ? error.message.replace(/^setup: /, "") : String(error);
    store.say("error", `The link could not be opened: ${reason}`);
  }
}

function toAddressLetters(bytes: Uint8Array): string {
  let binary = "";
  for (const byte of bytes) binary += String.fromCharCode(byte);
  return btoa(binary).replaceAll("+", "-").replaceAll("/", "_").replace(/=+$/, "");
}

/** @throws RangeError on letters that no bytes are written in; what mail programs put in between does not count */
function fromAddressLetters(text: string): Uint8Array<ArrayBuffer> {
  const letters = text.replace(/[\s=]/g, "").replaceAll("+", "-").replaceAll("/", "_");
  const binary = atob(letters.replaceAll("-", "+").replaceAll("_", "/"));
  const bytes = Uint8Array.from(binary, (letter) => letter.charCodeAt(0));
  // the last letter has bits to spare, which are nought unless it was changed
  if (toAddressLetters(bytes) !== letters) throw new RangeError("bits that belong to no byte");
  return bytes;
}
