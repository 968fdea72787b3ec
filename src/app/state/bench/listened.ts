/** The takes of a job, each at the gap it is known by now to belong to: of a blind trial only once its codes are open. */
import type { InstrumentKind } from "../../../setup/instrumentKind.ts";
import { type ListenedNote, listenedNotes, type TakeAtGap } from "../../../study/listened/measuredGaps.ts";
import { isFinished } from "../../../trial/trial.ts";
import { partialOf } from "../../../words/instruments.ts";
import type { Notes } from "../notes/notes.ts";

function takesAtGaps({ listen, trial }: Pick<Notes, "listen" | "trial">): readonly TakeAtGap[] {
  return listen.takes.flatMap((take): TakeAtGap[] => {
    if (take.gapMm !== null) return [{ gapMm: take.gapMm, take }];
    const opened = trial.trials.find((one) => one.id === take.blind?.trial && isFinished(one));
    const turn = opened?.turns.find(({ code }) => code === take.blind?.code);
    const gapMm = turn && opened?.items[turn.item].gapMm;
    return gapMm == null ? [] : [{ gapMm, take }];
  });
}

/** The frequency that a partial is written for. */
export const writtenHz = (instrument: InstrumentKind, partial: number): number =>
  partialOf(instrument, partial).hz;

/** What they tell, note by note. */
export const listenedIn = (
  notes: Pick<Notes, "listen" | "trial">,
  instrument: InstrumentKind,
): readonly ListenedNote[] => listenedNotes(takesAtGaps(notes), (partial) => writtenHz(instrument, partial));
