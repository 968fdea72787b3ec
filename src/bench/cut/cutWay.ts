/** One way to change a gap: its size, what else it changes, whether it can be undone. Plain data for a table or a card. */
import type { ProfileMm } from "../../setup/setup.ts";
import type { CutCaution } from "./cautions.ts";
import type { CutWayFinding } from "./cutFinding.ts";

export type CutWayName = "turn-down" | "shorten" | "sleeve" | "exchange" | "stop";

/** What the size of a way counts: a length at the shank, or marks of a stop. */
export type CutSizeUnit =
  | "off-diameter"
  | "off-length"
  | "layer-thickness"
  | "of-diameter"
  | "marks-to-less"
  | "marks-to-more";

export type CutDimension = "insertion" | "shank-end-diameter" | "wall" | "exit-bore" | "mouthpiece-length";

export interface CutSideEffect {
  readonly what: CutDimension;
  readonly beforeMm: number;
  readonly afterMm: number;
}

export interface CutWayStage {
  readonly gapBeforeMm: number;
  readonly gapAfterMm: number;
  /** Of this stage, in the way's unit. */
  readonly size: number;
  /** From the start to the end of this stage. */
  readonly total: number;
  /** What can be checked at the bench after it; undefined when it depends on a dimension that is not known. */
  readonly check: CutSideEffect | undefined;
}

export interface CutWay {
  readonly name: CutWayName;
  readonly isPossible: boolean;
  /** What `size` counts. */
  readonly unit: CutSizeUnit;
  /** Of the whole change, above 0; undefined when a dimension that it needs is not known. */
  readonly size: number | undefined;
  readonly sideEffects: readonly CutSideEffect[];
  /** Change of the air column from rim to leadpipe, mm, which the tuning slide has to take up. */
  readonly columnChangeMm: number;
  /** What is not has to be confirmed in so many words before the stages are shown as work to do. */
  readonly isReversible: boolean;
  /** Possible, but not to be begun while the gap's uncertainty is not known. It then has no stages and no card. */
  readonly isHeldBack: boolean;
  /** Empty for what is done at one go, for what is not possible, and for what is held back. */
  readonly stages: readonly CutWayStage[];
  /** Why it is not possible, or what to know about the size; never empty. */
  readonly findings: readonly CutWayFinding[];
  readonly cautions: readonly CutCaution[];
}

/** What every way is worked out from; checked by `planCut`. */
export interface CutWork {
  readonly gapMm: number;
  /** Target less gap, mm: below 0 for less gap. */
  readonly changeMm: number;
  /** Sizes of the stages as changes of gap, mm, all above 0. */
  readonly stepsMm: readonly number[];
  readonly minimumWallMm: number;
  readonly endDiameterMm: number | undefined;
  readonly mouthDiameterMm: number | undefined;
  readonly shankTaper: number;
  readonly receiverTaper: number;
  readonly depthMm: number;
  readonly boreMm: ProfileMm;
  readonly stopMmPerMark: number | undefined;
}

/** What else changes at the seat when metal goes off the shank; of the end only where its diameter is known. */
export function seatSideEffects(
  { depthMm, gapMm, changeMm, endDiameterMm }: CutWork,
  newEndMm: (endDiameterMm: number) => number,
  wallMm: { readonly before: number; readonly after: number },
): CutSideEffect[] {
  const insertionMm = depthMm - gapMm;
  const insertion = { what: "insertion" as const, beforeMm: insertionMm, afterMm: insertionMm - changeMm };
  if (endDiameterMm === undefined) return [insertion];
  return [
    insertion,
    { what: "shank-end-diameter", beforeMm: endDiameterMm, afterMm: newEndMm(endDiameterMm) },
    { what: "wall", beforeMm: wallMm.before, afterMm: wallMm.after },
  ];
}

/** What can be read after a stage: how far the shank goes in, which shows a change of diameter twenty times as large at 1:20. */
export const insertionCheck = (
  { depthMm, gapMm, changeMm }: CutWork,
  gapPerSize: number,
): ((total: number) => CutSideEffect) => {
  const beforeMm = depthMm - gapMm;
  return (total) => ({
    what: "insertion",
    beforeMm,
    afterMm: beforeMm - Math.sign(changeMm) * total * gapPerSize,
  });
};

/** The stages of a way whose size grows by `perGap` for each mm of gap. */
export function wayStages(
  { gapMm, changeMm, stepsMm }: CutWork,
  perGap: number,
  check: (total: number) => CutSideEffect | undefined,
): CutWayStage[] {
  let doneMm = 0;
  return stepsMm.map((stepMm) => {
    const gapBeforeMm = gapMm + Math.sign(changeMm) * doneMm;
    doneMm += stepMm;
    const total = doneMm * perGap;
    return {
      gapBeforeMm,
      gapAfterMm: gapMm + Math.sign(changeMm) * doneMm,
      size: stepMm * perGap,
      total,
      check: check(total),
    };
  });
}
