import type { LengthUnit } from "./length.ts";

const mmPerInch = 25.4;
/** Closer than this to a 64th of an inch, a length may be called by that fraction. */
const fractionToleranceIn = 0.0005;

/** A length in mm for printing, with its unit: `2.54 mm` or `0.100 in`. Not finite: a dash. */
export function formatLength(lengthMm: number, unit: LengthUnit, digits = unit === "mm" ? 2 : 3): string {
  if (!Number.isFinite(lengthMm)) return "–";
  const length = unit === "mm" ? lengthMm : lengthMm / mmPerInch;
  // 3.175 is a little less in binary and would print as 3.17
  const text = (length * (1 + 4 * Number.EPSILON)).toFixed(digits);
  const withoutMinusZero = Number(text) === 0 ? text.replace("-", "") : text;
  return `${withoutMinusZero} ${unit}`;
}

/** A length in mm as a workshop fraction, `1/8 in` or `1 1/8 in`; undefined when no 64th lies within 0.0005 in. */
export function formatInchFraction(lengthMm: number): string | undefined {
  const inches = Math.abs(lengthMm) / mmPerInch;
  const sixtyFourths = Math.round(inches * 64);
  // The last term lets a length that sits on the tolerance through.
  if (!(Math.abs(inches - sixtyFourths / 64) <= fractionToleranceIn + 1e-12)) return undefined;

  const whole = Math.floor(sixtyFourths / 64);
  let numerator = sixtyFourths % 64;
  let denominator = 64;
  while (numerator > 0 && numerator % 2 === 0) {
    numerator /= 2;
    denominator /= 2;
  }
  const parts = [whole > 0 ? `${whole}` : "", numerator > 0 ? `${numerator}/${denominator}` : ""].filter(
    Boolean,
  );
  const sign = lengthMm < 0 && sixtyFourths > 0 ? "-" : "";
  return `${sign}${parts.join(" ") || "0"} in`;
}
