/**
 * Less gap by turning the shank's taper down: the shank goes in further by Δi when its diameter, all along the seat, loses
 *
 *   Δd = t·Δi,   t the taper that stops it (seat.ts);   wall left at the end = (d − Δd − exit bore)/2.
 *
 * The cut goes on past the face by more than Δi, or what is left standing there stops the shank. With a taper of 0.05, 0.001 in on the diameter is 0.020 in of insertion (common practice, no source).
 */
import { exitBoreMm } from "../../setup/geometry.ts";
import { smallestTaper } from "../fit/fitDimensions.ts";
import { seatTaper } from "../fit/seat.ts";
import type { CutObstacle, CutWayFinding } from "./cutFinding.ts";
import { FINEST_OFF_DIAMETER_MM, workableStages } from "./cutStages.ts";
import { type CutWay, type CutWork, insertionCheck, seatSideEffects, wayStages } from "./cutWay.ts";

/** Turned on past where the receiver's face will stand, mm. Common practice, no source. */
const PAST_FACE_MM = 1;

/** The way of turning the shank's taper down, so that it goes in further: how much, what stands in its way, its stages. */
export function turnDown(work: CutWork): CutWay {
  const { changeMm, endDiameterMm, minimumWallMm, boreMm } = work;
  const t = seatTaper(work.shankTaper, work.receiverTaper);
  const size = -changeMm * t;
  const exitMm = exitBoreMm(boreMm);
  const wallMm = (diameterMm: number) => (diameterMm - exitMm) / 2;
  const planned = t < smallestTaper ? [] : wayStages(work, t, insertionCheck(work, 1 / t));
  const stages = workableStages(planned, FINEST_OFF_DIAMETER_MM);
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
    stages: obstacle === undefined ? stages : [],
    findings: obstacle ? [obstacle] : notes(),
    cautions: ["lathe", "holding", "abrasive", "thin-wall", "plating"],
  };

  function notes(): CutWayFinding[] {
    const addedMm = -changeMm;
    const lengthMm = work.depthMm - work.gapMm + addedMm + PAST_FACE_MM;
    const last = stages[stages.length - 1];
    return [
      { kind: "keep-taper" },
      { kind: "turn-extent", lengthMm, addedMm },
      ...(stages.length < planned.length
        ? [
            {
              kind: "stops-short",
              leftMm: last.gapAfterMm - work.gapMm - changeMm,
              finestMm: FINEST_OFF_DIAMETER_MM,
            } as const,
          ]
        : []),
    ];
  }

  function obstacleOf(): CutObstacle | undefined {
    if (t < smallestTaper) return { kind: "turned-without-taper" };
    if (endDiameterMm === undefined) return { kind: "end-diameter-unknown" };
    const leftMm = wallMm(endDiameterMm - size);
    if (leftMm >= minimumWallMm)
      return planned.length > 0 && stages.length === 0
        ? { kind: "finer-than-can-be-cut", sizeMm: size, finestMm: FINEST_OFF_DIAMETER_MM }
        : undefined;
    const mostMm = Math.max(0, (endDiameterMm - exitMm - 2 * minimumWallMm) / t);
    return { kind: "turned-too-thin", wallMm: leftMm, minimumWallMm, mostMm };
  }
}
