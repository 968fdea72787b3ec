/**
 * A measured impedance beside the model's: frequency, height and Q of every resonance in both, read off in the same way so
 * that what the way of reading adds is in both alike; and how far the curves are apart throughout.
 */
import { Matrix, solve } from "ml-matrix";
import { AirColumn, type Curve } from "../../acoustics/airColumn.ts";
import { Line } from "../../acoustics/duct/line.ts";
import { settledBell } from "../../acoustics/duct/settledBell.ts";
import { gapMm as ownGapMm, type Setup } from "../../setup/setup.ts";
import { withGap } from "../../setup/withGap.ts";
import { Instrument } from "../instrument/instrument.ts";
import { cents, decibels } from "../instrument/pitch.ts";
import { type Level, levelOf } from "./level.ts";
import type { Reading } from "./measuredReading.ts";

/** An impedance against frequency, in the scale that is said beside it; without phase its magnitude, as the real part. */
export interface Measured extends Curve {
  readonly frequencies: Float64Array;
  readonly reading: Pick<Reading, "scale" | "form"> & Partial<Pick<Reading, "unit">>;
}

export const hasPhase = ({ reading }: Pick<Measured, "reading">): boolean => reading.form !== "magnitude";

/** A peak as it is read off a curve. */
export interface ReadPeak {
  readonly frequencyHz: number;
  /** |Z| in the curve's unit. */
  readonly height: number;
  readonly Q: number;
}

export interface PeakResidual {
  /** Number of the resonance. */
  readonly n: number;
  readonly model: ReadPeak;
  /** null where the measurement has no peak nearby. */
  readonly measured: ReadPeak | null;
  /** Measured against model. */
  readonly cents: number | null;
  readonly heightDb: number | null;
  /** Ratio of the measured Q to the model's. */
  readonly quality: number | null;
}

export interface Overlay {
  readonly gapMm: number;
  /** The model, Pa·s/m³, at the measurement's frequencies. */
  readonly model: Curve;
  /** What the measurement is multiplied by to be Pa·s/m³; fitted where its unit is unknown. */
  readonly unit: number;
  readonly peaks: readonly PeakResidual[];
  /** Numbers of the resonances within the range that show no peak of their own in the model. */
  readonly unread: readonly number[];
  /** Root mean square of the difference over all frequencies. */
  readonly rmsDb: number;
  /** null without a phase. */
  readonly rmsDegrees: number | null;
  /** How high the measurement stands over the model throughout, and what that may come from. */
  readonly level: Level;
}

/** The measurement within a range, Hz, its ends included. */
export function between<M extends Measured>(measured: M, low: number, high: number): M {
  const isKept = (_: number, i: number) => measured.frequencies[i] >= low && measured.frequencies[i] <= high;
  const [frequencies, re, im] = [measured.frequencies, measured.re, measured.im].map((values) =>
    values.filter(isKept),
  );
  return { ...measured, frequencies, re, im };
}

/** @throws SetupError on a gap the receiver cannot have, RangeError where nothing can be compared */
export function overlay(setup: Setup, measured: Measured, gapMm = ownGapMm(setup)): Overlay {
  withGap(setup, gapMm);
  const { frequencies } = measured;
  const model = modelCurve(setup, frequencies, gapMm);
  const unit = unitOfMeasured(setup, measured, model);
  const instrument = new Instrument(setup, { modes: modesUpTo(setup, frequencies[frequencies.length - 1]) });
  const { soundSpeed, length } = instrument.column.line;
  const within = (NEARBY * soundSpeed) / (2 * length);
  const modes = instrument.modes(gapMm);
  const peaks = modes.flatMap(({ n, peakHz }) => {
    const from = peakHz === null ? null : readPeak(frequencies, model, peakHz, within);
    if (from === null) return [];
    return [residual(n, from, readPeak(frequencies, measured, from.frequencyHz, within), unit)];
  });
  const isWithin = (hz: number) => hz >= frequencies[0] && hz <= frequencies[frequencies.length - 1];
  const unread = modes.flatMap(({ n, frequencyHz }) =>
    isWithin(frequencyHz) && !peaks.some((peak) => peak.n === n) ? [n] : [],
  );
  let squares = 0;
  let angles = 0;
  const levels = new Float64Array(frequencies.length);
  for (let i = 0; i < frequencies.length; i++) {
    const [size, angle] = logRatio(measured, model, i);
    levels[i] = size + Math.log(unit);
    squares += levels[i] ** 2;
    angles += angle ** 2;
  }
  return {
    gapMm,
    model,
    unit,
    peaks,
    unread,
    rmsDb: (20 / Math.LN10) * Math.sqrt(squares / frequencies.length),
    rmsDegrees: hasPhase(measured) ? (180 / Math.PI) * Math.sqrt(angles / frequencies.length) : null,
    level: levelOf(levels, { ...measured.reading, fitted: unit, characteristic: characteristicOf(setup) }),
  };
}

