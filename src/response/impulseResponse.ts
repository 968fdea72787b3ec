/**
 * The response of all that stands between two recordings, by division of their spectra, and that part of it that lies in a window of
 * time from just before the sound arrives. The harmonics that a loudspeaker adds to a sweep arrive before it and the noise of the room
 * is spread over all times, so that most of both stays outside (A. Farina 2000).
 */
import { median } from "d3";
import FFT from "fft.js";
import { decimated, decimation } from "./decimate.ts";
import { ramp } from "./ramp.ts";

export interface ImpulseResponse {
  /** Of the band alone, so that the rate is low; the last quarter is what came before its time. */
  readonly samples: Float64Array;
  /** 1/s */
  readonly rate: number;
  /** Where the excitation has enough in it to divide by, Hz. */
  readonly band: readonly [fromHz: number, toHz: number];
  /** |X| of the excitation, smooth: noise goes into the response as its inverse. @param hz within the band */
  excitedAt(hz: number): number;
}

/** A column has no resonance worth a name above this, Hz. */
const HIGHEST = 4000;
/** Power of the excitation, as a part of its highest, that still counts. */
const ENOUGH = 1e-3;
/** Over so much to either side it is looked at, Hz. */
const SMOOTHED = 10;
/** The division's floor, as a part of that power. */
const FLOOR = 1e-4;
/** Over so much the band begins and ends, Hz: a sharp edge would ring beyond the window. */
const EDGE = 8;

/**
 * @param rate of both, 1/s
 * @param highestHz what is above it is left out
 */
export function impulseResponse(
  excitation: Float32Array,
  recording: Float32Array,
  rate: number,
  highestHz = HIGHEST,
): ImpulseResponse {
  const factor = decimation(rate, highestHz);
  const [played, heard] = [excitation, recording].map((samples) => decimated(samples, factor));
  // room for what arrives late, and for what arrives before its time
  const fft = new FFT(2 ** Math.ceil(Math.log2(1.5 * Math.max(played.length, heard.length))));
  const { size } = fft;
  const stepHz = rate / factor / size;
  const x = spectrumOf(played, fft);
  const y = spectrumOf(heard, fft);
  const last = Math.min(size / 2, Math.floor(highestHz / stepHz));
  const power = Float64Array.from({ length: last + 1 }, (_, k) => x[2 * k] ** 2 + x[2 * k + 1] ** 2);
  const smooth = meanOverNeighbours(power, Math.max(1, Math.round(SMOOTHED / stepHz)));
  const enough = ENOUGH * smooth.reduce((a, b) => Math.max(a, b), 0);
  const from = smooth.findIndex((p) => p > enough);
  const to = smooth.findLastIndex((p) => p > enough);
  const low = new FFT(2 ** Math.ceil(Math.log2(2.2 * to)));
  const response = new Float64Array(2 * low.size);
  for (let k = from; k <= to; k++) {
    const part = (Math.min(k - from, to - k) * stepHz) / EDGE;
    const weight = ramp(part) / (power[k] + FLOOR * smooth[k]);
    const re = (y[2 * k] * x[2 * k] + y[2 * k + 1] * x[2 * k + 1]) * weight;
    const im = (y[2 * k + 1] * x[2 * k] - y[2 * k] * x[2 * k + 1]) * weight;
    response[2 * k] = re;
    response[2 * k + 1] = im;
    response[2 * (low.size - k)] = re;
    response[2 * (low.size - k) + 1] = -im;
  }
  const time = new Float64Array(2 * low.size);
  low.inverseTransform(time, response);
  return {
    samples: Float64Array.from({ length: low.size }, (_, i) => time[2 * i]),
    rate: low.size * stepHz,
    band: [from * stepHz, to * stepHz],
    excitedAt: (hz) => Math.sqrt(smooth[Math.round(hz / stepHz)]),
  };
}

/**
 * When the sound arrives, s: where the response first reaches half of what it reaches at most. Of a band of 2 kHz that is good to
 * 0.2 ms; who fits the response knows it better.
 */
export function arrival(response: ImpulseResponse): number {
  const size = overThree(response);
  const highest = highestOf(size.subarray(0, lateIn(size)));
  return (
    Math.max(
      0,
      size.findIndex((value) => value > highest / 2),
    ) / response.rate
  );
}

/**
 * When each of several like sounds arrives, s, in order; before the recording began where it is negative.
 * @param apart at least, s
 */
