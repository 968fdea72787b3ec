/** What a measurement that stands too high or too low throughout was probably given in. */
import { NAMED_UNITS } from "../../study/measured/level.ts";
import type { Overlay } from "../../study/measured/measured.ts";
import type { Reading } from "../../study/measured/measuredReading.ts";
import { unitName } from "./readingWords.ts";

/** What is suggested, in a sentence or two; null where nothing is. @param reading as it was read */
export function levelWords({ level }: Pick<Overlay, "level">, reading: Reading): string | null {
  const { guess, offsetDb } = level;
  if (!guess) return null;
  const { scale, unit = 1 } = guess.read;
  const meant = scale === "characteristic" ? RIM : unitName(unit);
  if (guess.factor === null)
    return (
      `In an unknown unit heights are compared among themselves only. Its level is that of numbers in ${meant}: ` +
      "say so if they are, and heights are compared as they stand."
    );
  const size = `The measurement stands ${Math.abs(offsetDb).toFixed(1)} dB ${offsetDb > 0 ? "above" : "below"} the model at all frequencies alike, near a factor of ${factorText(guess.factor)}.`;
  if (scale === "relative")
    return `${size} Where its unit is not known for certain, read it as unknown: heights are then compared among themselves.`;
  const now = reading.scale === "absolute" ? unitName(reading.unit) : RIM;
  return scale === "characteristic" || NAMED_UNITS.includes(unit)
    ? `${size} Its numbers are probably in ${meant}, not in ${now}. Nothing was changed; check what they are.`
    : `${size} Check what its numbers are: for the model's height, one of them would have to be ${meant}. Nothing was changed.`;
}

const RIM = "multiples of ρc/S at the rim";

function factorText(factor: number): string {
  const size = Math.max(factor, 1 / factor);
  if (Math.abs(size / (2 * Math.PI) - 1) < 1e-6)
    return "2π (hertz taken for radians a second, or the other way)";
  if (Math.abs(size / Math.SQRT2 - 1) < 1e-6)
    return "√2 (a peak taken for a root mean square, or the other way)";
  return size < 1000
    ? `${Number(size.toPrecision(3))}`
    : size.toExponential(Number.isInteger(Math.log10(size)) ? 0 : 1).replace("e+", "e");
}
