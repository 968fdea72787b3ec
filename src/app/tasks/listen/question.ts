/** What a take is asked, from the notes that were chosen: every open note that may sound is named, neighbours included. */
import type { TakeQuestion } from "../../../listen/takeQuestion.ts";
import type { InstrumentKind } from "../../../setup/instrumentKind.ts";
import { MOST_PARTIALS } from "../../../words/instruments.ts";
import { writtenHz } from "../../state/bench/listened.ts";
import { type ListenNotes, listenedNotes } from "../../state/notes/listen.ts";

/** Notes to each side that a slip may land on. */
const NEIGHBOURS = 2;

/** Pitch is looked for no higher. */
const HIGHEST_HZ = 1700;

/** Whether a partial is low enough to be listened to. */
export const isHeard = (instrument: InstrumentKind, partial: number): boolean =>
  writtenHz(instrument, partial) <= HIGHEST_HZ;

export interface Asked {
  readonly question: TakeQuestion;
  readonly partial: number;
  readonly toPartial: number | null;
  /** Of the note meant; of slurs the lower one. */
  readonly hz: number;
  /** All that may sound. */
  readonly partials: readonly number[];
}

export function asked(notes: ListenNotes, instrument: InstrumentKind): Asked {
  const { test } = notes;
  const { partial, toPartial } = listenedNotes(notes);
  const first = Math.max(1, partial - NEIGHBOURS);
  const last = Math.min(MOST_PARTIALS, (toPartial ?? partial) + NEIGHBOURS);
  const partials = Array.from({ length: last - first + 1 }, (_, i) => first + i).filter((n) =>
    isHeard(instrument, n),
  );
  const hz = writtenHz(instrument, partial);
  const isOfNotes = test === "slur" || test === "attack";
  return {
    question: {
      test,
      nearHz: test === "slur" ? null : hz,
      notesHz: isOfNotes ? partials.map((n) => writtenHz(instrument, n)) : [],
    },
    partial,
    toPartial,
    hz,
    partials,
  };
}
