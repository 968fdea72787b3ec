/** Numbers as they stand in sentences: rounded to what can matter, a true minus sign, mm and inches side by side. */
import { formatLength } from "../units/formatLength.ts";
import type { LengthUnit } from "../units/length.ts";

/** A length in both units, the one that is asked for first. */
export const bothUnits = (lengthMm: number, unit: LengthUnit): string =>
  `${formatLength(lengthMm, unit)} · ${formatLength(lengthMm, unit === "mm" ? "in" : "mm")}`;

/** The same within a sentence: "2.54 mm (0.100 in)". */
export const lengthInSentence = (lengthMm: number, unit: LengthUnit): string =>
  `${formatLength(lengthMm, unit)} (${formatLength(lengthMm, unit === "mm" ? "in" : "mm")})`;

/** With its sign; what rounds to nothing has none. */
export function signed(value: number, digits: number): string {
  const text = Math.abs(value).toFixed(digits);
  if (Number(text) === 0) return text;
  return `${value < 0 ? "−" : "+"}${text}`;
}

/** A share in whole per cent. */
export const percent = (share: number): string => `${Math.round(100 * share)} %`;
