/** Bore profiles as lines to draw. */
import { boreDiameterMm } from "../../setup/bore/boreDiameter.ts";
import type { ProfileMm } from "../../setup/setup.ts";

export type Outline = readonly (readonly [xMm: number, radiusMm: number])[];

/** The part of a bore between two places, moved along by `offsetMm`. */
export function boreBetween(profileMm: ProfileMm, fromMm: number, toMm: number, offsetMm: number): Outline {
  const inside = profileMm
    .filter(([position]) => position > fromMm && position < toMm)
    .map(([position, diameter]) => [position + offsetMm, diameter / 2] as const);
  return [
    [fromMm + offsetMm, boreDiameterMm(profileMm, fromMm) / 2],
    ...inside,
    [toMm + offsetMm, boreDiameterMm(profileMm, toMm, "before") / 2],
  ];
}
