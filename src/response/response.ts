/**
 * What a column answers to an excitation: its resonances as complex poles, with how far each can be trusted. Heights are left out: a
 * loudspeaker and a microphone that nobody calibrated give them no unit.
 */
import { OutOfRange } from "../units/outOfRange.ts";
import {
  arrival,
  type ImpulseResponse,
  impulseResponse,
  noiseOf,
  type Spectrum,
  windowedSpectrum,
} from "./impulseResponse.ts";
import { type Points, type PoleFit, type PolePlace, type Refined, refined, vectorFit } from "./poleFit.ts";
import { type Sound, type SoundWarning, signalToNoiseDb, soundWarnings } from "./sound.ts";

export interface Resonance {
  /** Counted from the lowest found. */
  readonly n: number;
  /** Real part of the complex natural frequency, Hz, and the half of its 95 % interval. */
  readonly hz: number;
  readonly hzUncertainty: number;
  /** hz over twice the imaginary part, and the half of its 95 % interval. */
  readonly q: number;
  readonly qUncertainty: number;
}

/** `not heard`: the excitation is not in the recording; `restless`: the resonances leave more unexplained than the noise would. */
export type ResponseWarning = SoundWarning | "not heard" | "restless";

export interface Response {
  readonly resonances: readonly Resonance[];
  /** From the excitation to what it caused, s. */
  readonly delay: number;
  /** null where no silence was recorded before. */
  readonly signalToNoiseDb: number | null;
  readonly band: readonly [fromHz: number, toHz: number];
  readonly warnings: readonly ResponseWarning[];
}

/** Of a normal distribution, to either side. */
const NINETY_FIVE = 1.96;
/** Periods of the lowest frequency that the window holds: ten decay times at Q 20. */
const PERIODS = 70;
const SHORTEST = 0.4;
const LONGEST = 1.5;
/** Neighbouring frequencies are taken together where no resonance is that narrow. */
const NARROWEST = 600;
/** Neither a loudspeaker's roll-off nor a line of hum is a resonance of a column. */
const LEAST_Q = 5;
const MOST_Q = 150;
/** What a pole has to take off the sum of squares to be kept or put in: far beyond chance. */
const TOLD = 80;
const MOST_POLES = 28;
/** As a part of it: echoes are never explained whole, and each further pole explains less. */
const WORTH = 0.1;
/** Standard deviations that a peak stands over what is beside it. */
const PROMINENT = 8;
/** Power beyond the noise's that a fit may leave before it is said. */
const RESTLESS = 20;
/** What windows and neighbours taken together leave of a pole's place, as a part of its half-width: seen where poles are known. */
const WINDOWED = 1e-3;
/** Power while the response lasts over power at all other times, where something was heard. */
const HEARD = 4;
/** Later or earlier than it seems to arrive, s. */
const ARRIVALS = [-3, -2, -1, 0, 1, 2].map((step) => step * 1e-4);

