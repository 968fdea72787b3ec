/** A fourth leadpipe, looked for from one of the three: notes 2 to 8 in tune, by the page's worker for design. */
import { openCompareWorker } from "../../src/app/work/openWorkers.ts";
import { WorkerClient } from "../../src/app/work/workerClient.ts";
import type { Variant } from "../../src/study/compare/compare.ts";
import type { DesignProgress } from "../../src/study/design/design.ts";
import { parseDesignGoal } from "../../src/study/design/designGoal.ts";
import type { DesignLimits } from "../../src/study/design/designLimits.ts";
import type { Designed } from "../../workers/instrument/compare.ts";
import { following } from "../paper/longWork.ts";

export const goalText = [2, 3, 4, 5, 6, 7, 8].map((n) => `cents${n}=0`).join(", ");

/** What can be drawn off a mandrel and still fits receiver and body. */
export const limits: DesignLimits = {
  knots: 6,
  holdsEntry: true,
  holdsEnd: true,
  smallestMm: 8.5,
  largestMm: 12,
  widens: true,
  leastCurvatureRadiusMm: 0,
  gapMm: null,
};

const restarts = 3;
const stepsEach = 25;

export interface Search {
  readonly steps: readonly DesignProgress[];
  readonly found: Designed;
}

const client = new WorkerClient({ connect: openCompareWorker });

/** Course of the search from a drawing; the same drawing finds the same. */
export const search = following<Variant, Search>(async ({ setup }, tell, signal) => {
  const steps: DesignProgress[] = [];
  const question = { goal: parseDesignGoal(goalText), limits, restarts, stepsEach };
  const found = await client.run(
    "design",
    setup,
    question,
    (step) => {
      steps.push(step);
      tell(steps.length, restarts * stepsEach);
    },
    signal,
  );
  return found === null || "refused" in found ? found : { steps, found };
});
