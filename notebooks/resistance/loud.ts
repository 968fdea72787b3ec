/** Peaks from soft to loud at the reference gap and another one, computed in the page's worker for feel. */
import { openFeelWorker } from "../../src/app/work/openWorkers.ts";
import { WorkerClient } from "../../src/app/work/workerClient.ts";
import type { LevelLoss } from "../../src/study/blown/levelLoss.ts";
import { demo, referenceGapMm } from "../paper/demo.ts";
import { following } from "../paper/longWork.ts";

const client = new WorkerClient({ connect: openFeelWorker });

/** Course of the levels: the reference first, the chosen gap second. */
export const loudness = following<number, readonly LevelLoss[]>((gapMm, tell, signal) =>
  client.run("levels", demo, { gapsMm: [referenceGapMm, gapMm] }, tell, signal),
);

export interface LoudestLoss {
  readonly n: number;
  readonly levelDb: number;
  /** Of all edges, and what the gap alone takes by its upper figure, dB. */
  readonly heightDb: number;
  readonly gapAtMostDb: number;
}

/** What a resonance loses at the loudest level. */
export function loudestLoss({ modes }: LevelLoss, n: number): LoudestLoss | null {
  const last = modes.find((mode) => mode.n === n)?.levels.at(-1);
  if (!last || last.heightDb === null || last.gapAloneDb.upper === null) return null;
  return { n, levelDb: last.levelDb, heightDb: last.heightDb, gapAtMostDb: last.gapAloneDb.upper };
}