export function arrivals(response: ImpulseResponse, apart: number): number[] {
  const size = overThree(response);
  const { rate } = response;
  const late = lateIn(size);
  const least = highestOf(size) / 2;
  const found: number[] = [];
  for (let i = late - size.length; i < late; i++) {
    const isFirst = found.length === 0 || i / rate - found[found.length - 1] > apart;
    if (isFirst && size[(i + size.length) % size.length] > least) found.push(i / rate);
  }
  return found;
}

/** Its size over three samples, since a sample may fall on a zero. */
function overThree({ samples }: ImpulseResponse): Float64Array {
  const size = new Float64Array(samples.length);
  for (let i = 1; i + 1 < size.length; i++) size[i] = Math.hypot(samples[i - 1], samples[i], samples[i + 1]);
  return size;
}

/** From here on it is what came before its time. */
const lateIn = ({ length }: Float64Array): number => Math.floor(0.75 * length);

const highestOf = (values: Float64Array): number => values.reduce((a, b) => Math.max(a, b), 0);

export interface Spectrum {
  /** Hz, rising. */
  readonly hz: Float64Array;
  /** Complex, two doubles a frequency. */
  readonly values: Float64Array;
}

/** Of the window: before the arrival, and how it rises and falls; s. */
const BEFORE = 0.1;
const RISE = 0.05;
const FALL = 0.15;

/**
 * The spectrum of what arrives between 0.1 s before `start` and `seconds` after it, with time counted from `start`.
 * @param start s
 * @returns at frequencies 1/(seconds + 0.1) apart over the band
 */
export function windowedSpectrum(
  { samples, rate, band }: ImpulseResponse,
  start: number,
  seconds: number,
): Spectrum {
  const fft = new FFT(2 ** Math.ceil(Math.log2((seconds + BEFORE) * rate)));
  const first = Math.round((start - BEFORE) * rate);
  const count = Math.min(fft.size, Math.floor((seconds + BEFORE) * rate));
  const piece = new Float64Array(fft.size);
  for (let i = 0; i < count; i++) {
    const t = i / rate;
    const weight = ramp(t / RISE) * ramp((seconds + BEFORE - t) / FALL);
    piece[i] = weight * samples[(first + i + samples.length) % samples.length];
  }
  const out = new Float64Array(2 * fft.size);
  fft.realTransform(out, piece);
  const stepHz = rate / fft.size;
  const low = Math.ceil((band[0] + EDGE) / stepHz);
  const high = Math.floor((band[1] - EDGE) / stepHz);
  const hz = Float64Array.from({ length: high - low + 1 }, (_, i) => (low + i) * stepHz);
  const values = new Float64Array(2 * hz.length);
  const shift = first / rate - start;
  hz.forEach((f, i) => {
    const angle = -2 * Math.PI * f * shift;
    const [re, im] = [out[2 * (low + i)], out[2 * (low + i) + 1]];
    values[2 * i] = re * Math.cos(angle) - im * Math.sin(angle);
    values[2 * i + 1] = re * Math.sin(angle) + im * Math.cos(angle);
  });
  return { hz, values };
}

/**
 * Standard deviation of the noise in re and im each, from how unevenly neighbours follow one another (third differences): white in
 * the recording, so that it goes as the inverse of the excitation.
 */
export function noiseOf({ hz, values }: Spectrum, { excitedAt }: ImpulseResponse): Float64Array {
  const uneven: number[] = [];
  for (let i = 3; i < hz.length; i++)
    for (const part of [0, 1]) {
      const at = (k: number) => values[2 * (i - k) + part];
      uneven.push((Math.abs(at(0) - 3 * at(1) + 3 * at(2) - at(3)) / Math.sqrt(20)) * excitedAt(hz[i]));
    }
  // of a normal distribution's size half lies below 0.6745 σ
  const scale = median(uneven)! / 0.6745;
  return hz.map((f) => scale / excitedAt(f));
}

function spectrumOf(samples: Float32Array, fft: FFT): Float64Array {
  const padded = new Float64Array(fft.size);
  padded.set(samples);
  const out = new Float64Array(2 * fft.size);
  fft.realTransform(out, padded);
  return out;
}

function meanOverNeighbours(values: Float64Array, width: number): Float64Array {
  const sums = new Float64Array(values.length + 1);
  for (let i = 0; i < values.length; i++) sums[i + 1] = sums[i] + values[i];
  return values.map((_, i) => {
    const a = Math.max(0, i - width);
    const b = Math.min(values.length, i + width + 1);
    return (sums[b] - sums[a]) / (b - a);
  });
}
