/**
 * One take: the same sweep several times in one recording, wherever it begins there. The time from the first sweep to the last says
 * how much faster or slower the recorder's clock runs than the player's; the recording is brought to the player's clock and the
 * sweeps are averaged, sample by sample. Of a single sweep the clock is not known, and taken for the same.
 */
import { OutOfRange } from "../units/outOfRange.ts";
import { arrivals, impulseResponse, type Spectrum, windowedSpectrum } from "./impulseResponse.ts";
import { type Response, responseOf } from "./response.ts";
import { type Sound, soundWarnings } from "./sound.ts";

export interface SweepTake extends Response {
  /** Whole sweeps that were found. */
  readonly sweeps: number;
  /** null where there was one sweep only. */
  readonly clock: Clock | null;
}

export interface Clock {
  /** By how much the recorder's clock is faster, parts per million. */
  readonly ppm: number;
  /** Half of the 95 % interval. */
  readonly uncertaintyPpm: number;
}

/** Enough to find a sweep and its delay by, Hz. */
const TIMED_HZ = 1000;
/** A sweep begins so long before it arrives, s: it is heard before half of its response has come. */
const EARLY = 0.05;
/** How long a response is looked at for its delay, s. */
const TIMED = 0.4;
/** Devices differ by some 50; more than this is no clock. */
const MOST_PPM = 1000;

/**
 * @param one a single sweep with the silence before and after it, as it is played again and again
 * @throws OutOfRange where the two are of different rates, or too short
 */
export function sweepTakeOf(one: Sound, recording: Sound): SweepTake {
  const { rate, samples } = recording;
  if (one.rate !== rate)
    throw new OutOfRange(
      `the recording has ${rate} samples a second and the sweep ${one.rate}; record at the sweep's rate`,
    );
  if (samples.length < one.samples.length / 2)
    throw new OutOfRange("the recording is shorter than a sweep; record all of it");
  const whole = wholeSweeps(one, recording);
  if (whole.length === 0) return { ...responseOf(one, recording), sweeps: 0, clock: null };
  const first = Math.floor((whole[0] - EARLY) * rate);
  const clock = whole.length > 1 ? clockOf(one, recording, first, whole) : null;
  // sweeps that no clock explains cannot be laid over one another
  const used = clock ? whole : whole.slice(0, 1);
  const heard = averaged(one, recording, first, used, 1 + (clock?.ppm ?? 0) / 1e6);
  const response = responseOf(one, heard);
  const raw = soundWarnings(one, { rate, samples: samples.subarray(Math.max(0, first)) });
  const warnings = raw.includes("clipped") ? (["clipped", ...response.warnings] as const) : response.warnings;
  return {
    ...response,
    warnings: [...new Set(warnings)],
    delay: response.delay + first / rate,
    sweeps: used.length,
    clock,
  };
}

/** When each sweep that is in the recording from its beginning to its end arrives, s. */
function wholeSweeps(one: Sound, { samples, rate }: Sound): number[] {
  const last = samples.length / rate - (one.samples.findLastIndex((value) => value !== 0) + 1) / rate;
  const silence = one.samples.findIndex((value) => value !== 0) / rate;
  const times = arrivals(
    impulseResponse(one.samples, samples, rate, TIMED_HZ),
    0.6 * (one.samples.length / rate),
  );
  const whole = times.filter((at) => at > -silence && at < last);
  // they follow one another as they were played
  const period = one.samples.length / rate;
  return whole.filter((at) => {
    const turns = (at - whole[0]) / period;
    return Math.abs(turns - Math.round(turns)) * period < 0.02 + MOST_PPM * 1e-6 * (at - whole[0]);
  });
}

