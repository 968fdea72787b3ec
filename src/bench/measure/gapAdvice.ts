/** What a person should know or do about a measured gap, a sentence each. */
import { formatLength } from "../../units/formatLength.ts";
import type { LengthUnit } from "../../units/length.ts";
import type { OutlyingReading } from "./outlier.ts";

/** A negative gap is contact at the leadpipe or a mistake: which readings to take again, and which of the two it can be. */
export function negativeGapAdvice(
  gapMm: number,
  highMm: number | undefined,
  depthMm: readonly number[],
  insertionMm: readonly number[],
  unit: LengthUnit,
): string[] {
  const repeat =
    `The gap comes out at ${formatLength(gapMm, unit)}, which cannot be: repeat ` +
    `${whichToRepeat(depthMm, "depth", unit)} and ${whichToRepeat(insertionMm, "insertion", unit)}.`;
  if (highMm === undefined) return [repeat, "Either the shank touches the leadpipe or a reading is wrong."];
  return [
    repeat,
    highMm >= 0
      ? "A gap of 0 lies within the uncertainty: the shank may be touching the leadpipe."
      : "Not even the uncertainty reaches a gap of 0: a reading is wrong.",
  ];
}

/** With three readings or more, the one farthest from the middle is the first to doubt. */
function whichToRepeat(readingsMm: readonly number[], what: string, unit: LengthUnit): string {
  const all = `the ${what} ${readingsMm.length === 1 ? "reading" : "readings"}`;
  if (readingsMm.length < 3) return all;
  const median = [...readingsMm].sort((a, b) => a - b)[Math.floor(readingsMm.length / 2)];
  const distances = readingsMm.map((readingMm) => Math.abs(readingMm - median));
  const farthest = distances.indexOf(Math.max(...distances));
  if (distances[farthest] === 0) return all;
  return `${all} (first number ${farthest + 1}, ${formatLength(readingsMm[farthest], unit)})`;
}

/** Pointed out and kept. */
export const outlierAdvice = (
  what: string,
  { index, readingMm, statistic, criticalValue }: OutlyingReading,
  unit: LengthUnit,
): string =>
  `The ${what} reading number ${index + 1}, ${formatLength(readingMm, unit, unit === "mm" ? 3 : 4)}, stands apart from the others (Grubbs' test at 5 %: ` +
  `${statistic.toFixed(3)} is above ${criticalValue.toFixed(3)}). It is kept: repeat it, and leave it out only for a reason.`;

/** Why there is no uncertainty, and how to get one. */
export function unknownUncertaintyAdvice(depthCount: number, insertionCount: number): string {
  const single = [
    ...(depthCount === 1 ? ["depth"] : []),
    ...(insertionCount === 1 ? ["insertion"] : []),
  ].join(" and the ");
  return single === ""
    ? "The uncertainty is unknown: all readings agree, so give the smallest step that the tool shows."
    : `The uncertainty is unknown: repeat the ${single} reading, taking the tool off each time.`;
}

export const maybeContactAdvice =
  "The interval reaches down to 0: these readings cannot tell a gap from a shank that touches the leadpipe.";

export const sameToolAdvice =
  "One tool measured both lengths, so its zero error is in both and drops out of the gap.";
