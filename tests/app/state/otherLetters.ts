/** What becomes of a shared document whose text has another letter at its end. */
import { decodeDocument, encodeDocument } from "../../../src/app/state/keeping/shareLink.ts";
import { documentOf } from "../../../src/app/state/store.ts";
import { SetupError } from "../../../src/setup/problem.ts";
import { someSetup } from "../someSetup.ts";

const LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
/** From the end on. */
const PLACES = 9;

/** How each is answered, a letter at a time: true where it is refused in words. @param more letters of the name */
export async function answersToOtherLetters(more: number): Promise<(true | string)[]> {
  const document = documentOf(someSetup({ name: "n".repeat(more) + "q".repeat(more % 3) }));
  const text = await encodeDocument(document);
  const changed = Array.from({ length: PLACES }, (_, back) => text.length - PLACES + back).flatMap((at) =>
    [...LETTERS.replace(text[at], "")].map((letter) => text.slice(0, at) + letter + text.slice(at + 1)),
  );
  return Promise.all(
    changed.map((one) =>
      decodeDocument(one).then(
        () => `opened: ${one}`,
        (error) => error instanceof SetupError || String(error),
      ),
    ),
  );
}
