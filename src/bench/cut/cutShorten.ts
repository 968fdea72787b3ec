/**
 * More gap by shortening the shank's end. With ℓ cut off, the end is wider, d + s·ℓ, and (seat.ts)
 *
 *   s ≥ r, stopped at the mouth:  the same place of the shank stops there, so the end is ℓ further out:  Δg = ℓ
 *   s < r, stopped at its end:    i = (m − d − s·ℓ)/r, so Δg = (s/r)·ℓ, and the mouthpiece goes in by the rest
 *
 * Together ℓ = Δg / min(1, s/r). The exit bore becomes what the backbore is ℓ before its end.
 */
import { boreDiameterMm } from "../../setup/bore/boreDiameter.ts";
import { exitBoreMm, profileLengthMm } from "../../setup/geometry.ts";
import type { ProfileMm } from "../../setup/setup.ts";
import type { CutObstacle, CutWayFinding } from "./cutFinding.ts";
import { FINEST_OFF_LENGTH_MM, workableStages } from "./cutStages.ts";
import { type CutWay, type CutWork, seatSideEffects, wayStages } from "./cutWay.ts";

/** The way of taking length off the shank's end: what to take, what stands in its way, and its stages. */
export function shorten(work: CutWork): CutWay {
  const { changeMm, endDiameterMm, minimumWallMm, boreMm, shankTaper, receiverTaper } = work;
  const gapPerLength = shankTaper >= receiverTaper ? 1 : shankTaper / receiverTaper;
  const isUseless = gapPerLength < 1e-3;
  const size = isUseless ? undefined : changeMm / gapPerLength;
  const endMm = boreMm[boreMm.length - 1][0];
  const lengthMm = profileLengthMm(boreMm);
  const newExitMm = (cutMm: number) => boreDiameterMm(boreMm, endMm - cutMm, "before");
  const wallMm = (cutMm: number) => (endDiameterMm! + shankTaper * cutMm - newExitMm(cutMm)) / 2;
  const planned = isUseless
    ? []
    : wayStages(work, 1 / gapPerLength, (total) => ({
        what: "mouthpiece-length",
        beforeMm: lengthMm,
        afterMm: lengthMm - total,
      }));
  const stages = workableStages(planned, FINEST_OFF_LENGTH_MM);
  const obstacle = obstacleOf();
  return {
    name: "shorten",
    isPossible: obstacle === undefined,
    unit: "off-length",
    size,
    sideEffects:
      size === undefined || size >= lengthMm
        ? []
        : [
            { what: "exit-bore", beforeMm: exitBoreMm(boreMm), afterMm: newExitMm(size) },
            { what: "mouthpiece-length", beforeMm: lengthMm, afterMm: lengthMm - size },
            ...seatSideEffects(work, (endMm) => endMm + shankTaper * size, {
              before: wallMm(0),
              after: wallMm(size),
            }),
          ],
    columnChangeMm: size === undefined ? 0 : changeMm - size,
    isReversible: false,
    isHeldBack: false,
    stages: obstacle === undefined ? stages : [],
    findings: obstacle ? [obstacle] : notes(),
    cautions: ["lathe", "holding", "both-edges", "thin-wall", "plating"],
  };

  function obstacleOf(): CutObstacle | undefined {
    if (size === undefined) return { kind: "only-goes-in-further" };
    const backboreMm = endMm - throatAtMm(boreMm);
    if (size >= backboreMm) return { kind: "longer-than-backbore", cutMm: size, backboreMm };
    if (planned.length > 0 && stages.length === 0)
      return { kind: "finer-than-can-be-cut", sizeMm: size, finestMm: FINEST_OFF_LENGTH_MM };
    if (endDiameterMm === undefined) return undefined;
    return wallMm(size) >= minimumWallMm
      ? undefined
      : { kind: "shortened-too-thin", wallMm: wallMm(size), minimumWallMm };
  }

  function notes(): CutWayFinding[] {
    return [
      { kind: "exit-bore-changes" },
      ...(gapPerLength < 1 ? [{ kind: "part-becomes-gap", share: gapPerLength } as const] : []),
      ...(endDiameterMm === undefined ? [{ kind: "wall-unchecked" } as const] : []),
      { kind: "engagement-left", lengthMm: work.depthMm - work.gapMm - changeMm },
      ...(stages.length < planned.length
        ? [
            {
              kind: "stops-short",
              leftMm: work.gapMm + changeMm - stages[stages.length - 1].gapAfterMm,
              finestMm: FINEST_OFF_LENGTH_MM,
            } as const,
          ]
        : []),
    ];
  }
}

/** Where the bore is narrowest, the last such place, mm from the profile's start of positions. */
export function throatAtMm(profileMm: ProfileMm): number {
  const narrowestMm = Math.min(...profileMm.map(([, diameterMm]) => diameterMm));
  return profileMm.findLast(([, diameterMm]) => diameterMm === narrowestMm)![0];
}
