/**
 * The part of a sound that pitch is heard in, at a rate fit for it: a one-pole-pair high-pass below the lowest note asked for
 * (rumble, offset), then a linear-phase low-pass by Kaiser's window (Kaiser 1974; Oppenheim & Schafer 2010, §7.6) and every
 * n-th sample. Peaks of an autocorrelation are only as good as they are well sampled: with eight samples to the shortest period
 * passed on, that of a note's own period cannot fall between two samples and be passed over for that of two periods.
 */

import { HighPass } from "./highPass.ts";

/** Passes all below the first, nothing above its double. */
const STOP_OVER_PASS = 2;
const SAMPLES_A_PERIOD = 8;
const STOP_DB = 70;

/** Takes blocks of any length and gives the samples of the analysis band, one by one. */
export class AnalysisBand {
  readonly rateHz: number;
  /** Nothing is left above it. */
  readonly highestHz: number;
  /** By how long the band's samples lag behind those pushed, s. */
  readonly delayS: number;
  readonly #every: number;
  readonly #taps: Float64Array;
  /** Twice the length of the taps, so that the newest are always in one piece. */
  readonly #line: Float64Array;
  #at = 0;
  #phase = 0;
  readonly #highPass: HighPass;

  constructor(sampleRateHz: number, highPassHz: number, lowPassHz: number) {
    this.#every = Math.max(1, Math.floor(sampleRateHz / (SAMPLES_A_PERIOD * lowPassHz)));
    this.rateHz = sampleRateHz / this.#every;
    this.highestHz = STOP_OVER_PASS * lowPassHz;
    this.#taps = lowPass(lowPassHz / sampleRateHz);
    this.delayS = (this.#taps.length - 1) / 2 / sampleRateHz;
    this.#line = new Float64Array(2 * this.#taps.length);
    this.#highPass = new HighPass(highPassHz / sampleRateHz);
  }

  push(block: ArrayLike<number>, take: (sample: number) => void): void {
    const taps = this.#taps;
    const line = this.#line;
    const length = taps.length;
    for (let i = 0; i < block.length; i++) {
      const x = this.#highPass.next(block[i]);
      line[this.#at] = x;
      line[this.#at + length] = x;
      this.#at = (this.#at + 1) % length;
      if (++this.#phase < this.#every) continue;
      this.#phase = 0;
      let sum = 0;
      for (let k = 0, from = this.#at; k < length; k++) sum += taps[k] * line[from + k];
      take(sum);
    }
  }
}

/** A windowed sinc of odd length, its sum 1. @param cycles end of the band passed, over the sampling rate */
function lowPass(cycles: number): Float64Array {
  const half = Math.ceil((STOP_DB - 8) / (2.285 * 2 * Math.PI * cycles * (STOP_OVER_PASS - 1)) / 2);
  const beta = 0.1102 * (STOP_DB - 8.7);
  const cut = (1 + STOP_OVER_PASS) * cycles; // twice the middle of the slope
  const taps = Float64Array.from({ length: 2 * half + 1 }, (_, i) => {
    const t = i - half;
    const sinc = t === 0 ? 1 : Math.sin(Math.PI * cut * t) / (Math.PI * cut * t);
    return sinc * besselI0(beta * Math.sqrt(1 - (t / half) ** 2));
  });
  const sum = taps.reduce((total, tap) => total + tap, 0);
  return taps.map((tap) => tap / sum);
}

/** Modified Bessel function of order 0, by its series. */
function besselI0(x: number): number {
  let sum = 1;
  for (let k = 1, term = 1; term > 1e-12 * sum; k++) {
    term *= (x / (2 * k)) ** 2;
    sum += term;
  }
  return sum;
}
