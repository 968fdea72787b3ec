/**
 * A job's document as earlier versions of the page kept it, brought to the present form, one step a version:
 *
 *     1  one trial: `notes.trial.trial`, put aside when another was planned
 *     2  any number: `notes.trial.trials`, and `notes.trial.shown`, the id of the one that is looked at
 *     3  the same, and `notes.listen`, takes of a player that an earlier page would drop
 *     4  the same, and `notes.resonances`, sweeps of the instrument that an earlier page would drop
 */
import { isRecord } from "../setup/file/jsonRecord.ts";
import { RecordError } from "./recordError.ts";

export const DOCUMENT_FORMAT = "annulus-document";
export const DOCUMENT_VERSION = 4;

type Fields = Readonly<Record<string, unknown>>;

/** What a document of a later version is answered with. */
export const MADE_LATER = "made by a later version of this page; load the page again to get it";

const STEPS: Readonly<Record<number, (kept: Fields) => Fields>> = {
  1: oneTrialAmongMany,
  2: withListening,
  3: withSweeps,
};

/**
 * The same in the present form; what no version has written stays as it is, for the reader to refuse.
 *
 * @throws RecordError for a later version
 */
export function migrateDocument(kept: Fields): Fields {
  const { format, version } = kept;
  if (format !== DOCUMENT_FORMAT || typeof version !== "number") return kept;
  if (version > DOCUMENT_VERSION) throw new RecordError(MADE_LATER);
  let document = kept;
  for (let step = version; step in STEPS; step++) document = STEPS[step](document);
  return document;
}

function oneTrialAmongMany(document: Fields): Fields {
  const { notes } = document;
  const moved = { ...document, version: 2 };
  if (!isRecord(notes) || !isRecord(notes.trial)) return moved;
  const { trial, ...plan } = notes.trial;
  if (!isRecord(trial)) return { ...moved, notes: { ...notes, trial: plan } };
  const id = typeof trial.id === "string" ? trial.id : "";
  return { ...moved, notes: { ...notes, trial: { ...plan, trials: [trial], shown: id } } };
}

/** Nobody had listened yet. */
function withListening(document: Fields): Fields {
  return { ...document, version: 3 };
}

/** Nobody had swept yet. */
function withSweeps(document: Fields): Fields {
  return { ...document, version: 4 };
}
