/**
 * Recordings of an excitation through a rig whose poles are known, as `make_sweeps.py` beside the reference recordings makes them:
 * the excitation with a second harmonic, a loudspeaker's high-pass, a sum of resonances, a delay, noise; and what a real room adds.
 * Worked in the frequency domain, so that the poles are those of the formula.
 */
import { randomLcg, randomNormal } from "d3";
import FFT from "fft.js";
import type { Sound } from "../../src/response/sound.ts";

export interface Rig {
  /** [Hz, Q] of each resonance: real part of the complex frequency, and that over twice the imaginary part. */
  readonly poles: readonly (readonly [hz: number, q: number])[];
  readonly heights: readonly number[];
  /** s */
  readonly delay: number;
  /** null: none */
  readonly noiseDb: number | null;
  readonly seed: number;
  /** Of the loudspeaker: second harmonic as a part of the tone. */
  readonly second?: number;
  /** A second path: s later, and how loud. */
  readonly echoes?: readonly (readonly [seconds: number, part: number])[];
  /** The recorder's clock runs faster by this part. */
  readonly clock?: number;
  /** Hum of 50 Hz and its harmonics, as a part of the recording's root mean square. */
  readonly hum?: number;
}

export const TEN: Pick<Rig, "poles" | "heights"> = {
  poles: [
    [91.3, 14.1],
    [228.4, 20.9],
    [341.2, 25.8],
    [459.9, 29.6],
    [579.3, 34.4],
    [695.8, 36.8],
    [812.1, 41.2],
    [919.7, 43.1],
    [1024.6, 45.2],
    [1101.9, 37.7],
  ],
  heights: [0.6, 0.5, 0.65, 0.7, 0.9, 1, 0.9, 0.8, 0.65, 0.4],
};

export function recorded(sound: Sound, rig: Rig): Sound {
  const { samples: excitation, rate } = sound;
  const heard = heardOf(sound, rig);
  const loudest = heard.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  const sounding = heard.filter((_, i) => excitation[i] !== 0);
  const rms = Math.sqrt(sounding.reduce((sum, value) => sum + value * value, 0) / sounding.length);
  const normal = randomNormal.source(randomLcg(rig.seed))();
  const noise = rig.noiseDb === null ? 0 : rms * 10 ** (-rig.noiseDb / 20);
  return {
    rate,
    samples: Float32Array.from(heard, (value, i) => {
      const sum = value + noise * normal() + (rig.hum ? rig.hum * rms * humAt(i / rate) : 0);
      return Math.round(Math.max(-1, Math.min(1, (0.4 / loudest) * sum)) * 32767) / 32768;
    }),
  };
}

/** What was heard last of each excitation, and of which rig: recordings differ by their noise more often than by the rig. */
const last = new WeakMap<Float32Array, { readonly of: string; readonly heard: Float64Array }>();

/** Without noise and hum. */
function heardOf(sound: Sound, { noiseDb: _, seed: __, hum: ___, ...rig }: Rig): Float64Array {
  const of = JSON.stringify([rig, sound.rate]);
  const before = last.get(sound.samples);
  if (before?.of === of) return before.heard;
  const heard = through(sound, rig);
  last.set(sound.samples, { of, heard });
  return heard;
}

function through(
  { samples: excitation, rate }: Sound,
  rig: Omit<Rig, "noiseDb" | "seed" | "hum">,
): Float64Array {
  const size = 2 ** Math.ceil(Math.log2(2 * excitation.length));
  const fft = fftOf(size);
  const second = rig.second ?? 0.01;
  const driven = new Array<number>(size).fill(0);
  excitation.forEach((x, i) => {
    driven[i] = x + 4 * second * x * x;
  });
  const spectrum: number[] = fft.createComplexArray();
  fft.realTransform(spectrum, driven);
  for (let k = 0; k <= size / 2; k++) {
    const [re, im] = responseAt((k * rate) / size, rig);
    const [a, b] = [spectrum[2 * k], spectrum[2 * k + 1]];
    spectrum[2 * k] = a * re - b * im;
    spectrum[2 * k + 1] = a * im + b * re;
  }
  fft.completeSpectrum(spectrum);
  const time: number[] = fft.createComplexArray();
  fft.inverseTransform(time, spectrum);
  return Float64Array.from({ length: excitation.length }, (_, i) => at(time, i * (1 + (rig.clock ?? 0))));
}

const known = new Map<number, FFT>();

/** Its tables take as long as a transform. */
function fftOf(size: number): FFT {
  const found = known.get(size) ?? new FFT(size);
  known.set(size, found);
  return found;
}

const humAt = (t: number): number =>
  [1, 2, 3, 5].reduce((sum, n) => sum + Math.sin(2 * Math.PI * 50 * n * t + n) / n, 0);

/** Between samples, by a cubic through four. */
function at(complex: readonly number[], x: number): number {
  const i = Math.floor(x);
  const t = x - i;
  const b = complex[2 * i];
  if (t === 0) return b;
  const a = complex[2 * (i - 1)] ?? 0;
  const c = complex[2 * (i + 1)] ?? 0;
  const d = complex[2 * (i + 2)] ?? 0;
  return b + 0.5 * t * (c - a + t * (2 * a - 5 * b + 4 * c - d + t * (3 * (b - c) + d - a)));
}

function responseAt(
  hz: number,
  { poles, heights, delay, echoes = [] }: Omit<Rig, "noiseDb" | "seed">,
): [re: number, im: number] {
  const w = 2 * Math.PI * hz;
  let [re, im] = [0, 0];
  poles.forEach(([f, q], k) => {
    // a (2πf/Q) s/((s − p)(s − p̄)) = a (2πf/Q) s/(s² − 2αs + α² + β²)
    const [alpha, beta] = [(-Math.PI * f) / q, 2 * Math.PI * f];
    const [dRe, dIm] = [alpha * alpha + beta * beta - w * w, -2 * alpha * w];
    const part = (heights[k] * (beta / q) * w) / (dRe * dRe + dIm * dIm);
    re += part * dIm;
    im += part * dRe;
  });
  // the loudspeaker: second order, 110 Hz, Q 0.8
  const low = 2 * Math.PI * 110;
  const [hRe, hIm] = [low * low - w * w, (w * low) / 0.8];
  const size = hRe * hRe + hIm * hIm;
  const [lRe, lIm] = [(-w * w * hRe) / size, (w * w * hIm) / size];
  [re, im] = [re * lRe - im * lIm, re * lIm + im * lRe];
  // every path with its own delay
  let [pRe, pIm] = [0, 0];
  for (const [seconds, part] of [[0, 1] as const, ...echoes]) {
    pRe += part * Math.cos(w * (delay + seconds));
    pIm -= part * Math.sin(w * (delay + seconds));
  }
  return [re * pRe - im * pIm, re * pIm + im * pRe];
}

/** From `of` up to `hz`. */
export const cents = (hz: number, of: number): number => 1200 * Math.log2(hz / of);
