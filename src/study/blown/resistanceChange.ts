/**
 * What a change of gap does to how hard a setup blows, and whether it could be felt: the trade's "a wider gap blows with more
 * resistance" beside the computed change, whose doubt is the distance between the gap's bounds.
 */

import type { Bounded } from "../../flow/gapLoss.ts";
import { pipeLoss } from "../../flow/pipe.ts";
import { gapMm as ownGapMm, type Setup } from "../../setup/setup.ts";
import { OutOfRange } from "../../units/outOfRange.ts";
import { isDecided, judge } from "../change/judgement.ts";
import { flowPath } from "./flowPath.ts";
import { bounded, flowOf, type Resistance, resistance } from "./resistance.ts";

export type ResistanceFinding =
  | "agrees"
  | "disagrees"
  | "too-small"
  /** The bounds do not tell. */
  | "unknown"
  | "same-gap";

export interface ResistanceChange {
  readonly reference: Resistance;
  readonly chosen: Resistance;
  /** Chosen less reference, figure by figure, Pa. */
  readonly changePa: Bounded;
  /** The same of the reference's whole drop, %. */
  readonly changePercent: Bounded;
  /** Between any figure of the one gap and any of the other, %: the change lies in here. */
  readonly rangePercent: readonly [low: number, high: number];
  /** Smallest change a player is assumed to notice, %. */
  readonly thresholdPercent: number;
  /** Beside the rule of thumb, that wider is more. */
  readonly finding: ResistanceFinding;
  /**
   * Equivalent bore: change of every diameter of the leadpipe, mm, that changes the drop as much, figure by figure; null where
   * no leadpipe does.
   */
  readonly equivalentBoreMm: Readonly<Record<keyof Bounded, number | null>>;
}

export interface ResistanceChangeOptions {
  readonly gapMm: number;
  /** The setup's own if absent. */
  readonly referenceGapMm?: number;
  readonly litresPerMinute?: number;
  readonly thresholdPercent?: number;
}

/** @throws as `resistance`; RangeError also on a threshold that is not above zero */
export function resistanceChange(setup: Setup, options: ResistanceChangeOptions): ResistanceChange {
  const {
    gapMm,
    referenceGapMm = ownGapMm(setup),
    litresPerMinute = 20,
    thresholdPercent = setup.thresholds.pressurePercent,
  } = options;
  if (!(thresholdPercent > 0 && thresholdPercent < Infinity))
    throw new OutOfRange(`a threshold of ${thresholdPercent} % is none: give per cent above 0, such as 10`);
  const reference = resistance(setup, { gapMm: referenceGapMm, litresPerMinute });
  const chosen = resistance(setup, { gapMm, litresPerMinute });
  const percent = (change: number, of: number) => (of > 0 ? (100 * change) / of : 0);
  const changePa = bounded((figure) => chosen.gap.dropPa[figure] - reference.gap.dropPa[figure]);
  // of the least that the whole may be: how sharp the throat's edge is changes no gap
  const rangePercent =
    gapMm === referenceGapMm
      ? ([0, 0] as const)
      : ([
          percent(chosen.gap.dropPa.lower - reference.gap.dropPa.upper, reference.dropPa.lower),
          percent(chosen.gap.dropPa.upper - reference.gap.dropPa.lower, reference.dropPa.lower),
        ] as const);
  const changePercent = bounded((figure) => percent(changePa[figure], reference.dropPa.estimate));
  const equivalent = (change: number) => equivalentBoreMm(setup, litresPerMinute, change);
  return {
    reference,
    chosen,
    changePa,
    changePercent,
    rangePercent,
    thresholdPercent,
    finding: findingOf(gapMm - referenceGapMm, changePercent.estimate, rangePercent, thresholdPercent),
    equivalentBoreMm: {
      lower: equivalent(changePa.lower),
      estimate: equivalent(changePa.estimate),
      upper: equivalent(changePa.upper),
    },
  };
}

/**
 * "too-small" only where that holds for every figure between the bounds; "agrees" and "disagrees" where the estimate
 * says so and no figure says the other so that it would be noticed. All in % but the widening, whose sign alone counts.
 */
export function findingOf(
  widening: number,
  estimate: number,
  bounds: readonly [number, number],
  threshold: number,
): ResistanceFinding {
  if (widening === 0) return "same-gap";
  const judgement = judge(estimate, threshold, { bounds });
  if (!isDecided(judgement)) return judgement;
  return (judgement === "more") === widening > 0 ? "agrees" : "disagrees";
}

/** The finding if players noticed changes that many times as large as is assumed. */
export const findingAt = (
  { reference, chosen, changePercent, rangePercent, thresholdPercent }: ResistanceChange,
  factor: number,
): ResistanceFinding =>
  findingOf(chosen.gapMm - reference.gapMm, changePercent.estimate, rangePercent, factor * thresholdPercent);

const STEPS = 60;

/**
 * Change of every diameter of the leadpipe, mm, by which its own friction and widening lose `change` Pa more. Its mouth and its
 * joint with the body stay as they fit now, so that it is the bore's effect alone, which falls steadily as the bore grows; by
 * bisection. Null where even no loss at all in the leadpipe would not do, or without flow.
 */
function equivalentBoreMm(setup: Setup, litresPerMinute: number, change: number): number | null {
  const { air, pipes } = flowPath(setup);
  const flow = flowOf(litresPerMinute);
  const loss = (wider: number): number => {
    const cones = pipes.leadpipe.map(({ length, radiusIn, radiusOut }) => ({
      length,
      radiusIn: radiusIn + wider / 2,
      radiusOut: radiusOut + wider / 2,
    }));
    const { friction, areaChange } = pipeLoss(cones, air, flow);
    return friction + areaChange;
  };
  const wanted = loss(0) + change;
  if (change === 0) return 0;
  if (!(wanted > 0)) return null;
  const narrowest = pipes.leadpipe.reduce(
    (least, { radiusIn, radiusOut }) => Math.min(least, 2 * radiusIn, 2 * radiusOut),
    Infinity,
  );
  // from almost closed to a hundred times as wide: the loss spans any that a gap can cause
  let [narrow, wide] = [-0.99 * narrowest, 100 * narrowest];
  if (loss(narrow) < wanted || loss(wide) > wanted) return null;
  for (let i = 0; i < STEPS; i++) {
    const middle = (narrow + wide) / 2;
    if (loss(middle) > wanted) narrow = middle;
    else wide = middle;
  }
  return 500 * (narrow + wide);
}
