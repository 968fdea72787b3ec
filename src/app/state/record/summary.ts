/** What a list says of a job's document without opening it: the gap, and which tasks hold work. */

import { isRecord } from "../../../setup/jsonRecord.ts";
import { NO_NOTES, type Notes, readNotes } from "../notes/notes.ts";

export interface Summary {
  /** null where the document does not say. */
  readonly gapMm: number | null;
  readonly holds: readonly string[];
}

const hasText = (texts: readonly string[]): boolean => texts.some((text) => text.trim() !== "");

const HOLDS: readonly (readonly [words: string, isHeld: (notes: Notes) => boolean])[] = [
  ["measured", ({ measure }) => hasText(measure.depth) && hasText(measure.insertion)],
  ["fit", ({ fit }) => fit.mouthpieces.length + fit.instruments.length > 0],
  ["cut planned", ({ cut }) => cut.target.trim() !== ""],
  ["compared", ({ compare }) => compare.candidates.length > 0],
  ["lips", ({ play }) => hasText(Object.values(play.lips))],
  ["trial", ({ trial }) => trial.trials.length > 0],
  ["sheet", ({ sheet: { heads, words } }) => heads.date.trim() !== "" || Object.keys(words).length > 0],
];

/** Of any JSON: a document that cannot be opened is listed all the same. */
export function summaryOf(document: unknown): Summary {
  const { gapMm, notes } = isRecord(document) ? document : {};
  const read = notes === undefined ? NO_NOTES : readNotes(notes);
  return {
    gapMm: typeof gapMm === "number" && Number.isFinite(gapMm) ? gapMm : null,
    holds: HOLDS.filter(([, isHeld]) => isHeld(read)).map(([words]) => words),
  };
}
