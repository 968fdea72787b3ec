/**
 * What a schema cannot say: whether the lengths of a setup make an instrument. Each check takes the lengths it needs,
 * in mm, and returns what is wrong in words, or undefined.
 */
import { formatLength } from "../units/formatLength.ts";
import type { LengthUnit } from "../units/length.ts";
import type { ProfileMm } from "./setup.ts";

/** What is wrong with a value, and where within the checked thing it stands. */
export interface Flaw {
  readonly keys: readonly number[];
  readonly message: string;
}

const mm = (lengthMm: number): string => formatLength(lengthMm, "mm", 3);
const longestProfileMm = 20_000;

/** The extent of a profile along the bore, mm. */
export const profileLengthMm = (profileMm: ProfileMm): number =>
  profileMm[profileMm.length - 1][0] - profileMm[0][0];

/** The bore at the far end of a profile, mm. */
export const exitBoreMm = (profileMm: ProfileMm): number => profileMm[profileMm.length - 1][1];

/** Inner diameter of the receiver at a distance from its face, mm. */
export const cavityDiameterMm = (mouthDiameterMm: number, taper: number, distanceMm: number): number =>
  mouthDiameterMm - taper * distanceMm;

/** A bore must run forwards, be open everywhere, and have some length; a step is two points at one position, not three. */
export function profileFlaws(profileMm: ProfileMm): Flaw[] {
  const flaws: Flaw[] = [];
  profileMm.forEach(([positionMm, diameterMm], i) => {
    if (!(diameterMm > 0))
      flaws.push({ keys: [i, 1], message: `the diameter is ${mm(diameterMm)}; give one above 0` });
    if (i > 0 && positionMm < profileMm[i - 1][0])
      flaws.push({
        keys: [i, 0],
        message: `the bore runs backwards from ${mm(profileMm[i - 1][0])} to ${mm(positionMm)}; give positions that never decrease`,
      });
    if (i > 1 && positionMm === profileMm[i - 1][0] && positionMm === profileMm[i - 2][0])
      flaws.push({
        keys: [i, 0],
        message: `a third point at ${mm(positionMm)}; give two points at one position for a step, no more`,
      });
  });
  if (flaws.length === 0 && profileLengthMm(profileMm) === 0)
    flaws.push({ keys: [], message: "the bore has no length; give points at two positions or more" });
  if (flaws.length === 0 && profileLengthMm(profileMm) > longestProfileMm)
    flaws.push({ keys: [], message: "the bore is longer than 20 m; check the units" });
  return flaws;
}

/** A shank cannot reach past the start of the leadpipe. */
export function insertionFlaw(insertionMm: number, depthMm: number): string | undefined {
  if (insertionMm < 0) return `the insertion is ${mm(insertionMm)}; give 0 or more`;
  if (insertionMm <= depthMm) return undefined;
  return (
    `the gap would be ${mm(depthMm - insertionMm)}: the shank would be past the start of the leadpipe, so it touches ` +
    `there or a reading is wrong; give at most the receiver's depth, ${mm(depthMm)}`
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
  const length = (lengthMm: number) => formatLength(lengthMm, unit, unit === "mm" ? 3 : 4);
  return (
    `the receiver would taper to a diameter of ${length(endDiameterMm)} at its depth of ${length(depthMm)}; ` +
    `give a taper below ${(mouthDiameterMm / depthMm).toPrecision(3)}`
  );
}

/** The shank's wall stands between its bore and the cavity around it. */
export function shankInCavityFlaw(shankExitBoreMm: number, cavityMm: number): string | undefined {
  if (shankExitBoreMm < cavityMm) return undefined;
  return (
    `the bore at the shank's end is ${mm(shankExitBoreMm)}, but the receiver is only ${mm(cavityMm)} wide there; ` +
    "check the receiver's mouth diameter and taper, the insertion and the bore"
  );
}