function clockOf(one: Sound, recording: Sound, first: number, whole: readonly number[]): Clock | null {
  const { rate } = recording;
  const period = one.samples.length;
  const turns = Math.round(((whole[whole.length - 1] - whole[0]) * rate) / period);
  const spectra = [first, first + turns * period].map((from) => {
    const { samples } = piece(recording, from, period);
    return windowedSpectrum(impulseResponse(one.samples, samples, rate, TIMED_HZ), 0, TIMED + EARLY);
  });
  const delay = delayBetween(spectra[0], spectra[1]);
  const [ppm, uncertaintyPpm] = [delay.seconds, delay.uncertainty].map(
    (seconds) => (1e6 * seconds * rate) / (turns * period),
  );
  return Math.abs(ppm) <= MOST_PPM ? { ppm, uncertaintyPpm } : null;
}

/**
 * By how much the second comes later: the slope of the phase between them, weighted by how loud they are. Coarse first, as the time at
 * which they go together best, so that no turn of the phase is lost.
 */
function delayBetween(
  { hz, values: a }: Spectrum,
  { values: b }: Spectrum,
): { readonly seconds: number; readonly uncertainty: number } {
  const re = hz.map((_, i) => b[2 * i] * a[2 * i] + b[2 * i + 1] * a[2 * i + 1]);
  const im = hz.map((_, i) => b[2 * i + 1] * a[2 * i] - b[2 * i] * a[2 * i + 1]);
  const together = (seconds: number): number => {
    let sum = 0;
    hz.forEach((f, i) => {
      const angle = 2 * Math.PI * f * seconds;
      sum += re[i] * Math.cos(angle) - im[i] * Math.sin(angle);
    });
    return sum;
  };
  const reach = 0.02;
  const step = 1e-4;
  let [coarse, most] = [0, -Infinity];
  for (let at = -reach; at <= reach; at += step) {
    const value = together(at);
    if (value > most) [coarse, most] = [at, value];
  }
  let [wff, wfp] = [0, 0];
  const phase = (i: number): number => {
    const angle = 2 * Math.PI * hz[i] * coarse;
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    return Math.atan2(re[i] * s + im[i] * c, re[i] * c - im[i] * s);
  };
  hz.forEach((f, i) => {
    const weight = Math.hypot(re[i], im[i]);
    wff += weight * f * f;
    wfp += weight * f * phase(i);
  });
  const slope = wfp / wff;
  let [left, weights] = [0, 0];
  hz.forEach((f, i) => {
    const weight = Math.hypot(re[i], im[i]);
    left += (weight * f * (phase(i) - slope * f)) ** 2;
    weights += weight * f * f;
  });
  return {
    seconds: coarse - slope / (2 * Math.PI),
    uncertainty: (1.96 * Math.sqrt(left)) / weights / (2 * Math.PI),
  };
}

/** The sweeps laid over one another on the player's clock. @param stretch how much faster the recorder counts */
function averaged(
  { samples: played }: Sound,
  { samples, rate }: Sound,
  first: number,
  whole: readonly number[],
  stretch: number,
): Sound {
  const period = played.length;
  const turns = whole.map((at) => Math.round(((at - whole[0]) * rate) / period));
  const mean = new Float32Array(period);
  for (const turn of turns)
    for (let i = 0; i < period; i++)
      mean[i] += between(samples, first + (turn * period + i) * stretch) / turns.length;
  return { samples: mean, rate };
}

/** By a cubic through four samples; nothing beyond the ends. */
function between(samples: Float32Array, x: number): number {
  const i = Math.floor(x);
  const t = x - i;
  const b = samples[i] ?? 0;
  if (t === 0) return b;
  const [a, c, d] = [samples[i - 1] ?? 0, samples[i + 1] ?? 0, samples[i + 2] ?? 0];
  return b + 0.5 * t * (c - a + t * (2 * a - 5 * b + 4 * c - d + t * (3 * (b - c) + d - a)));
}

function piece({ samples, rate }: Sound, from: number, length: number): Sound {
  const out = new Float32Array(length);
  out.set(samples.subarray(Math.max(0, from), Math.max(0, from + length)), Math.max(0, -from));
  return { samples: out, rate };
}
