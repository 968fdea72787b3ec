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

/** What a small change of the bore does to a resonance: relative change of its frequency and of its peak's height. */
export function sensitivity(side: Side, resonance: Resonance, derivative: StateDerivative): Sensitivity {
  const [re] = frequencyDerivative(side, resonance, derivative);
  return {
    frequency: re / resonance.frequency,
    height: resonance.peak && heightDerivative(side, resonance.peak.frequency, derivative),
  };
}

/** d f_n/dθ, Hz a unit, complex. */
export function frequencyDerivative(
  { column, gap, draw }: Side,
  resonance: Resonance,
  derivative: StateDerivative,
): Complex {
  const moved = new Float64Array(STATE);
  derivative(resonance.frequency, resonance.decay, moved);
  return zeroDerivative(column, gap, resonance, [moved[2], moved[3]], draw);
}

function heightDerivative({ column, gap, draw }: Side, peakHz: number, derivative: StateDerivative): number {
  const state = new Float64Array(STATE);
  const moved = new Float64Array(STATE);
  column.rimState(gap, draw, peakHz, 0, state);
  derivative(peakHz, 0, moved);
  const [pRe, pIm, uRe, uIm] = state;
  const [dpRe, dpIm, duRe, duIm] = moved;
  return (
    (dpRe * pRe + dpIm * pIm) / (pRe * pRe + pIm * pIm) - (duRe * uRe + duIm * uIm) / (uRe * uRe + uIm * uIm)
  );
}
