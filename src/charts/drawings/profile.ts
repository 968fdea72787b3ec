/** Bore profiles as lines to draw. */
import type { ProfileMm } from "../../setup/setup.ts";

export type Outline = readonly (readonly [xMm: number, radiusMm: number])[];

/** Radius on a profile, mm, held constant beyond its ends; at a step, that of the far side. */
function radiusAt(profileMm: ProfileMm, positionMm: number): number {
  const next = profileMm.findIndex(([position]) => position > positionMm);
  if (next === 0) return profileMm[0][1] / 2;
  if (next === -1) return profileMm[profileMm.length - 1][1] / 2;
  const [[x1, d1], [x2, d2]] = [profileMm[next - 1], profileMm[next]];
  return (d1 + ((positionMm - x1) / (x2 - x1)) * (d2 - d1)) / 2;
}

/** The part of a bore between two places, moved along by `offsetMm`. */
export function boreBetween(profileMm: ProfileMm, fromMm: number, toMm: number, offsetMm: number): Outline {
  const inside = profileMm
    .filter(([position]) => position > fromMm && position < toMm)
    .map(([position, diameter]) => [position + offsetMm, diameter / 2] as const);
  return [
    [fromMm + offsetMm, radiusAt(profileMm, fromMm)],
    ...inside,
    [toMm + offsetMm, radiusAt(profileMm, toMm)],
  ];
}
