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
import type { CutObstacle } from "./cutFinding.ts";
import { type CutWay, type CutWork, seatSideEffects, wayStages } from "./cutWay.ts";

/** The way of turning the shank's taper down, so that it goes in further: how much, what stands in its way, its stages. */
export function turnDown(work: CutWork): CutWay {
  const { changeMm, endDiameterMm, minimumWallMm, boreMm } = work;
  const t = seatTaper(work.shankTaper, work.receiverTaper);
  const size = -changeMm * t;
  const exitMm = exitBoreMm(boreMm);
  const wallMm = (diameterMm: number) => (diameterMm - exitMm) / 2;
  const obstacle = obstacleOf();
  return {
    name: "turn-down",
    isPossible: obstacle === undefined,
    unit: "off-diameter",
    size: t < smallestTaper ? undefined : size,
    sideEffects: seatSideEffects(work, (endMm) => endMm - size, {
      before: wallMm(endDiameterMm!),
      after: wallMm(endDiameterMm! - size),
    }),
    columnChangeMm: changeMm,
    isReversible: false,
    isHeldBack: false,
    stages:
      obstacle === undefined
        ? wayStages(work, t, (total) => ({
            what: "shank-end-diameter" as const,
            beforeMm: endDiameterMm!,
            afterMm: endDiameterMm! - total,
          }))
        : [],
    findings: [obstacle ?? { kind: "keep-taper" }],
    cautions: [
      "lathe",
      ...(work.stepsMm.some((stepMm) => stepMm * t < 0.01) ? ["finest-cut" as const] : []),
      "thin-wall",
      "plating",
    ],
  };

  function obstacleOf(): CutObstacle | undefined {
    if (t < smallestTaper) return { kind: "turned-without-taper" };
    if (endDiameterMm === undefined) return { kind: "end-diameter-unknown" };
    const leftMm = wallMm(endDiameterMm - size);
    if (leftMm >= minimumWallMm) return undefined;
    const mostMm = Math.max(0, (endDiameterMm - exitMm - 2 * minimumWallMm) / t);
    return { kind: "turned-too-thin", wallMm: leftMm, minimumWallMm, mostMm };
  }
}
