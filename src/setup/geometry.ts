/**
 * What a schema cannot say: whether the lengths of a setup make an instrument. Each check takes the lengths it needs,
 * in mm, and returns what is wrong in words and in the unit asked for, or undefined.
 */
import { formatLength } from "../units/formatLength.ts";
import type { LengthUnit } from "../units/length.ts";
import type { ProfileMm } from "./setup.ts";

/** What is wrong with a value, and where within the checked thing it stands. */
export interface Flaw {
  readonly keys: readonly number[];
  readonly message: string;
}

/** A length of a check in words, to a thousandth of a millimetre or a ten-thousandth of an inch. */
export const exactLength = (lengthMm: number, unit: LengthUnit): string =>
  formatLength(lengthMm, unit, unit === "mm" ? 3 : 4);
const longestProfileMm = 20_000;

/** The extent of a profile along the bore, mm. */
export const profileLengthMm = (profileMm: ProfileMm): number =>
  profileMm[profileMm.length - 1][0] - profileMm[0][0];

/** The bore at the far end of a profile, mm. */
export const exitBoreMm = (profileMm: ProfileMm): number => profileMm[profileMm.length - 1][1];

/** Steeper than any flare, diameter per length: a wall across the bore, though two positions may be written. */
const WALL_SLOPE = 50;

/** Whether the bore steps from one point of a profile to the next. */
export const isWall = ([x0, d0]: ProfileMm[number], [x1, d1]: ProfileMm[number]): boolean =>
  x1 === x0 || Math.abs(d1 - d0) >= WALL_SLOPE * (x1 - x0);

/** Inner diameter of the receiver at a distance from its face, mm. */
export const cavityDiameterMm = (mouthDiameterMm: number, taper: number, distanceMm: number): number =>
  mouthDiameterMm - taper * distanceMm;

/** A bore must run forwards, be open everywhere, and have some length; a step is two points at one position, not three. */
export function profileFlaws(profileMm: ProfileMm, unit: LengthUnit = "mm"): Flaw[] {
  const length = (lengthMm: number) => exactLength(lengthMm, unit);
  const flaws: Flaw[] = [];
  profileMm.forEach(([positionMm, diameterMm], i) => {
    if (!(diameterMm > 0))
      flaws.push({ keys: [i, 1], message: `the diameter is ${length(diameterMm)}; give one above 0` });
    if (i > 0 && positionMm < profileMm[i - 1][0])
      flaws.push({
        keys: [i, 0],
        message: `the bore runs backwards from ${length(profileMm[i - 1][0])} to ${length(positionMm)}; give positions that never decrease`,
      });
    if (i > 1 && positionMm === profileMm[i - 1][0] && positionMm === profileMm[i - 2][0])
      flaws.push({
        keys: [i, 0],
        message: `a third point at ${length(positionMm)}; give two points at one position for a step, no more`,
      });
  });
  if (flaws.length === 0 && profileLengthMm(profileMm) === 0)
    flaws.push({ keys: [], message: "the bore has no length; give points at two positions or more" });
  if (flaws.length === 0 && profileLengthMm(profileMm) > longestProfileMm)
    flaws.push({ keys: [], message: "the bore is longer than 20 m; check the units" });
  return flaws;
}

/** A shank cannot reach past the start of the leadpipe. */
export function insertionFlaw(
  insertionMm: number,
  depthMm: number,
  unit: LengthUnit = "mm",
): string | undefined {
  const length = (lengthMm: number) => exactLength(lengthMm, unit);
  if (insertionMm < 0) return `the insertion is ${length(insertionMm)}; give 0 or more`;
  if (insertionMm <= depthMm) return undefined;
  return (
    `the gap would be ${length(depthMm - insertionMm)}: the shank would be past the start of the leadpipe, so it touches ` +
    `there or a reading is wrong; give at most the receiver's depth, ${length(depthMm)}`
  );
}

/** The receiver must stay open down to the leadpipe. */
export function receiverFlaw(
  mouthDiameterMm: number,
  taper: number,
  depthMm: number,
  unit: LengthUnit = "mm",
): string | undefined {
  const endDiameterMm = cavityDiameterMm(mouthDiameterMm, taper, depthMm);
  if (endDiameterMm > 0) return undefined;
  const length = (lengthMm: number) => exactLength(lengthMm, unit);
  return (
    `the receiver would taper to a diameter of ${length(endDiameterMm)} at its depth of ${length(depthMm)}; ` +
    `give a taper below ${(mouthDiameterMm / depthMm).toPrecision(3)}`
  );
}

/** The shank's wall stands between its bore and the cavity around it. */
export function shankInCavityFlaw(
  shankExitBoreMm: number,
  cavityMm: number,
  unit: LengthUnit = "mm",
): string | undefined {
  if (shankExitBoreMm < cavityMm) return undefined;
  const length = (lengthMm: number) => exactLength(lengthMm, unit);
  return (
    `the bore at the shank's end is ${length(shankExitBoreMm)}, but the receiver is only ${length(cavityMm)} wide there; ` +
    "check the receiver's mouth diameter and taper, the insertion and the bore"
  );
}