function residual(n: number, model: ReadPeak, measured: ReadPeak | null, unit: number): PeakResidual {
  return {
    n,
    model,
    measured,
    cents: measured && cents(measured.frequencyHz, model.frequencyHz),
    heightDb: measured && decibels(unit * measured.height, model.height),
    quality: measured && measured.Q / model.Q,
  };
}

const MOST_MODES = 40;

/** How many resonances lie below a frequency, more or less. */
function modesUpTo(setup: Setup, hz: number): number {
  const { length, soundSpeed } = new Line(setup);
  return Math.min(MOST_MODES, Math.max(1, Math.round((2 * length * hz) / soundSpeed)));
}

/** The model's impedance at these frequencies, Hz, rising. */
export function modelCurve(setup: Setup, frequencies: Float64Array, gapMm: number): Curve {
  const [lowest, highest] = [frequencies[0], frequencies[frequencies.length - 1]];
  const column = new AirColumn(settledBell(setup, highest), lowest, highest);
  return column.curve(column.grid(frequencies), column.line.gap(gapMm / 1000));
}

/** ln(x/y) of two curves at a frequency: nepers and radians, −π to π. */
export function logRatio(x: Curve, y: Curve, i: number): readonly [nepers: number, radians: number] {
  const re = x.re[i] * y.re[i] + x.im[i] * y.im[i];
  const im = x.im[i] * y.re[i] - x.re[i] * y.im[i];
  const size = Math.hypot(re, im) / (y.re[i] ** 2 + y.im[i] ** 2);
  return [Math.log(size), Math.atan2(im, re)];
}

/** Pa·s/m³ in one unit of the measurement; of an unknown unit the one that makes it as high as the model in the mean. */
export function unitOfMeasured(setup: Setup, measured: Measured, model: Curve): number {
  const { scale } = measured.reading;
  if (scale === "absolute") return 1;
  if (scale === "characteristic") return characteristicOf(setup);
  let sum = 0;
  for (let i = 0; i < measured.frequencies.length; i++) sum += logRatio(measured, model, i)[0];
  return Math.exp(-sum / measured.frequencies.length);
}

/** ρc/S at the rim, Pa·s/m³. */
function characteristicOf(setup: Setup): number {
  const [{ radiusIn, air }] = new Line(setup).bore.mouthpiece;
  return (air.density * air.soundSpeed) / (Math.PI * radiusIn * radiusIn);
}

/** Points that a peak is read from at least. */
const LEAST_POINTS = 5;
/** How far a peak is looked for, as a part of the distance between resonances. */
const NEARBY = 0.45;

/**
 * The highest peak `within` so many Hz of `hz`, from the points above 1/√2 of it: there one resonance has 1/|Z|² = (1 + 4Q²(f/f₀ − 1)²)/H², a
 * parabola, fitted with weights |Z|⁴ (the same relative error everywhere). null where there is none to be read: no top within
 * reach but the flank of a neighbour, or a parabola whose top is not among the points.
 */
export function readPeak(
  frequencies: Float64Array,
  { re, im }: Curve,
  hz: number,
  within: number,
): ReadPeak | null {
  const power = (i: number) => re[i] * re[i] + im[i] * im[i];
  let top = -1;
  frequencies.forEach((f, i) => {
    if (Math.abs(f - hz) < within && (top < 0 || power(i) > power(top))) top = i;
  });
  if (top < 0) return null;
  let [low, high] = [top, top];
  while (low > 0 && power(low - 1) > power(top) / 2) low--;
  while (high < frequencies.length - 1 && power(high + 1) > power(top) / 2) high++;
  // on the flank or the shoulder of a higher neighbour
  for (let i = low; i <= high; i++) if (power(i) > power(top)) return null;
  // a peak cut off at an end of the range, or seen by too few points
  if (low === 0 || high === frequencies.length - 1 || high - low + 1 < LEAST_POINTS) return null;
  const f0 = frequencies[top];
  const points = Array.from({ length: high - low + 1 }, (_, k) => {
    const i = low + k;
    return { x: frequencies[i] / f0 - 1, y: power(top) / power(i) };
  });
  // least squares of (c + bx + ax²)/y = 1
  const [c, b, a] = solve(
    new Matrix(points.map(({ x, y }) => [1 / y, x / y, (x * x) / y])),
    Matrix.ones(points.length, 1),
  ).to1DArray();
  const lowest = c - (b * b) / (4 * a);
  if (!(a > 0 && lowest > 0)) return null;
  const at = 1 - b / (2 * a);
  if (!(f0 * at > frequencies[low] && f0 * at < frequencies[high])) return null;
  return {
    frequencyHz: f0 * at,
    height: Math.sqrt(power(top) / lowest),
    Q: (at * Math.sqrt(a / lowest)) / 2,
  };
}
