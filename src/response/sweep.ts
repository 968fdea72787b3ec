/**
 * The exponential sweep that a small loudspeaker plays: every octave takes as long as the next, so that the harmonics the loudspeaker
 * adds arrive before the response and part from it (A. Farina, 108th AES Convention, 2000, preprint 5093). Its length is a whole
 * number of L f₁, which makes those harmonics sweeps of the same phase (A. Novak, P. Lotton and L. Simon, J. Audio Eng. Soc. 63,
 * 2015, eq. 7 and 47).
 */
import { OutOfRange } from "../units/outOfRange.ts";
import { ramp } from "./ramp.ts";

export interface SweepOptions {
  /** Of the sweep itself, about; at least 1. */
  readonly seconds: number;
  readonly fromHz: number;
  readonly toHz: number;
  /** Samples a second. */
  readonly rate: number;
}

export const USUAL_SWEEP: SweepOptions = { seconds: 8, fromHz: 60, toHz: 2500, rate: 48_000 };

/** Silence before, for the noise of the room, and after, for the column to fall silent; s. */
const BEFORE = 0.25;
const AFTER = 1;
/** Rise at the low end, where a loudspeaker would click, and fall at the high end; s. */
const RISE = 0.12;
const FALL = 0.02;
/** Of full scale: room for what the converter adds. */
const LEVEL = 0.5;

/** ln(f₂/f₁)⁻¹ of the time the sweep takes: the time it needs for a factor e, s. */
export const sweepRate = ({ seconds, fromHz, toHz }: SweepOptions): number =>
  Math.max(1, Math.round((fromHz * seconds) / Math.log(toHz / fromHz))) / fromHz;

/**
 * Samples of the sweep with silence before and after, −1 to 1.
 * @throws OutOfRange where it cannot be made of these
 */
export function exponentialSweep(options: SweepOptions): Float32Array {
  const { seconds, fromHz, toHz, rate } = options;
  if (!(seconds >= 1 && seconds <= 60)) throw new OutOfRange("a sweep lasts 1 to 60 s; give --seconds 8");
  if (!(rate >= 8000 && rate <= 192_000))
    throw new OutOfRange("a sweep has 8000 to 192000 samples a second; give --rate 48000");
  if (!(fromHz >= 10 && toHz >= 2 * fromHz && toHz <= 0.45 * rate))
    throw new OutOfRange(
      `a sweep goes from 10 Hz or more up by an octave or more, to ${0.45 * rate} Hz at most; give --from 60Hz --to 2500Hz`,
    );
  const L = sweepRate(options);
  const T = L * Math.log(toHz / fromHz);
  const before = Math.round(BEFORE * rate);
  const sounding = Math.round(T * rate);
  const samples = new Float32Array(before + sounding + Math.round(AFTER * rate));
  for (let i = 0; i < sounding; i++) {
    const t = i / rate;
    samples[before + i] =
      LEVEL * ramp(t / RISE) * ramp((T - t) / FALL) * Math.sin(2 * Math.PI * fromHz * L * Math.expm1(t / L));
  }
  return samples;
}
