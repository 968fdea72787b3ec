/** What no shank or receiver can be, in words. */
import { cavityDiameterMm, receiverFlaw } from "../../setup/geometry.ts";
import type { LengthUnit } from "../../units/length.ts";
import {
  dimensionName,
  type FitDimension,
  type FitDimensions,
  type FitUncertainties,
  fitDimensions,
  isTaper,
} from "./fitDimensions.ts";

const acceptedLength = {
  mm: "give a length from 0.1 mm to 1000 mm",
  in: "give a length from 0.004 in to 39 in",
};
const acceptedTaper = "give a change of diameter per length from 0 to 1, such as 0.05 or 1:20";

/** What is wrong with one dimension by itself; undefined when nothing is. */
export function valueFlaw(
  dimension: FitDimension,
  value: number,
  unit: LengthUnit = "mm",
): string | undefined {
  const isGood = isTaper(dimension) ? value >= 0 && value <= 1 : value >= 0.1 && value <= 1000;
  if (isGood) return undefined;
  const accepted = isTaper(dimension) ? acceptedTaper : acceptedLength[unit];
  return `the ${dimensionName[dimension]} is ${asGiven(dimension, value, unit)}; ${accepted}`;
}

/** What is wrong with a standard uncertainty; undefined when nothing is. */
export function uncertaintyFlaw(
  dimension: FitDimension,
  value: number,
  unit: LengthUnit = "mm",
): string | undefined {
  if (value >= 0 && value <= 1000) return undefined;
  return `the uncertainty of the ${dimensionName[dimension]} is ${asGiven(dimension, value, unit)}; give a standard uncertainty of 0 or more`;
}

/** The value itself, not rounded: who typed it is to know it again. */
function asGiven(dimension: FitDimension, value: number, unit: LengthUnit): string {
  if (!Number.isFinite(value)) return "not a number";
  if (isTaper(dimension)) return `${value}`;
  return unit === "mm" ? `${value} mm` : `${Number((value / 25.4).toPrecision(12))} in`;
}

/** The first thing wrong with the five together; undefined when a fit can be worked out. */
export function dimensionFlaw(
  dimensions: FitDimensions,
  uncertainties: FitUncertainties,
  unit: LengthUnit = "mm",
): string | undefined {
  for (const dimension of fitDimensions) {
    const flaw = valueFlaw(dimension, dimensions[dimension], unit);
    if (flaw) return flaw;
    const uncertainty = uncertainties[dimension];
    const bad = uncertainty === undefined ? undefined : uncertaintyFlaw(dimension, uncertainty, unit);
    if (bad) return bad;
  }
  const { mouthDiameterMm, receiverTaper, depthMm } = dimensions;
  return cavityDiameterMm(mouthDiameterMm, receiverTaper, depthMm) > 0
    ? undefined
    : receiverFlaw(mouthDiameterMm, receiverTaper, depthMm, unit);
}
