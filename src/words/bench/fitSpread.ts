/** How far gaps spread over instruments or mouthpieces, and which dimension makes it, in sentences. */
import { dimensionName } from "../../bench/fit/fitDimensions.ts";
import type { FitSpread, SpreadCause } from "../../bench/fit/fitSpread.ts";
import type { LengthUnit } from "../../units/length.ts";
import { lengthInWords } from "./inWords.ts";

export const causeName = (cause: SpreadCause["cause"]): string =>
  cause === "together" ? "together" : dimensionName[cause];

export function spreadWords(spread: FitSpread, unit: LengthUnit): string {
  const { among, count, onLeadpipe, leftOut, lowMm, highMm, standardDeviationMm, measuringMm, causes } =
    spread;
  const inWords = lengthInWords(unit);
  const more = [
    ...(onLeadpipe > 0 ? [`${onLeadpipe} on the leadpipe`] : []),
    ...(leftOut > 0 ? [`${leftOut} unknown or without a fit`] : []),
  ];
  const without = more.length > 0 ? ` (besides ${more.join(", ")})` : "";
  if (count === 0) return `None seats with a known gap among these ${among}${without}.`;
  if (count === 1)
    return `One gap is known among these ${among}${without}, ${inWords(lowMm!)}: no spread to explain.`;
  if (causes.length === 0) return `The gap is ${inWords(lowMm!)} in all ${count} ${among}${without}.`;
  const rest = causes[causes.length - 1].varianceShare;
  const shares = causes
    .filter(({ varianceShare }) => Math.abs(varianceShare) >= 0.01)
    .map(({ cause, varianceShare }) => `${causeName(cause)} ${Math.round(100 * varianceShare)} %`)
    .join(", ");
  const why =
    rest < -0.5
      ? "The dimensions make up for one another here, so no single one is the cause."
      : `Shares of its variance: ${shares}.`;
  const doubt =
    measuringMm !== undefined && standardDeviationMm! < 2 * measuringMm
      ? ` Measuring alone would scatter it by ${inWords(measuringMm)}, so the parts may be more alike than this.`
      : "";
  return (
    `Over ${count} ${among}${without} the gap runs from ${inWords(lowMm!)} to ${inWords(highMm!)}, standard deviation ` +
    `${inWords(standardDeviationMm!)}. ${why}${doubt}`
  );
}
