/**
 * A few unknowns of the setup from a measured impedance: least squares of ln(Z_model/Z_measured), real and imaginary part, by
 * Levenberg and Marquardt. A part of the size is so an error of the same weight on peaks and in troughs. Where no phase was
 * measured the real part, the ratio of magnitudes, is fitted alone.
 *
 *   cov = s² (S/γ₀) (JᵀJ)⁻¹,   s² = Σ r²/(m − p)
 *
 * Neighbouring frequencies of a real measurement err together (the model's own error is smooth), which S/γ₀ counts for
 * (`residualNoise.ts`). What the setup does not know for certain and the fit leaves as it is widens the intervals by what it
 * would move (`heldDimensions.ts`). Nothing more is in them: a model that is wrong elsewhere moves the unknowns without widening
 * them. That is found out by holding s² against the measurement's own noise, as stated or as it jumps from one frequency to the
 * next, χ² = s²/σ², and by how far the residuals run together; and what error of the model the noise would hide is told too.
 */

import { EigenvalueDecomposition, inverse, Matrix } from "ml-matrix";
import { settledBell } from "../../acoustics/duct/settledBell.ts";
import { combinedUncertainty, effectiveDegreesOfFreedom } from "../../bench/measure/combinedUncertainty.ts";
import { coverageFactor } from "../../bench/measure/coverage.ts";
import type { Setup } from "../../setup/setup.ts";
import { OutOfRange } from "../../units/outOfRange.ts";
import { type Descent, levenbergMarquardt, sumOfSquares } from "../leastSquares/levenbergMarquardt.ts";
import { fitNotes, judge } from "./columnFitNotes.ts";
import { ColumnFitProblem, NEPER_DB } from "./columnFitProblem.ts";
import type { ColumnFit, Estimate } from "./columnFitResult.ts";
import { type UnknownName, unknownOf } from "./columnUnknowns.ts";
import { curvedBell } from "./curvedBell.ts";
import { heldDimensions } from "./heldDimensions.ts";
import { hasPhase, type Measured } from "./measured.ts";
import { residualNoise } from "./residualNoise.ts";

/** After a step of the fit. */
export interface FitStep {
  readonly iteration: number;
  readonly scatterDb: number;
}

/** Steps after which a fit that has not settled is left as not converged. */
export const MOST_STEPS = 60;
/**
 * The last step takes away less than this part of the sum of squares, a hundredth of a standard uncertainty in a thousand
 * points, or moves no unknown by more than this part of its step.
 */
const SETTLED = { squares: 1e-7, variables: 1e-4 };
/** Part of an unknown's range that half an interval may be: beyond it the measurement does not tell it. */
const CANNOT_TELL = 0.5;
/** Condition of JᵀJ, scaled to correlations, beyond which it tells unknowns apart no more. */
const SINGULAR = 1e-10;

/**
 * Step by step, for whoever has other things to do in between; leaving early is cancelling.
 * @param noise standard deviation of the measurement's two parts, of the size of Z; null where it is not known
 * @param mostSteps after which it is not converged
 * @throws OutOfRange in words where the unknowns cannot be fitted to this
 */
export function* columnFitSteps(
  asked: Setup,
  measured: Measured,
  keys: readonly UnknownName[],
  noise: number | null = null,
  mostSteps: number = MOST_STEPS,
): Generator<FitStep, ColumnFit, void> {
  if (keys.length === 0 || new Set(keys).size !== keys.length)
    throw new OutOfRange("name each unknown to fit once, and at least one");
  const setup = settledBell(asked, measured.frequencies[measured.frequencies.length - 1]);
  const unknowns = keys.map((key) => unknownOf(setup, key));
  for (const { name, start, low, high } of unknowns)
    if (!(start >= low && start <= high))
      throw new OutOfRange(
        `${name}: the setup's ${start} is not between ${low} and ${high}; start from there`,
      );
  const problem = new ColumnFitProblem(setup, measured, unknowns);
  const startDb = problem.scatterDb(sumOfSquares(problem.residuals(problem.start)));
  let iteration = 0;
  let last: Descent = { x: problem.start, squares: Infinity, settled: false };
  for (last of levenbergMarquardt(problem, SETTLED)) {
    iteration++;
    yield { iteration, scatterDb: problem.scatterDb(last.squares) };
    if (iteration === mostSteps) break;
  }
  return result(problem, last, startDb, noise);
}

