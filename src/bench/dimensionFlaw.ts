/** What no shank or receiver can be, in words. */
import { cavityDiameterMm, receiverFlaw } from "../setup/geometry.ts";
import {
  dimensionName,
  type FitDimension,
  type FitDimensions,
  type FitUncertainties,
  fitDimensions,
  isTaper,
} from "./fitDimensions.ts";

const acceptedLength = "give a length from 0.1 mm to 1000 mm";
const acceptedTaper = "give a change of diameter per length from 0 to 1, such as 0.05 or 1:20";

/** What is wrong with one dimension by itself; undefined when nothing is. */
export function valueFlaw(dimension: FitDimension, value: number): string | undefined {
  const isGood = isTaper(dimension) ? value >= 0 && value <= 1 : value >= 0.1 && value <= 1000;
  if (isGood) return undefined;
  const accepted = isTaper(dimension) ? acceptedTaper : acceptedLength;
  const given = Number.isFinite(value) ? `${value}${isTaper(dimension) ? "" : " mm"}` : "not a number";
  return `the ${dimensionName[dimension]} is ${given}; ${accepted}`;
}

/** What is wrong with a standard uncertainty; undefined when nothing is. */
export function uncertaintyFlaw(dimension: FitDimension, value: number): string | undefined {
  if (value >= 0 && value <= 1000) return undefined;
  const given = Number.isFinite(value) ? `${value}` : "not a number";
  return `the uncertainty of the ${dimensionName[dimension]} is ${given}; give a standard uncertainty of 0 or more`;
}

/** The first thing wrong with the five together; undefined when a fit can be worked out. */
export function dimensionFlaw(
  dimensions: FitDimensions,
  uncertainties: FitUncertainties,
): string | undefined {
  for (const dimension of fitDimensions) {
    const flaw = valueFlaw(dimension, dimensions[dimension]);
    if (flaw) return flaw;
    const uncertainty = uncertainties[dimension];
    const bad = uncertainty === undefined ? undefined : uncertaintyFlaw(dimension, uncertainty);
    if (bad) return bad;
  }
  const { mouthDiameterMm, receiverTaper, depthMm } = dimensions;
  return cavityDiameterMm(mouthDiameterMm, receiverTaper, depthMm) > 0
    ? undefined
    : receiverFlaw(mouthDiameterMm, receiverTaper, depthMm);
}
