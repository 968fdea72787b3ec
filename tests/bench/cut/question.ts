/** A question of a cut that has a plan, and one way of the plan. */
import { planCut } from "../../../src/bench/cut/cut.ts";
import type { CutQuestion } from "../../../src/bench/cut/cutQuestion.ts";
import type { CutWay, CutWayName } from "../../../src/bench/cut/cutWay.ts";

export const question: CutQuestion = {
  gapMm: 2.5,
  standardUncertaintyMm: 0.03,
  targetMm: 2,
  shank: {
    endDiameterMm: 9.7,
    taper: 0.05,
    boreMm: [
      [0, 16.4],
      [11, 3.7],
      [16, 3.7],
      [79, 8.5],
    ],
  },
  receiver: { mouthDiameterMm: 10.8, taper: 0.05, depthMm: 24.5 },
};

/** One way of the plan that a question has for its answer. */
export const wayOf = (asked: CutQuestion, name: CutWayName): CutWay =>
  planCut(asked).ways.find((way) => way.name === name)!;
