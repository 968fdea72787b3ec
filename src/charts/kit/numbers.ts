/** Numbers beside axes and in tables of charts: as short as they can be, lengths in the unit shown. */
import type { LengthUnit } from "../../units/length.ts";

const mmPerInch = 25.4;

/** The length in the unit, full precision, for tables. */
export const inUnit = (lengthMm: number, unit: LengthUnit): number =>
  unit === "mm" ? lengthMm : lengthMm / mmPerInch;

/** As short as it can be, with a true minus sign and, if asked, a plus sign. */
export const tickText = (value: number, plus = false): string =>
  `${value < 0 ? "−" : plus && value > 0 ? "+" : ""}${Number(Math.abs(value).toPrecision(6))}`;
