/** The takes of a job, each at the gap it is known by now to belong to: of a blind trial only once its codes are open. */
import type { TakeAtGap } from "../../../study/listened/measuredGaps.ts";
import { isFinished } from "../../../trial/trial.ts";
import type { Notes } from "../notes/notes.ts";

export function takesAtGaps({ listen, trial }: Pick<Notes, "listen" | "trial">): readonly TakeAtGap[] {
  return listen.takes.flatMap((take): TakeAtGap[] => {
    if (take.gapMm !== null) return [{ gapMm: take.gapMm, take }];
    const opened = trial.trials.find((one) => one.id === take.blind?.trial && isFinished(one));
    const turn = opened?.turns.find(({ code }) => code === take.blind?.code);
    const gapMm = turn && opened?.items[turn.item].gapMm;
    return gapMm == null ? [] : [{ gapMm, take }];
  });
}
