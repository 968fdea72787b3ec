/**
 * Complex resonances of an air column closed at the rim: the zeros of the admittance U/p, by Newton's method with the
 * derivative taken from the last two iterates, on the analytic continuation, started from the peaks of |Z|. How many there
 * must be is counted by the argument principle, and any that no peak leads to is found with the zeros already known divided
 * out (Wilkinson's deflation).
 *
 * With e^{+jωt} a decaying resonance has Im f > 0; Q = Re f/(2 Im f). Near it, Z ≈ C_n/(jω − jω_n).
 */
import { OutOfRange } from "../../units/outOfRange.ts";
import type { AirColumn } from "../airColumn.ts";
import { STATE } from "../duct/twoPort.ts";
import type { Gap } from "../gap/gap.ts";
import { PER_SPACING, type Peak, peaksOf } from "./peaks.ts";

export interface Resonance {
  /** Real and imaginary part of the complex natural frequency, Hz. */
  readonly frequency: number;
  readonly decay: number;
  readonly Q: number;
  /** The maximum of |Z| that belongs to it; null where damping leaves none. */
  readonly peak: Peak | null;
}

/** Secant steps stop below this part of the frequency. */
const CONVERGED = 1e-9;
const MOST_STEPS = 60;
/** Half the central difference for derivatives along the real axis, Hz. */
const STEP = 1e-2;
/** Below this Q a resonance is not looked for: no note stands on it. */
const LEAST_Q = 1.5;

export type Complex = readonly [re: number, im: number];

/** What a column was last found to have, and those no peak leads to: only another number needs counting again. */
const known = new WeakMap<AirColumn, { readonly count: number; readonly hidden: readonly Complex[] }>();

/**
 * Resonances from the lowest up, at most `count`, within the column's range.
 * @param draw m of tuning slide drawn
 */
export function resonancesOf(column: AirColumn, gap: Gap, count: number, draw = 0): Resonance[] {
  const flow = rimFlow(column, gap, draw);
  const grid = column.searchGrid(PER_SPACING, draw);
  const onGrid = new Float64Array(2 * grid.frequencies.length);
  const peaks = peaksOf(column, gap, draw, onGrid);
  const found: Complex[] = [];
  const add = (zero: Complex | null) => {
    if (
      zero &&
      inRange(zero, column) &&
      column.fixedParts.atRest.isAccurateAt(...zero) &&
      !found.some((other) => same(other, zero))
    )
      found.push(zero);
  };
  for (const peak of peaks) add(zeroNear(flow, [peak.frequency, peak.halfWidth], []));
  const fromPeaks = found.length;
  const last = known.get(column);
  for (const hidden of last?.hidden ?? []) add(zeroNear(flow, hidden, []));
  if (last?.count !== found.length) {
    const expected = countZeros(flow, column, onGrid);
    const spacing = column.line.soundSpeed / (2 * column.line.length);
    for (let f = column.lowest; f < column.highest && found.length < expected; f += spacing / 3)
      add(zeroNear(flow, [f, f / 8], found));
  }
  known.set(column, { count: found.length, hidden: found.slice(fromPeaks) });
  const notes = found.filter(([re, im]) => re > 2 * im * LEAST_Q).sort((x, y) => x[0] - y[0]);
  const owners = owned(notes, peaks);
  return notes.slice(0, count).map(([re, im], i) => ({
    frequency: re,
    decay: im,
    Q: re / (2 * im),
    peak: owners[i],
  }));
}

/** The resonance that `from` becomes at a slightly different gap or slide. @throws OutOfRange where it is lost */
export function resonanceNear(column: AirColumn, gap: Gap, draw: number, from: Resonance): Resonance {
  const zero = zeroNear(rimFlow(column, gap, draw), [from.frequency, from.decay], []);
  if (!zero)
    throw new OutOfRange(`the resonance near ${from.frequency.toFixed(1)} Hz cannot be followed that far`);
  return { frequency: zero[0], decay: zero[1], Q: zero[0] / (2 * zero[1]), peak: null };
}

const same = (x: Complex, y: Complex): boolean => Math.hypot(x[0] - y[0], x[1] - y[1]) < 1e-6 * x[0];

const inRange = ([re, im]: Complex, { lowest, highest }: AirColumn): boolean =>
  re > lowest && re < highest && im > 0;

/** Each peak belongs to the resonance nearest to it, and a resonance keeps the nearest of its peaks. */
function owned(zeros: readonly Complex[], peaks: readonly Peak[]): (Peak | null)[] {
  const owners: (Peak | null)[] = zeros.map(() => null);
  const gap = (i: number, peak: Peak) => Math.abs(zeros[i][0] - peak.frequency);
  for (const peak of peaks) {
    let nearest = 0;
    zeros.forEach((_, i) => {
      if (gap(i, peak) < gap(nearest, peak)) nearest = i;
    });
    const held = owners[nearest];
    if (zeros.length && (!held || gap(nearest, peak) < gap(nearest, held))) owners[nearest] = peak;
  }
  return owners;
}

/** f ↦ U at the rim, complex; its zeros are the resonances. */
type Flow = (fRe: number, fIm: number) => Complex;

function rimFlow(column: AirColumn, gap: Gap, draw: number): Flow {
  const state = new Float64Array(STATE);
  return (fRe, fIm) => {
    column.rimState(gap, draw, fRe, fIm, state);
    return [state[2], state[3]];
  };
}

