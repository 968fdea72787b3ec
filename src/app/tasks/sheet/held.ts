/** Why a sheet is not printed yet, in words. */
import { CLASSROOM_SENTENCES, WORKSHOP_PARAGRAPHS } from "../../../study/report/sheetParagraphs.ts";
import type { Overflow } from "./paper.ts";
import type { PaperContent } from "./paperContent.ts";
import { HEADINGS } from "./paperWords.ts";
import type { SheetData } from "./record.ts";

/** Empty when it can be printed. */
export function heldBack(
  { record, awaited }: SheetData,
  { notes, words }: PaperContent,
  overflow: Overflow | null,
): string {
  const shown = notes.form === "classroom" ? CLASSROOM_SENTENCES : WORKSHOP_PARAGRAPHS;
  const wrong = shown.find((name) => words[name].problem !== "");
  if (record.present.gapMm < 0) return "The readings give a gap below 0, which cannot be: see Measure.";
  if (wrong) return `A figure in “${HEADINGS[wrong]}” is not one: see beside it.`;
  if (awaited.length > 0) return `Still to come: ${awaited.map(({ what }) => what).join(", ")}.`;
  if (!overflow) return "";
  const { lines, longest } = overflow;
  return (
    `The words are ${lines} ${lines === 1 ? "line" : "lines"} too long for its page: shorten ` +
    `“${HEADINGS[longest.name]}”, which has ${longest.lines}, or leave a paragraph out.`
  );
}
