/** What is asked of a plan for a cut, and what makes a question one that cannot be answered. */
import { cavityDiameterMm, exitBoreMm, profileFlaws } from "../../setup/geometry.ts";
import type { ProfileMm } from "../../setup/setup.ts";
import { formatLength } from "../../units/formatLength.ts";
import type { LengthUnit } from "../../units/length.ts";

export interface CutQuestion {
  /** The gap as it is, mm, and its standard uncertainty where it is known. */
  readonly gapMm: number;
  readonly standardUncertaintyMm?: number;
  /** The factor from standard to expanded uncertainty. */
  readonly coverageFactor?: number;
  readonly targetMm: number;
  /** How near the target is near enough, mm. */
  readonly toleranceMm?: number;
  /** What must be left of the shank's wall, mm. */
  readonly minimumWallMm?: number;
  readonly shank: {
    /** Outside, at the end; several ways cannot be checked without it. */
    readonly endDiameterMm?: number;
    /** That of the receiver where it is not known. */
    readonly taper?: number;
    /** From rim to shank end. */
    readonly boreMm: ProfileMm;
  };
  readonly receiver: {
    readonly mouthDiameterMm?: number;
    readonly taper: number;
    readonly depthMm: number;
  };
  /** Change of gap for one mark of an adjustable receiver, mm. */
  readonly stopMmPerMark?: number;
  /** Of the lengths in words; mm. */
  readonly unit?: LengthUnit;
}

export interface CutFlaw {
  readonly of: keyof CutQuestion;
  /** What is wrong and what would be right, to follow a colon. */
  readonly message: string;
}

/** Common practice, no source. */
export const defaultMinimumWallMm = 0.4;
export const defaultToleranceMm = 0.05;
const smallestToleranceMm = 0.001;

/** The first thing that makes the question one that cannot be answered; undefined when it can. */
export function questionFlaw(question: CutQuestion): CutFlaw | undefined {
  const { gapMm, targetMm, standardUncertaintyMm = 0, coverageFactor = 2, shank, receiver } = question;
  const {
    toleranceMm = defaultToleranceMm,
    minimumWallMm = defaultMinimumWallMm,
    stopMmPerMark = 1,
    unit = "mm",
  } = question;
  const { endDiameterMm, taper: shankTaper = 0, boreMm } = shank;
  const { depthMm, taper, mouthDiameterMm } = receiver;
  const within = (value: number, low: number, high: number) => value >= low && value <= high;
  const shown = (value: number) =>
    Math.abs(value) < 1e6
      ? formatLength(value, unit, unit === "mm" ? 3 : 4)
      : Number.isNaN(value)
        ? "not a number"
        : "far too large";
  const usual = (lengthMm: number) => formatLength(lengthMm, unit);
  const flaw = (of: keyof CutQuestion, message: string): CutFlaw => ({ of, message });
  const whole = `give 0 to the receiver's depth, ${shown(depthMm)}`;
  const outside = `give ${shown(0.1)} to ${shown(1000)}`;
  if (!within(depthMm, 0.1, 1000))
    return flaw("receiver", `the receiver's depth is ${shown(depthMm)}; ${outside}`);
  if (!within(gapMm, 0, depthMm)) return flaw("gapMm", `the gap is ${shown(gapMm)}; ${whole}`);
  if (!within(targetMm, 0, depthMm))
    return flaw("targetMm", `the planned gap is ${shown(targetMm)}; ${whole}`);
  if (!within(standardUncertaintyMm, 0, 1000))
    return flaw(
      "standardUncertaintyMm",
      `the gap's uncertainty is ${shown(standardUncertaintyMm)}; give a standard uncertainty of 0 or more`,
    );
  if (!within(coverageFactor, 1, 1000))
    return flaw("coverageFactor", "the coverage factor is no number from 1; give 2, say");
  if (!within(toleranceMm, smallestToleranceMm, 1000))
    return flaw(
      "toleranceMm",
      `the tolerance is ${shown(toleranceMm)}; give ${shown(smallestToleranceMm)} or more, such as ${usual(defaultToleranceMm)}`,
    );
  if (!within(minimumWallMm, 0, 1000))
    return flaw(
      "minimumWallMm",
      `the minimum wall is ${shown(minimumWallMm)}; give 0 or more, such as ${usual(defaultMinimumWallMm)}`,
    );
  if (!within(stopMmPerMark, 0.001, 1000))
    return flaw(
      "stopMmPerMark",
      `a mark of the stop is ${shown(stopMmPerMark)}; give ${shown(0.001)} or more, such as ${usual(0.25)}`,
    );
  if (!within(taper, 0, 1) || !within(shankTaper, 0, 1))
    return flaw("shank", "a taper is no change of diameter per length; give 0 to 1, such as 0.05");
  if (boreMm.length < 2 || !boreMm.flat().every(Number.isFinite) || profileFlaws(boreMm).length > 0)
    return flaw(
      "shank",
      "the mouthpiece's bore is no profile; give two points or more that run forwards with diameters above 0",
    );
  if (endDiameterMm !== undefined && !within(endDiameterMm, 0.1, 1000))
    return flaw("shank", `the shank's end diameter is ${shown(endDiameterMm)}; ${outside}`);
  if (endDiameterMm !== undefined && endDiameterMm <= exitBoreMm(boreMm))
    return flaw(
      "shank",
      `the shank's end diameter is ${shown(endDiameterMm)}, which leaves no wall around the bore; give more than ${shown(exitBoreMm(boreMm))}`,
    );
  if (mouthDiameterMm === undefined) return undefined;
  if (!within(mouthDiameterMm, 0.1, 1000))
    return flaw("receiver", `the receiver's mouth diameter is ${shown(mouthDiameterMm)}; ${outside}`);
  return cavityDiameterMm(mouthDiameterMm, taper, depthMm) > 0
    ? undefined
    : flaw("receiver", "the receiver would taper to nothing within its depth; give a smaller taper");
}