/** @throws OutOfRange where the two are of different rates, or too short */
export function responseOf(excitation: Sound, recording: Sound): Response {
  const { rate } = recording;
  if (excitation.rate !== rate)
    throw new OutOfRange(
      `the recording has ${rate} samples a second and the excitation ${excitation.rate}; record at the excitation's rate`,
    );
  if (Math.min(excitation.samples.length, recording.samples.length) < rate / 2)
    throw new OutOfRange("half a second of excitation and of recording is the least to tell anything by");
  const impulse = impulseResponse(excitation.samples, recording.samples, rate);
  const heard = soundWarnings(excitation, recording);
  const nothing = {
    resonances: [],
    signalToNoiseDb: signalToNoiseDb(excitation, recording),
    band: impulse.band,
  };
  const start = arrival(impulse);
  const seconds = Math.min(LONGEST, Math.max(SHORTEST, PERIODS / impulse.band[0]));
  if (!isHeard(impulse, start, seconds)) return { ...nothing, delay: 0, warnings: [...heard, "not heard"] };
  const spectrum = windowedSpectrum(impulse, start, seconds);
  const first = merged(spectrum, noiseOf(spectrum, impulse));
  const rough = search(first);
  // the noise as it is: hum and harmonics are not white
  const points = reweighted(first, rough.fit);
  const { fit, covariance, gain } = pruned(
    points,
    refined(points, vectorFit(points, placesOf(rough.fit), rough.fit.delay, 2)),
  );
  // over what white noise would leave; what is left then is no noise, and moves poles by more than its size tells
  const left = rough.fit.chiSquare / (2 * points.omega.length);
  const isRestless = left > RESTLESS;
  const around = excessOver(points, fit);
  const excess = (beta: number) => around(beta) * (isRestless ? left : 1);
  const resonances = fit.poles
    .map((pole, k) => ({ ...pole, variance: covariance[k], gain: gain[k], excess: excess(pole.beta) }))
    .filter((pole) => isResonance(pole, impulse))
    .sort((a, b) => a.beta - b.beta)
    .map(({ alpha, beta, variance, excess }, i) => {
      const q = beta / (-2 * alpha);
      const windowed = (WINDOWED * alpha) ** 2;
      // relative, of β/α, in first order
      const ofQ =
        variance.beta / (beta * beta) +
        variance.alpha / (alpha * alpha) -
        (2 * variance.both) / (alpha * beta);
      return {
        n: i + 1,
        hz: beta / (2 * Math.PI),
        hzUncertainty: (NINETY_FIVE * Math.sqrt(variance.beta * excess + windowed)) / (2 * Math.PI),
        q,
        qUncertainty: NINETY_FIVE * q * Math.sqrt(ofQ * excess + WINDOWED ** 2),
      };
    });
  const warnings: ResponseWarning[] = isRestless ? [...heard, "restless"] : heard;
  return { ...nothing, resonances, delay: start + fit.delay, warnings };
}

const isResonance = (
  { alpha, beta, gain, excess }: { alpha: number; beta: number; gain: number; excess: number },
  { band }: ImpulseResponse,
): boolean => {
  const q = beta / (-2 * alpha);
  const hz = beta / (2 * Math.PI);
  return q >= LEAST_Q && q <= MOST_Q && gain > TOLD * excess && hz > band[0] && hz < band[1];
};

/** Whether what arrives from `start` on stands out of all that comes at other times, by its power. */
function isHeard({ samples, rate }: ImpulseResponse, start: number, seconds: number): boolean {
  const [from, to] = [
    Math.floor(start * rate),
    Math.min(samples.length, Math.ceil((start + seconds) * rate)),
  ];
  let [within, all] = [0, 0];
  samples.forEach((value, i) => {
    all += value * value;
    if (i >= from && i < to) within += value * value;
  });
  return within / (to - from) > (HEARD * (all - within)) / (samples.length - (to - from));
}

/** Neighbours taken together as far as they lie within a narrow resonance's width. */
function merged({ hz, values }: Spectrum, deviation: Float64Array): Points {
  const [omega, re, im, weight]: [number[], number[], number[], number[]] = [[], [], [], []];
  const step = hz[1] - hz[0];
  for (let i = 0; i < hz.length; ) {
    const count = Math.min(hz.length - i, Math.max(1, Math.floor(hz[i] / NARROWEST / step)));
    let [f, a, b, power] = [0, 0, 0, 0];
    for (let k = i; k < i + count; k++) {
      f += hz[k];
      a += values[2 * k];
      b += values[2 * k + 1];
      power += deviation[k] ** 2;
    }
    omega.push((2 * Math.PI * f) / count);
    re.push(a / count);
    im.push(b / count);
    weight.push(count / Math.sqrt(power));
    i += count;
  }
  return {
    omega: Float64Array.from(omega),
    re: Float64Array.from(re),
    im: Float64Array.from(im),
    weight: Float64Array.from(weight),
  };
}

const placesOf = ({ poles }: PoleFit): PolePlace[] => poles.map(({ alpha, beta }) => [alpha, beta]);

/** As many poles as the points tell of: the peaks, then one after the other where something is left. */
function search(points: Points): Refined {
  const { omega } = points;
  const low = omega[0];
  // beside the peaks: a loudspeaker's roll-off
  const first: PolePlace[] = [...peaks(points), [-1.2 * low, 1.2 * low]];
  const few = everyThird(points);
  const starts = ARRIVALS.map((delay) => vectorFit(few, first, delay, 3));
  const start = starts.reduce((a, b) => (b.chiSquare < a.chiSquare ? b : a));
  let best = refined(points, vectorFit(points, placesOf(start), start.delay, 2));
  while (best.fit.poles.length < MOST_POLES) {
    const wanting = unexplained(points, best.fit);
    if (wanting === null) break;
    const next = refined(points, vectorFit(points, [...placesOf(best.fit), wanting], best.fit.delay, 3));
    if (best.fit.chiSquare - next.fit.chiSquare < Math.max(TOLD, WORTH * best.fit.chiSquare)) break;
    best = next;
  }
  return pruned(points, best);
}

