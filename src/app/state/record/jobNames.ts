/**
 * Whose paper it is: job, player, instrument, mouthpiece, and who works here, from one place for the page's head and every
 * paper. What was typed for the papers comes first, then what the open job is listed by, then what a trial and the setup say.
 */
import type { JobTexts } from "../../../record/job.ts";
import { reportedTrial } from "../notes/notes.ts";
import { HEADS, type Head, type SheetNotes } from "../notes/sheet.ts";
import type { Document, View } from "../state.ts";

export interface JobNames {
  /** What the job is called; empty where nobody said. */
  readonly job: string;
  readonly player: string;
  readonly instrument: string;
  readonly mouthpiece: string;
  readonly workshop: string;
  readonly technician: string;
  /** The setup that the model takes, where it is not called as the player's instrument is; else empty. */
  readonly computedOn: string;
}

export interface NamesQuestion {
  readonly document: Pick<Document, "setup" | "notes">;
  /** Who works here, typed once in this browser. */
  readonly view: Pick<View, "workshop" | "technician">;
  /** What the open job is listed by; null where none is open. */
  readonly row: Partial<JobTexts> | null;
}

export function jobNames({ document: { setup, notes }, view, row }: NamesQuestion): JobNames {
  const { heads } = notes.sheet;
  const trial = reportedTrial(notes) ?? notes.trial.trials.at(-1);
  const instrument = first(heads.instrument, row?.instrument, setup.name);
  return {
    job: first(heads.title, row?.title),
    player: first(heads.player, row?.player, trial?.player),
    instrument,
    mouthpiece: first(heads.mouthpiece, row?.mouthpiece),
    workshop: first(heads.workshop, view.workshop),
    technician: first(heads.technician, view.technician),
    computedOn: instrument === setup.name.trim() ? "" : setup.name.trim(),
  };
}

/** What a paper's head says where nothing is typed for it. */
export function unlessTyped(question: NamesQuestion): Readonly<Partial<Record<Head, string>>> {
  const { document } = question;
  const sheet: SheetNotes = { ...document.notes.sheet, heads: NO_HEADS };
  const { job, player, instrument, mouthpiece, workshop, technician } = jobNames({
    ...question,
    document: { ...document, notes: { ...document.notes, sheet } },
  });
  return { title: job, player, instrument, mouthpiece, workshop, technician };
}

const NO_HEADS = Object.fromEntries(HEADS.map((name) => [name, ""])) as SheetNotes["heads"];

const first = (...texts: readonly (string | undefined)[]): string =>
  texts.map((text) => text?.trim() ?? "").find((text) => text !== "") ?? "";