/** Zero of f/Π(z − other) by the secant method from `start`; null where it does not settle. */
function zeroNear(f: Flow, start: Complex, others: readonly Complex[]): Complex | null {
  const deflated: Flow = (re, im) => {
    let [vRe, vIm] = f(re, im);
    for (const [kRe, kIm] of others) {
      const dRe = re - kRe;
      const dIm = im - kIm;
      const size = dRe * dRe + dIm * dIm;
      [vRe, vIm] = [(vRe * dRe + vIm * dIm) / size, (vIm * dRe - vRe * dIm) / size];
    }
    return [vRe, vIm];
  };
  let [xRe, xIm] = start;
  let [vRe, vIm] = deflated(xRe, xIm);
  // the first step goes a tenth of the width towards the axis
  let sRe = 0;
  let sIm = -0.1 * xIm;
  for (let i = 0; i < MOST_STEPS; i++) {
    xRe += sRe;
    xIm += sIm;
    if (!(xRe > 0) || Math.abs(xIm) > xRe) return null;
    if (Math.hypot(sRe, sIm) < CONVERGED * xRe) return [xRe, xIm];
    const [wRe, wIm] = deflated(xRe, xIm);
    // step ← −w·step/(w − v)
    const dRe = wRe - vRe;
    const dIm = wIm - vIm;
    const size = dRe * dRe + dIm * dIm;
    if (size === 0) return [xRe, xIm];
    const nRe = -(wRe * sRe - wIm * sIm);
    const nIm = -(wRe * sIm + wIm * sRe);
    sRe = (nRe * dRe + nIm * dIm) / size;
    sIm = (nIm * dRe - nRe * dIm) / size;
    [vRe, vIm] = [wRe, wIm];
    // a long step leaves the region where the series continues the line
    const tooLong = Math.hypot(sRe, sIm) / (0.1 * start[0]);
    if (tooLong > 1) {
      sRe /= tooLong;
      sIm /= tooLong;
    }
  }
  return null;
}

/** Steps a resonance spacing along the edge of the region, where no zero is near. */
const EDGE_STEPS = 6;

/**
 * Zeros above the real axis where the column's series can be trusted: the winding of U around that region.
 * @param onGrid U along the axis, where peaks were looked for
 */
function countZeros(f: Flow, { fixedParts: { atRest } }: AirColumn, onGrid: Float64Array): number {
  const { low, high } = atRest;
  const points = onGrid.length / 2;
  const along = winding(
    (t) => f(low + (high - low) * t, 0),
    Array.from({ length: points }, (_, i) => [onGrid[2 * i], onGrid[2 * i + 1]] as const),
  );
  // the edge crowds at its ends, where a step along it is short
  const edge = (t: number) => f(...atRest.edge(Math.PI * t));
  const steps = Math.ceil((points * EDGE_STEPS) / PER_SPACING);
  const arc = winding(
    edge,
    Array.from({ length: steps + 1 }, (_, k) => edge(k / steps)),
  );
  return Math.round((along + arc) / (2 * Math.PI));
}

/** How far U may turn in one step along a path, rad, before the step is halved, and how often that is done at most. */
const MOST_TURN = 1;
const MOST_HALVINGS = 12;

/**
 * By how much U turns along a path from t = 0 to 1, rad.
 * @param known its values at equal steps of t; between them it is asked where it turns fast
 */
function winding(at: (t: number) => Complex, known: readonly Complex[]): number {
  const between = (t0: number, a: Complex, t1: number, b: Complex, halvings: number): number => {
    const turn = Math.atan2(b[1] * a[0] - b[0] * a[1], b[0] * a[0] + b[1] * a[1]);
    if (Math.abs(turn) < MOST_TURN || halvings === 0) return turn;
    const t = (t0 + t1) / 2;
    const middle = at(t);
    return between(t0, a, t, middle, halvings - 1) + between(t, middle, t1, b, halvings - 1);
  };
  const steps = known.length - 1;
  let sum = 0;
  for (let k = 1; k <= steps; k++)
    sum += between((k - 1) / steps, known[k - 1], k / steps, known[k], MOST_HALVINGS);
  return sum;
}

/** ∂U/∂f along the real axis: U is analytic. */
function slope(flow: Flow, re: number, im: number): Complex {
  const a = flow(re - STEP, im);
  const b = flow(re + STEP, im);
  return [(b[0] - a[0]) / (2 * STEP), (b[1] - a[1]) / (2 * STEP)];
}

const divide = ([aRe, aIm]: Complex, [bRe, bIm]: Complex): Complex => {
  const size = bRe * bRe + bIm * bIm;
  return [(aRe * bRe + aIm * bIm) / size, (aIm * bRe - aRe * bIm) / size];
};

/** Residue C_n of Z ≈ C_n/(jω − jω_n), Pa/m³: j2π p/(∂U/∂f) at the resonance. */
export function residueOf(column: AirColumn, gap: Gap, { frequency, decay }: Resonance, draw = 0): Complex {
  const state = new Float64Array(STATE);
  column.rimState(gap, draw, frequency, decay, state);
  const [re, im] = divide([state[0], state[1]], slope(rimFlow(column, gap, draw), frequency, decay));
  return [-2 * Math.PI * im, 2 * Math.PI * re];
}

/**
 * How fast the resonance moves when U at the rim changes by `dU` a unit of anything, Hz a unit, complex: −∂U/(∂U/∂f).
 */
export function zeroDerivative(
  column: AirColumn,
  gap: Gap,
  { frequency, decay }: Resonance,
  [re, im]: Complex,
  draw = 0,
): Complex {
  return divide([-re, -im], slope(rimFlow(column, gap, draw), frequency, decay));
}
