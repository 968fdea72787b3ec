/** What is asked of a number that fits the other unit better. */
import { formatLength } from "../units/formatLength.ts";
import type { LengthUnit } from "../units/length.ts";
import type { OtherUnit } from "../units/otherUnit.ts";

/** `23.68 in would be 601.5 mm; did you mean 23.68 mm?` */
export function otherUnitQuestion(
  typed: string,
  unit: LengthUnit,
  { asReadMm, otherMm, other, text }: OtherUnit,
): string {
  const inOther = unit === "in" ? formatLength(asReadMm, "mm", 1) : formatLength(asReadMm, "in", 4);
  const meant = other === "in" ? ` (${formatLength(otherMm, "mm")})` : "";
  return `${typed.trim()} ${unit} would be ${inOther}; did you mean ${text}${meant}?`;
}

/** What the button that takes it says. */
export const otherUnitAnswer = ({ text }: OtherUnit): string => `Take ${text}`;