const everyThird = ({ omega, re, im, weight }: Points): Points => {
  const third = (values: Float64Array) => values.filter((_, i) => i % 3 === 0);
  return { omega: third(omega), re: third(re), im: third(im), weight: third(weight) };
};

/** Without the poles that nothing is gained by. */
function pruned(points: Points, { fit, covariance, gain }: Refined): Refined {
  const excess = Math.max(1, fit.chiSquare / (2 * points.omega.length));
  const least = gain.reduce((at, one, k) => (one < gain[at] ? k : at), 0);
  if (gain.length < 2 || gain[least] > TOLD * excess) return { fit, covariance, gain };
  const rest = placesOf(fit).filter((_, k) => k !== least);
  return pruned(points, refined(points, vectorFit(points, rest, fit.delay, 3)));
}

/** Weighted by what a fit leaves around each point, but never lighter for chance. */
function reweighted(points: Points, { residual }: PoleFit): Points {
  const { omega, weight } = points;
  const width = Math.ceil(omega.length / 25);
  const sums = new Float64Array(omega.length + 1);
  for (let i = 0; i < omega.length; i++)
    sums[i + 1] = sums[i] + residual[2 * i] ** 2 + residual[2 * i + 1] ** 2;
  return {
    ...points,
    weight: weight.map((w, i) => {
      const [a, b] = [Math.max(0, i - width), Math.min(omega.length, i + width + 1)];
      return w / Math.sqrt(Math.max(0.25, (sums[b] - sums[a]) / (2 * (b - a))));
    }),
  };
}

/** Where the response is highest of all about it, and falls off to both sides by more than the noise. */
function peaks({ omega, re, im, weight }: Points): PolePlace[] {
  const size = omega.map((_, i) => Math.hypot(re[i], im[i]));
  const found: PolePlace[] = [];
  for (let i = 0; i < omega.length; i++) {
    const fall = (step: number) => {
      let least = size[i];
      for (
        let k = i + step;
        k >= 0 && k < omega.length && Math.abs(omega[k] - omega[i]) < omega[i] / 25;
        k += step
      ) {
        if (size[k] > size[i]) return 0;
        least = Math.min(least, size[k]);
      }
      return size[i] - least;
    };
    if (Math.min(fall(-1), fall(1)) * weight[i] > PROMINENT) found.push([-omega[i] / 50, omega[i]]);
  }
  return found.slice(0, MOST_POLES - 4);
}

/** The place that wants a pole most, by what is left over the width of one; null: none does. */
function unexplained({ omega }: Points, { residual, chiSquare }: PoleFit): PolePlace | null {
  const mean = Math.max(1, chiSquare / (2 * omega.length));
  let [most, at] = [0, -1];
  for (let i = 0, from = 0, to = 0, sum = 0; i < omega.length; i++) {
    while (to < omega.length && omega[to] < omega[i] * (1 + 1 / 80))
      sum += residual[2 * to] ** 2 + residual[2 * to++ + 1] ** 2;
    while (omega[from] < omega[i] * (1 - 1 / 80))
      sum -= residual[2 * from] ** 2 + residual[2 * from++ + 1] ** 2;
    const beyond = sum - 2 * (to - from) * mean;
    if (beyond > most) [most, at] = [beyond, i];
  }
  return most > TOLD ? [-omega[at] / 50, omega[at]] : null;
}

/** What is left over what the noise leaves, as a factor of variance, around ω; at least one. */
function excessOver({ omega }: Points, { residual }: PoleFit): (beta: number) => number {
  return (beta) => {
    let [sum, count] = [0, 0];
    omega.forEach((w, i) => {
      if (Math.abs(w - beta) > beta / 12) return;
      sum += residual[2 * i] ** 2 + residual[2 * i + 1] ** 2;
      count += 2;
    });
    return Math.max(1, sum / Math.max(1, count));
  };
}
