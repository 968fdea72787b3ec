/** What takes seconds, computed in the page's workers for feel: slots at two gaps, the same over all lips tried, many leaps. */
import { openFeelWorker } from "../../src/app/work/openWorkers.ts";
import { WorkerClient } from "../../src/app/work/workerClient.ts";
import type { LeapPoint } from "../../src/charts/plots/leapChart.ts";
import type { Felt } from "../../src/study/feel/felt.ts";
import { missChance } from "../../src/study/feel/leaps.ts";
import type { GapSlots } from "../../src/study/feel/slots.ts";
import { demo, referenceGapMm } from "../paper/demo.ts";
import { following } from "../paper/longWork.ts";

/** Long work ends what was asked of the same worker before, so each kind of question has its own. */
const worker = () => new WorkerClient({ connect: openFeelWorker });
const [forSlots, forLips, forLeaps] = [worker(), worker(), worker()];

/** Course of every note's slot: the reference gap first, the chosen one second. */
export const slotsAtBoth = following<number, readonly GapSlots[]>((gapMm, tell, signal) =>
  forSlots.run("slots", demo, { gapsMm: [referenceGapMm, gapMm], referenceGapMm }, tell, signal),
);

/** Course of the change between the two, with every lip parameter at either end of its range. */
export const overLips = following<number, Felt>((gapMm, tell, signal) =>
  forLips.run("felt", demo, { gapMm, referenceGapMm, litresPerMinute: 20 }, tell, signal),
);

export interface LeapQuestion {
  readonly from: number;
  readonly to: number;
  readonly aimCents: number;
}

export interface MissedLeaps extends LeapQuestion {
  readonly points: readonly LeapPoint[];
}

const triedGapsMm = [0, referenceGapMm, 5, 8];
const runs = 40;

/** Course of how often a leap misses, gap by gap, with the same aiming errors at each. */
export const missesOf = following<LeapQuestion, MissedLeaps>(async (question, tell, signal) => {
  const points: LeapPoint[] = [];
  for (const gapMm of triedGapsMm) {
    const told = (done: number) => tell(points.length * runs + done, triedGapsMm.length * runs);
    const tally = await forLeaps.run(
      "leaps",
      demo,
      { ...question, gapMm, referenceGapMm, runs },
      told,
      signal,
    );
    if (tally === null || "refused" in tally) return tally;
    const { chance, interval } = missChance(tally, question.to);
    const missed = tally.runs - (tally.landed.get(question.to) ?? 0);
    points.push({ gapMm, runs: tally.runs, missed, silent: tally.silent, chance, interval });
  }
  return { ...question, points };
});
