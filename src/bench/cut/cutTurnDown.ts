/**
 * Less gap by turning the shank's taper down: the shank goes in further by Δi when its diameter, all along the seat, loses
 *
 *   Δd = t·Δi,   t the taper that stops it (seat.ts);   wall left at the end = (d − Δd − exit bore)/2.
 *
 * With a taper of 0.05, 0.001 in on the diameter is 0.020 in of insertion (common practice, no source).
 */
import { exitBoreMm } from "../../setup/geometry.ts";
import { smallestTaper } from "../fit/fitDimensions.ts";
import { seatTaper } from "../fit/seat.ts";
import {
  confirmationText,
  finestCutCaution,
  latheCaution,
  platingCaution,
  thinWallCaution,
} from "./cautions.ts";
import { type CutWay, type CutWork, wayStages } from "./cutWay.ts";

/** The way of turning the shank's taper down, so that it goes in further: how much, what stands in its way, its stages. */
export function turnDown(work: CutWork): CutWay {
  const { changeMm, endDiameterMm, minimumWallMm, boreMm, depthMm, gapMm } = work;
  const t = seatTaper(work.shankTaper, work.receiverTaper);
  const size = -changeMm * t;
  const exitMm = exitBoreMm(boreMm);
  const wallMm = (diameterMm: number) => (diameterMm - exitMm) / 2;
  const flaw = flawOf();
  return {
    name: "turn-down",
    title: "turn the shank's taper down",
    isPossible: flaw === undefined,
    unit: "mm off the diameter",
    size: t < smallestTaper ? undefined : size,
    sideEffects: [
      { what: "insertion", beforeMm: depthMm - gapMm, afterMm: depthMm - gapMm - changeMm },
      ...(endDiameterMm === undefined
        ? []
        : [
            { what: "shank end diameter", beforeMm: endDiameterMm, afterMm: endDiameterMm - size },
            {
              what: "wall at the shank's end",
              beforeMm: wallMm(endDiameterMm),
              afterMm: wallMm(endDiameterMm - size),
            },
          ]),
    ],
    columnChangeMm: changeMm,
    isReversible: false,
    needsConfirmation: true,
    confirmation: confirmationText,
    heldBack: undefined,
    stages:
      flaw === undefined
        ? wayStages(work, t, (total) => ({
            what: "shank end diameter",
            beforeMm: endDiameterMm!,
            afterMm: endDiameterMm! - total,
          }))
        : [],
    words: [flaw ?? "Keep the shank's taper, and take the same off all along the seat."],
    cautions: [
      latheCaution,
      ...(work.stepsMm.some((stepMm) => stepMm * t < 0.01) ? [finestCutCaution] : []),
      thinWallCaution,
      platingCaution,
    ],
  };

  function flawOf(): string | undefined {
    const mm = (lengthMm: number) => work.inWords(lengthMm, 3);
    if (t < smallestTaper) return "Neither part has a taper, so a smaller diameter does not stop further in.";
    if (endDiameterMm === undefined)
      return "The wall that would be left cannot be told: measure the shank's end diameter.";
    const leftMm = wallMm(endDiameterMm - size);
    if (leftMm >= minimumWallMm) return undefined;
    const mostMm = Math.max(0, (endDiameterMm - exitMm - 2 * minimumWallMm) / t);
    const left =
      leftMm > 0 ? `only ${mm(leftMm)} of wall would be left at the end` : "no wall would be left at the end";
    return (
      `${left.replace(/^./, (letter) => letter.toUpperCase())}, below the minimum of ${mm(minimumWallMm)} ` +
      `(common practice, no source); ${mostMm > 0 ? `at most ${mm(mostMm)} of gap can be taken off this way` : "nothing can be taken off this way"}.`
    );
  }
}
