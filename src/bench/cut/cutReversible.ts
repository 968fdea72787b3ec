/** The ways that can be undone: build the shank up, exchange it, move an adjustable stop. Diameters go by Δd = t·Δi. */

import { smallestTaper } from "../fit/fitDimensions.ts";
import { seatTaper } from "../fit/seat.ts";
import type { CutObstacle, CutWayFinding } from "./cutFinding.ts";
import { type CutSideEffect, type CutWay, type CutWork, insertionCheck, wayStages } from "./cutWay.ts";

const reversible = {
  isReversible: true,
  isHeldBack: false,
} as const;

const newInsertion = ({ depthMm, gapMm, changeMm }: CutWork): CutSideEffect => ({
  what: "insertion",
  beforeMm: depthMm - gapMm,
  afterMm: depthMm - gapMm - changeMm,
});

const newEndDiameter = ({ endDiameterMm }: CutWork, growthMm: number): CutSideEffect | undefined =>
  endDiameterMm === undefined
    ? undefined
    : { what: "shank-end-diameter", beforeMm: endDiameterMm, afterMm: endDiameterMm + growthMm };

/** More gap: a layer of thickness Δd/2 all along the seat. */
export function sleeve(work: CutWork): CutWay {
  const t = seatTaper(work.shankTaper, work.receiverTaper);
  const growthMm = work.changeMm * t;
  const { endDiameterMm, mouthDiameterMm } = work;
  const isTooWide =
    endDiameterMm !== undefined &&
    mouthDiameterMm !== undefined &&
    endDiameterMm + growthMm >= mouthDiameterMm;
  const obstacle: CutObstacle | undefined =
    t < smallestTaper
      ? { kind: "untapered" }
      : isTooWide
        ? { kind: "too-wide-for-mouth", endDiameterMm: endDiameterMm + growthMm }
        : undefined;
  const diameter = newEndDiameter(work, growthMm);
  return {
    name: "sleeve",
    isPossible: obstacle === undefined,
    unit: "layer-thickness",
    size: t < smallestTaper ? undefined : growthMm / 2,
    sideEffects: [newInsertion(work), ...(diameter ? [diameter] : [])],
    columnChangeMm: work.changeMm,
    ...reversible,
    stages: obstacle === undefined ? wayStages(work, t / 2, insertionCheck(work, 2 / t)) : [],
    findings: obstacle
      ? [obstacle]
      : [
          { kind: "layer-comes-off" },
          { kind: "engagement-left", lengthMm: work.depthMm - work.gapMm - work.changeMm },
        ],
    cautions: ["sleeve", "solder"],
  };
}

/** Either way: a shank that is smaller (less gap) or larger (more gap) at the seat. Done at one go. */
export function exchange(work: CutWork): CutWay {
  const t = seatTaper(work.shankTaper, work.receiverTaper);
  const growthMm = work.changeMm * t;
  const isPossible = t >= smallestTaper;
  const diameter = newEndDiameter(work, growthMm);
  const order: CutWayFinding =
    diameter === undefined
      ? { kind: "order-by-difference", differenceMm: growthMm }
      : { kind: "order-by-end-diameter", endDiameterMm: diameter.afterMm };
  return {
    name: "exchange",
    isPossible,
    unit: "of-diameter",
    size: isPossible ? Math.abs(growthMm) : undefined,
    sideEffects: isPossible ? [newInsertion(work), ...(diameter ? [diameter] : [])] : [],
    columnChangeMm: work.changeMm,
    ...reversible,
    stages: [],
    findings: isPossible ? [order, { kind: "separate-shank-only" }] : [{ kind: "untapered" }],
    cautions: ["exchange"],
  };
}

/** Either way: an adjustable receiver. */
export function moveStop(work: CutWork): CutWay {
  const { stopMmPerMark, changeMm } = work;
  const isKnown = stopMmPerMark !== undefined;
  return {
    name: "stop",
    isPossible: isKnown,
    unit: changeMm < 0 ? "marks-to-less" : "marks-to-more",
    size: isKnown ? Math.abs(changeMm) / stopMmPerMark : undefined,
    sideEffects: [],
    columnChangeMm: changeMm,
    ...reversible,
    stages: isKnown ? wayStages(work, 1 / stopMmPerMark, () => undefined) : [],
    findings: [{ kind: isKnown ? "stop-column" : "stop-unknown" }],
    cautions: ["stop"],
  };
}
