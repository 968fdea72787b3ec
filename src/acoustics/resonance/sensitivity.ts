/**
 * How a resonance and its peak move with any dimension θ of the bore, by first order where they are. With [p, U] the state
 * at the rim,
 *
 *   d f_n/dθ = −(∂U/∂θ)/(∂U/∂f)  at the zero of U;     d ln|Z|/dθ = Re[(∂p/∂θ)/p − (∂U/∂θ)/U]  at the peak,
 *
 * the latter because a maximum's own movement changes its height only by second order. ∂/∂θ is the difference between two
 * bores a little apart, taken at the same frequency: no root is searched again.
 */
import type { AirColumn } from "../airColumn.ts";
import type { RimWeights } from "../duct/boreGradient.ts";
import { STATE } from "../duct/twoPort.ts";
import type { Gap } from "../gap/gap.ts";
import { type Complex, type Resonance, zeroDerivative } from "./resonances.ts";

/** A unit of θ: one metre of gap, or whatever the two bores' distance is counted in. */
export interface Sensitivity {
  /** d ln f_n/dθ, of the real part. */
  readonly frequency: number;
  /** d ln|Z|/dθ at the peak; null where the resonance has none. */
  readonly height: number | null;
}

/** Derivative of [p, U] at the rim by θ, up to the state's own common factor, at complex frequency f, Hz; four doubles. */
export type StateDerivative = (fRe: number, fIm: number, out: Float64Array) => void;

/** One of two bores that differ a little. */
export interface Side {
  readonly column: AirColumn;
  readonly gap: Gap;
  /** m of tuning slide drawn. */
  readonly draw: number;
}

/** The difference of two sides over how far they are apart. */
export function betweenSides(less: Side, more: Side, by: number): StateDerivative {
  const before = new Float64Array(STATE);
  return (fRe, fIm, out) => {
    less.column.rimState(less.gap, less.draw, fRe, fIm, before);
    more.column.rimState(more.gap, more.draw, fRe, fIm, out);
    for (let i = 0; i < STATE; i++) out[i] = (out[i] - before[i]) / by;
  };
}

/** By the gap, per metre: the shank moves, receiver and leadpipe stay. */
export function byGap(column: AirColumn, gap: Gap, draw = 0): StateDerivative {
  const { less, more, by } = column.line.neighbours(gap);
  return betweenSides({ column, gap: less, draw }, { column, gap: more, draw }, by);
}

/** Half the difference of slides, m. */
const SLIDE_STEP = 1e-4;

/** By the tuning slide, per metre drawn. */
export const bySlide = (column: AirColumn, gap: Gap, draw = 0): StateDerivative =>
  betweenSides(
    { column, gap, draw: draw - SLIDE_STEP },
    { column, gap, draw: draw + SLIDE_STEP },
    2 * SLIDE_STEP,
  );

/** What a resonance makes of a change of [p, U] at the rim: made once for all the dimensions that may move it. */
export interface AtRim {
  readonly resonance: Resonance;
  /** Hz the resonance moves a unit of U there, complex. */
  readonly hertzByFlow: Complex;
  /** Of d ln|Z| at the peak; null where the resonance has none. */
  readonly heightWeights: RimWeights | null;
}

export function atRim({ column, gap, draw }: Side, resonance: Resonance): AtRim {
  return {
    resonance,
    hertzByFlow: zeroDerivative(column, gap, resonance, [1, 0], draw),
    heightWeights: resonance.peak && heightWeights(column, gap, draw, resonance.peak.frequency),
  };
}

/** 1/p and −1/U: d ln(p/U) = dp/p − dU/U. */
function heightWeights(column: AirColumn, gap: Gap, draw: number, peakHz: number): RimWeights {
  const state = new Float64Array(STATE);
  column.rimState(gap, draw, peakHz, 0, state);
  const [pRe, pIm, uRe, uIm] = state;
  const p2 = pRe * pRe + pIm * pIm;
  const u2 = uRe * uRe + uIm * uIm;
  return [pRe / p2, -pIm / p2, -uRe / u2, uIm / u2];
}

/** What a small change of the bore does to a resonance: relative change of its frequency and of its peak's height. */
export function sensitivity(side: Side, resonance: Resonance, derivative: StateDerivative): Sensitivity {
  return sensitivityAt(atRim(side, resonance), derivative);
}

/** The same, of a resonance whose part is known. */
export function sensitivityAt(at: AtRim, derivative: StateDerivative): Sensitivity {
  return {
    frequency: frequencyDerivative(at, derivative)[0] / at.resonance.frequency,
    height: heightDerivative(at, derivative),
  };
}

/** d f_n/dθ, Hz a unit, complex. */
export function frequencyDerivative(
  { resonance: { frequency, decay }, hertzByFlow: [re, im] }: AtRim,
  derivative: StateDerivative,
): Complex {
  const moved = new Float64Array(STATE);
  derivative(frequency, decay, moved);
  const [, , duRe, duIm] = moved;
  return [re * duRe - im * duIm, re * duIm + im * duRe];
}

function heightDerivative(
  { resonance: { peak }, heightWeights }: AtRim,
  derivative: StateDerivative,
): number | null {
  if (!peak || !heightWeights) return null;
  const moved = new Float64Array(STATE);
  derivative(peak.frequency, 0, moved);
  const [wpRe, wpIm, wuRe, wuIm] = heightWeights;
  const [dpRe, dpIm, duRe, duIm] = moved;
  return wpRe * dpRe - wpIm * dpIm + wuRe * duRe - wuIm * duIm;
}
