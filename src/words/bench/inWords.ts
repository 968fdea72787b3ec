/** Lengths in sentences. */
import { formatLength } from "../../units/formatLength.ts";
import type { LengthUnit } from "../../units/length.ts";

/** Digits are those of a length in mm; in inches there is one more, about as fine. */
export type LengthInWords = (lengthMm: number, digits?: 1 | 2 | 3) => string;

/** Writes lengths in the unit that is shown; an inch gets a digit more. */
export const lengthInWords =
  (unit: LengthUnit): LengthInWords =>
  (lengthMm, digits = 2) =>
    formatLength(lengthMm, unit, unit === "mm" ? digits : digits + 1);
