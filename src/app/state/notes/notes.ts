/**
 * What is written down at the bench, as typed: texts that cannot be read yet stay as they are, and nothing here is lost
 * by a reload. One part a task.
 */

import type { Trial } from "../../../trial/trial.ts";
import { type KeptBy, record } from "../../form/kept.ts";
import { compareForm } from "./compare.ts";
import { cutForm } from "./cut.ts";
import { fitForm } from "./fit.ts";
import { listenForm } from "./listen.ts";
import { measureForm } from "./measure.ts";
import { playForm } from "./play.ts";
import { resonancesForm } from "./resonances.ts";
import { sheetForm, sheetNotesForAnother } from "./sheet.ts";
import { finishedTrials, lastFinished, trialForm } from "./trial.ts";

const notes = record({
  measure: measureForm,
  fit: fitForm,
  cut: cutForm,
  play: playForm,
  listen: listenForm,
  resonances: resonancesForm,
  trial: trialForm,
  compare: compareForm,
  sheet: sheetForm,
});
export type Notes = KeptBy<typeof notes>;

export const NO_NOTES: Notes = notes.empty;

/** Notes as they were kept; a part that is absent or cannot be read is empty. */
export const readNotes: (json: unknown) => Notes = notes.ofJson;

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

/** The finished trial that the printed sheet reports: the one chosen, else the last. */
export const reportedTrial = ({ sheet, trial }: Notes): Trial | null =>
  finishedTrials(trial).find(({ id }) => id === sheet.trial) ?? lastFinished(trial);
