/** What breath does to the peaks, and a gap from none to some under it, still and blown: asked of the page's own model. */
import { connectionTo } from "../../src/app/work/connection.ts";
import { WorkerClient } from "../../src/app/work/workerClient.ts";
import type { BreathEffect, PeakUnderBreath } from "../../src/study/blown/breathEffect.ts";
import { PLAYED } from "../../src/study/change/verdicts.ts";
import type { Model } from "../../workers/instrument/model.ts";
import { demo, mostGapMm } from "../paper/demo.ts";
import { following } from "../paper/longWork.ts";

const openModelWorker = () =>
  connectionTo<Model>(
    new Worker(new URL("../../workers/instrument/model.worker.ts", import.meta.url), { type: "module" }),
  );

const client = new WorkerClient({ connect: openModelWorker });

export interface BlownQuestion {
  readonly gapMm: number;
  readonly litresPerMinute: number;
}

export interface BlownPeaks {
  /** From no gap to the chosen one, and to the widest. */
  readonly chosen: BreathEffect;
  readonly widest: BreathEffect;
}

export const blownPeaks = following<BlownQuestion, BlownPeaks>(
  async ({ gapMm, litresPerMinute }, _, signal) => {
    const answers: BreathEffect[] = [];
    for (const one of [gapMm, mostGapMm]) {
      const answer = await client.ask(demo, (worker) => worker.breathEffect(litresPerMinute, one, 0));
      if (signal.aborted) return null;
      if ("refused" in answer) return answer;
      answers.push(answer);
    }
    const [chosen, widest] = answers;
    return { chosen, widest };
  },
);

/** Those that are played. */
export const playedPeaks = ({ peaks }: BreathEffect): readonly PeakUnderBreath[] =>
  peaks.filter(({ n }) => n >= PLAYED[0] && n <= PLAYED[1]);

export interface GapEffect {
  readonly still: readonly [low: number, high: number];
  readonly blown: readonly [low: number, high: number];
  /** Most, over notes and bounds, that breath makes the gap's effect another one, dB. */
  readonly otherBy: number;
  /** Most that any peak changes, still or by any bound, dB. */
  readonly most: number;
}

/** The ends of what a change of gap does to the played peaks, dB. */
export function gapEffect(effect: BreathEffect): GapEffect {
  const peaks = playedPeaks(effect);
  const still = peaks.map(({ gapStillDb }) => gapStillDb);
  const blown = peaks.map(({ gapBlownDb }) => gapBlownDb.estimate);
  const bounds = peaks.flatMap(({ gapBlownDb: { lower, upper } }) => [lower, upper]);
  return {
    still: [Math.min(...still), Math.max(...still)],
    blown: [Math.min(...blown), Math.max(...blown)],
    otherBy: Math.max(
      ...peaks.flatMap(({ gapStillDb, gapBlownDb }) =>
        Object.values(gapBlownDb).map((one) => Math.abs(one - gapStillDb)),
      ),
    ),
    most: Math.max(...[...still, ...blown, ...bounds].map(Math.abs)),
  };
}
