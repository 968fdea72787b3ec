/** Lengths with their uncertainty, rounded to what it allows (JCGM 100:2008, 7.2.6). */
import { formatLength } from "./formatLength.ts";
import type { LengthUnit } from "./length.ts";
import { mmPerUnit } from "./lengthUnit.ts";

const MOST_DECIMALS = { mm: 4, in: 5 } as const;

const inUnit = (lengthMm: number, unit: LengthUnit): number => lengthMm / mmPerUnit(unit)!;

/**
 * Decimals at which a length is printed whose expanded uncertainty is this: those of the uncertainty's first figure, of
 * its second where the first is 1 or 2, so that rounding never takes a sixth of it. Unknown: as any length.
 */
export function decimals(expandedMm: number | undefined, unit: LengthUnit): number {
  if (expandedMm === undefined || !(expandedMm > 0)) return unit === "mm" ? 2 : 3;
  const [figures, exponent] = inUnit(expandedMm, unit).toExponential(1).split("e");
  const wanted = (figures < "3" ? 1 : 0) - Number(exponent);
  return Math.min(MOST_DECIMALS[unit], Math.max(0, wanted));
}

/** `2.54 mm`, at the decimals that the uncertainty allows, with a true minus sign. */
export const roundedLength = (lengthMm: number, expandedMm: number | undefined, unit: LengthUnit): string =>
  formatLength(lengthMm, unit, decimals(expandedMm, unit)).replace("-", "−");

/** `2.54 ± 0.03 mm`; without an uncertainty the length alone. */
export function plusMinus(lengthMm: number, expandedMm: number | undefined, unit: LengthUnit): string {
  const length = roundedLength(lengthMm, expandedMm, unit);
  if (expandedMm === undefined) return length;
  return `${length.slice(0, -unit.length - 1)} ± ${roundedLength(expandedMm, expandedMm, unit)}`;
}

/** `2.51 to 2.57 mm`. */
export function lengthSpan(
  [lowMm, highMm]: readonly [number, number],
  expandedMm: number,
  unit: LengthUnit,
): string {
  const low = roundedLength(lowMm, expandedMm, unit);
  return `${low.slice(0, -unit.length - 1)} to ${roundedLength(highMm, expandedMm, unit)}`;
}

/** A standard uncertainty, to two figures as a budget has it. */
export function standardUncertaintyText(lengthMm: number, unit: LengthUnit): string {
  const length = inUnit(lengthMm, unit);
  if (length === 0) return `0 ${unit}`;
  const digits = Math.max(0, 1 - Math.floor(Math.log10(length)));
  return `${length.toFixed(Math.min(8, digits))} ${unit}`;
}
