/** What a list says of a job's document without opening it: the gap measured, and which tasks hold work. */

import { fileLengths } from "../../../setup/file/fileLengths.ts";
import { isRecord } from "../../../setup/file/jsonRecord.ts";
import { withoutRoundingNoise } from "../../../units/roundingNoise.ts";
import { readMeasurement } from "../bench/measurement.ts";
import { NO_NOTES, type Notes, readNotes } from "../notes/notes.ts";

export interface Summary {
  /** Your gap: as measured, else as the file has it, and never where the slider stood; null where the document cannot be read. */
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
  ["listened", ({ listen }) => listen.takes.length > 0],
  ["swept", ({ resonances }) => resonances.takes.length > 0],
  ["trial", ({ trial }) => trial.trials.length > 0],
  ["sheet", ({ sheet: { heads, words } }) => heads.date.trim() !== "" || Object.keys(words).length > 0],
];

/** Of any JSON: a document that cannot be opened is listed all the same. */
export function summaryOf(document: unknown): Summary {
  const { setup, notes } = isRecord(document) ? document : {};
  const read = notes === undefined ? NO_NOTES : readNotes(notes);
  return {
    gapMm: gapOf(setup, read),
    holds: HOLDS.filter(([, isHeld]) => isHeld(read)).map(([words]) => words),
  };
}

/** Read without checking the whole file: thousands of jobs may be taken in at once. */
function gapOf(setup: unknown, { measure }: Notes): number | null {
  const { measured } = readMeasurement(measure);
  if (measured) return measured.gapMm;
  const { lengthMmAt } = fileLengths(setup, []);
  const [depthMm, insertionMm] = [lengthMmAt("receiver", "depth"), lengthMmAt("mouthpiece", "insertion")];
  return depthMm === undefined || insertionMm === undefined
    ? null
    : withoutRoundingNoise(depthMm - insertionMm);
}
