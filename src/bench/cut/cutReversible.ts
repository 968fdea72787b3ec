/** The ways that can be undone: build the shank up, exchange it, move an adjustable stop. Diameters go by Δd = t·Δi. */

import { smallestTaper } from "../fit/fitDimensions.ts";
import { seatTaper } from "../fit/seat.ts";
import { exchangeCaution, sleeveCaution, solderCaution, stopCaution } from "./cautions.ts";
import { type CutSideEffect, type CutWay, type CutWork, wayStages } from "./cutWay.ts";

const reversible = {
  isReversible: true,
  needsConfirmation: false,
  confirmation: undefined,
  heldBack: undefined,
} as const;
const noTaper = "Neither part has a taper, so the diameter does not decide where the shank stops.";

const newInsertion = ({ depthMm, gapMm, changeMm }: CutWork): CutSideEffect => ({
  what: "insertion",
  beforeMm: depthMm - gapMm,
  afterMm: depthMm - gapMm - changeMm,
});

const newEndDiameter = ({ endDiameterMm }: CutWork, growthMm: number): CutSideEffect | undefined =>
  endDiameterMm === undefined
    ? undefined
    : { what: "shank end diameter", beforeMm: endDiameterMm, afterMm: endDiameterMm + growthMm };

/** More gap: a layer of thickness Δd/2 all along the seat. */
export function sleeve(work: CutWork): CutWay {
  const t = seatTaper(work.shankTaper, work.receiverTaper);
  const growthMm = work.changeMm * t;
  const { endDiameterMm, mouthDiameterMm } = work;
  const isTooWide =
    endDiameterMm !== undefined &&
    mouthDiameterMm !== undefined &&
    endDiameterMm + growthMm >= mouthDiameterMm;
  const flaw =
    t < smallestTaper
      ? noTaper
      : isTooWide
        ? `The shank's end would become ${work.inWords(endDiameterMm + growthMm)}, too large to enter the receiver's mouth.`
        : undefined;
  const diameter = newEndDiameter(work, growthMm);
  return {
    name: "sleeve",
    title: "sleeve or plate the shank",
    isPossible: flaw === undefined,
    unit: "mm of layer thickness",
    size: t < smallestTaper ? undefined : growthMm / 2,
    sideEffects: [newInsertion(work), ...(diameter ? [diameter] : [])],
    columnChangeMm: work.changeMm,
    ...reversible,
    stages: flaw === undefined ? wayStages(work, t / 2, (total) => newEndDiameter(work, 2 * total)) : [],
    words: [
      flaw ??
        "The layer can be taken off again. A sleeve thicker than that needs the shank turned down first, which cannot be undone.",
    ],
    cautions: [sleeveCaution, solderCaution],
  };
}

/** Either way: a shank that is smaller (less gap) or larger (more gap) at the seat. Done at one go. */
export function exchange(work: CutWork): CutWay {
  const t = seatTaper(work.shankTaper, work.receiverTaper);
  const growthMm = work.changeMm * t;
  const isPossible = t >= smallestTaper;
  const diameter = newEndDiameter(work, growthMm);
  const asked =
    diameter === undefined
      ? `Order one ${work.inWords(Math.abs(growthMm), 3)} ${growthMm < 0 ? "smaller" : "larger"} at the seat, of the same length.`
      : `Order one with an end diameter of ${work.inWords(diameter.afterMm, 3)}, of the same length, with the receiver's taper.`;
  return {
    name: "exchange",
    title: "exchange the shank",
    isPossible,
    unit: "mm of the diameter",
    size: isPossible ? Math.abs(growthMm) : undefined,
    sideEffects: isPossible ? [newInsertion(work), ...(diameter ? [diameter] : [])] : [],
    columnChangeMm: work.changeMm,
    ...reversible,
    stages: [],
    words: isPossible ? [asked, "Only for a mouthpiece whose shank comes off."] : [noTaper],
    cautions: [exchangeCaution],
  };
}

/** Either way: an adjustable receiver. */
export function moveStop(work: CutWork): CutWay {
  const { stopMmPerMark, changeMm } = work;
  const isKnown = stopMmPerMark !== undefined;
  return {
    name: "stop",
    title: "move the stop of an adjustable receiver",
    isPossible: isKnown,
    unit: `marks towards ${changeMm < 0 ? "less" : "more"} gap`,
    size: isKnown ? Math.abs(changeMm) / stopMmPerMark : undefined,
    sideEffects: [],
    columnChangeMm: changeMm,
    ...reversible,
    stages: isKnown ? wayStages(work, 1 / stopMmPerMark, () => undefined) : [],
    words: isKnown
      ? ["Whether the air column changes by as much depends on how the stop is made."]
      : ["Only for an adjustable receiver: give how far the stop moves for one mark."],
    cautions: [stopCaution],
  };
}
