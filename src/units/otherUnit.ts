/**
 * A bare number that fits the other unit better: 23.68 typed where inches are shown would be 601 mm, and 0.93 where millimetres
 * are a paper's thickness. Whoever typed it is asked, never corrected.
 */
import { InputError } from "./inputError.ts";
import { type LengthUnit, parseLengthMm } from "./length.ts";

/** What is typed at a place lies between these as a rule, mm. */
export type UsualLengthsMm = readonly [leastMm: number, mostMm: number];

export interface OtherUnit {
  /** As it is read, and as it would be in the other unit. */
  readonly asReadMm: number;
  readonly otherMm: number;
  readonly other: LengthUnit;
  /** The text with the other unit written behind it. */
  readonly text: string;
}

/** Undefined where the number is usual as it is read, has its unit with it, or is no more usual in the other. */
export function otherUnit(
  typed: string,
  unit: LengthUnit,
  [leastMm, mostMm]: UsualLengthsMm,
): OtherUnit | undefined {
  const other = unit === "mm" ? "in" : "mm";
  const isUsual = (mm: number) => mm >= leastMm && mm <= mostMm;
  try {
    const [asReadMm, otherMm] = [parseLengthMm(typed, unit), parseLengthMm(typed, other)];
    if (asReadMm === otherMm || asReadMm <= 0 || isUsual(asReadMm) || !isUsual(otherMm)) return undefined;
    return { asReadMm, otherMm, other, text: `${typed.trim()} ${other}` };
  } catch (error) {
    if (error instanceof InputError) return undefined;
    throw error;
  }
}
