/**
 * What is written down at the bench, as typed: texts that cannot be read yet stay as they are, and nothing here is lost
 * by a reload. One part a task.
 */
import { type CompareNotes, NO_COMPARISON, readCompareNotes } from "./compareNotes.ts";
import { type CutNotes, NO_CUT, readCutNotes } from "./cutNotes.ts";
import { type FitNotes, NO_FIT, readFitNotes } from "./fitNotes.ts";
import { type MeasureNotes, NO_MEASUREMENT, readMeasureNotes } from "./measureNotes.ts";
import { NO_PLAYING, type PlayNotes, readPlayNotes } from "./playNotes.ts";
import { NO_SHEET, readSheetNotes, type SheetNotes, sheetNotesForAnother } from "./sheetNotes.ts";
import { NO_TRIAL, readTrialNotes, type TrialNotes } from "./trialNotes.ts";

export interface Notes {
  readonly measure: MeasureNotes;
  readonly fit: FitNotes;
  readonly cut: CutNotes;
  readonly play: PlayNotes;
  readonly trial: TrialNotes;
  readonly compare: CompareNotes;
  readonly sheet: SheetNotes;
}

export const NO_NOTES: Notes = {
  measure: NO_MEASUREMENT,
  fit: NO_FIT,
  cut: NO_CUT,
  play: NO_PLAYING,
  trial: NO_TRIAL,
  compare: NO_COMPARISON,
  sheet: NO_SHEET,
};

/** Notes as they were kept; a part that is absent or cannot be read is empty. */
export function readNotes(json: unknown): Notes {
  const kept = (typeof json === "object" && json !== null ? json : {}) as Partial<
    Record<keyof Notes, unknown>
  >;
  return {
    measure: readMeasureNotes(kept.measure),
    fit: readFitNotes(kept.fit),
    cut: readCutNotes(kept.cut),
    play: readPlayNotes(kept.play),
    trial: readTrialNotes(kept.trial),
    compare: readCompareNotes(kept.compare),
    sheet: readSheetNotes(kept.sheet),
  };
}

/**
 * The notes for another instrument: readings and orders belong to the old one, a table of parts to nobody in particular,
 * lips to the player; what is compared are whole instruments themselves; of the printed sheet stays who works here.
 */
export const notesForAnother = ({ fit, play, compare, sheet }: Notes): Notes => ({
  ...NO_NOTES,
  fit,
  play,
  compare,
  sheet: sheetNotesForAnother(sheet),
});