function result(
  problem: ColumnFitProblem,
  { x: at, squares, settled }: Descent,
  startDb: number,
  noise: number | null,
): ColumnFit {
  const { unknowns, rows } = problem;
  const residuals = problem.residuals(at);
  const spread = residualNoise(residuals, problem.parts, at.length);
  const { degreesOfFreedom, inflation } = spread;
  const scatter = Math.sqrt(squares / (rows - at.length));
  const columns = problem.columns(at);
  const inverted = inverseOf(columns);
  const covariance = inverted?.map((row) => row.map((entry) => entry * scatter ** 2 * inflation)) ?? null;
  const held = inverted ? heldDimensions(problem, at, columns, inverted) : [];
  const estimates = unknowns.map((unknown, i): Estimate => {
    const value = problem.value(i, at);
    const atBound = value <= unknown.low || value >= unknown.high;
    const parts = held
      .map(({ dimension: { path, name, unit, standard }, moves }) => ({
        path,
        name,
        unit,
        standard,
        moves: Math.abs(moves[i]),
      }))
      .filter(({ moves }) => moves > 0)
      .sort((a, b) => b.moves - a.moves);
    const shared = { unknown, value, held: parts, atBound };
    if (!covariance || !inverted) return { ...shared, standard: null, smoothMoves: null, interval: null };
    const smoothMoves = unknown.step * spread.smoothAtMost * Math.sqrt(rows * inverted[i][i]);
    const components = [
      { standardUncertainty: unknown.step * Math.sqrt(covariance[i][i]), degreesOfFreedom },
      ...held.map(({ dimension, moves }) => ({
        standardUncertainty: Math.abs(moves[i]),
        degreesOfFreedom: dimension.degreesOfFreedom,
      })),
    ];
    const standard = combinedUncertainty(components);
    const expanded = standard && coverageFactor(effectiveDegreesOfFreedom(components)) * standard;
    // it could be nearly anything, or is not where the least squares are: no interval says that better than none
    const isTold = settled && expanded < CANNOT_TELL * (unknown.high - unknown.low);
    return {
      ...shared,
      standard: isTold ? standard : null,
      smoothMoves,
      // nothing beyond what makes an instrument
      interval: isTold
        ? [Math.max(unknown.low, value - expanded), Math.min(unknown.high, value + expanded)]
        : null,
    };
  });
  const correlation =
    covariance &&
    unknowns.map((_, i) =>
      unknowns.map((__, k) => covariance[i][k] / Math.sqrt(covariance[i][i] * covariance[k][k])),
    );
  const ownNoise = noise ?? spread.jumps;
  const fit = {
    startDb,
    converged: settled,
    setup: problem.setupAt(at),
    estimates,
    correlation,
    scatterDb: NEPER_DB * scatter,
    scatterDegrees: hasPhase(problem.measured) ? (180 / Math.PI) * scatter : null,
    lag1Autocorrelation: spread.lag1Autocorrelation,
    degreesOfFreedom,
    residual: {
      noiseDb: NEPER_DB * ownNoise,
      isStated: noise !== null,
      chiSquare: (scatter / ownNoise) ** 2,
      autocorrelationScore: spread.score,
    },
    curved: inverted && curvedBell(problem, at, squares, columns, inverted, rows / inflation),
  };
  return { ...fit, judgement: judge(fit), notes: fitNotes(fit) };
}

/** (JᵀJ)⁻¹; null where some unknown, or some combination of them, changes nothing. */
function inverseOf(columns: readonly Float64Array[]): number[][] | null {
  const sizes = columns.map((column) => Math.sqrt(column.reduce((sum, x) => sum + x * x, 0)));
  if (sizes.some((size) => !(size > 0))) return null;
  const scaled = new Matrix(
    columns.map((column, i) =>
      columns.map(
        (other, k) => column.reduce((sum, x, row) => sum + x * other[row], 0) / (sizes[i] * sizes[k]),
      ),
    ),
  );
  const { realEigenvalues } = new EigenvalueDecomposition(scaled, { assumeSymmetric: true });
  const inverted = Math.min(...realEigenvalues) < SINGULAR ? null : inverse(scaled);
  return inverted && sizes.map((size, i) => sizes.map((other, k) => inverted.get(i, k) / (size * other)));
}
