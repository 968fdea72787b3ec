/** Ranges as a person types them, `start:stop:step`: of lengths (`0:8:0.25`, `0mm:8mm:1/64in`) and of frequencies in Hz. */
import { InputError, quoteTyped } from "./inputError.ts";
import { type LengthUnit, parseLengthMm } from "./length.ts";
import { withoutRoundingNoise } from "./roundingNoise.ts";

/** A range that could not be read; the message is one line. */
export class RangeTextError extends InputError {
  override name = "RangeTextError";
}

const mostPoints = 200_000;

/**
 * The lengths of `start:stop:step` in mm, both ends included when the steps meet the stop. A single length is a range
 * of one.
 *
 * @throws {RangeTextError} for a range that is malformed, runs backwards or has more than 200 000 points.
 * @throws {LengthError} for a part that is not a length.
 */
export function parseRange(text: string, defaultUnit: LengthUnit = "mm"): number[] {
  const accepted = "give start:stop:step, such as 0:8:0.25 or 0mm:8mm:1/64in";
  const parts = text.split(":");
  if (parts.length !== 1 && parts.length !== 3)
    throw new RangeTextError(`${quoteTyped(text)} is not a range of lengths; ${accepted}`);
  const lengthsMm = parts.map((part) => parseLengthMm(part, defaultUnit));
  return lengthsMm.length === 1 ? lengthsMm : [...steps(lengthsMm, text, accepted)];
}

/**
 * Frequencies in Hz, from `start:stop:step` or a list `100, 110, 123.5`; each may end in Hz or kHz. All are above zero;
 * a list keeps its order.
 *
 * @throws {RangeTextError} when it is neither, or has more than 200 000 points.
 */
export function parseFrequencyRange(text: string): Float64Array {
  const accepted = "give start:stop:step in Hz, such as 40:2000:0.5, or a list such as 116.5,233.1";
  const isRange = text.includes(":");
  const parts = text.split(isRange ? ":" : ",");
  if (isRange && parts.length !== 3)
    throw new RangeTextError(`${quoteTyped(text)} is not a range of frequencies; ${accepted}`);
  if (parts.length > mostPoints) throw new RangeTextError(`more than ${mostPoints} frequencies; ${accepted}`);
  const frequencies = parts.map((part) => {
    const match = /^\s*(\d+\.?\d*(?:e[+-]?\d+)?|\.\d+(?:e[+-]?\d+)?)\s*(k?hz)?\s*$/i.exec(part);
    const frequencyHz =
      match === null ? 0 : Number(match[1]) * (match[2]?.toLowerCase() === "khz" ? 1000 : 1);
    if (!(frequencyHz > 0 && frequencyHz < Number.POSITIVE_INFINITY))
      throw new RangeTextError(`${quoteTyped(part)} is not a frequency above 0 Hz; ${accepted}`);
    return frequencyHz;
  });
  return isRange ? steps(frequencies, text, accepted) : Float64Array.from(frequencies);
}

function steps([start, stop, step]: number[], text: string, accepted: string): Float64Array {
  if (!(step > 0))
    throw new RangeTextError(`${quoteTyped(text)} has a step that is not above zero; ${accepted}`);
  if (stop < start) throw new RangeTextError(`${quoteTyped(text)} runs backwards; ${accepted}`);
  // A stop that is missed by a millionth of a step was meant to be met.
  const wholeSteps = Math.floor((stop - start) / step + 1e-6);
  if (!(wholeSteps < mostPoints))
    throw new RangeTextError(`${quoteTyped(text)} has more than ${mostPoints} points; ${accepted}`);
  return Float64Array.from({ length: wholeSteps + 1 }, (_, i) => {
    const value = start + i * step;
    return Math.abs(value - stop) <= 1e-6 * step ? stop : withoutRoundingNoise(value);
  });
}
