/**
 * A few unknowns of the setup from a measured impedance: least squares of ln(Z_model/Z_measured), real and imaginary part, by
 * Levenberg and Marquardt. A part of the size is so an error of the same weight on peaks and in troughs.
 *
 *   cov = s² (JᵀJ)⁻¹,   s² = Σ r²/(m − p)
 *
 * Neighbouring frequencies of a real measurement err together (the model's own error is smooth): with ρ the correlation of
 * neighbouring residuals, n of them are worth n(1 − ρ)/(1 + ρ) (Bartlett's formula for a first-order process, from memory),
 * and covariance and degrees of freedom are corrected by it. What the setup does not know for certain and the fit leaves as it
 * is widens the intervals by what it would move (`heldDimensions.ts`). Nothing more is in them: a model that is wrong
 * elsewhere moves the unknowns without widening them. That is found out by holding s² against the measurement's own noise, as
 * stated, or from second differences of the residuals, which a smooth error of the model leaves out (Gasser, Sroka &
 * Jennen-Steinmetz 1986, Biometrika 73, 625, from memory):
 *
 *   χ² = s²/σ²,   σ² = Σ (rᵢ₋₁ − 2rᵢ + rᵢ₊₁)²/(6(n − 2))
 *
 * and against how far the residuals' sign and size would hold on by chance: with ρ_k their correlation k frequencies apart,
 * (ρ₁ + … + ρ_K)√(m/K) is a standard normal number for noise alone (Box & Pierce's statistic without its squares, so that only
 * running together counts), large for an error as wide as a peak even where it is far smaller than the noise.
 */

import { EigenvalueDecomposition, inverse, Matrix } from "ml-matrix";
import { combinedUncertainty, effectiveDegreesOfFreedom } from "../../bench/measure/combinedUncertainty.ts";
import { coverageFactor } from "../../bench/measure/coverage.ts";
import type { Setup } from "../../setup/setup.ts";
import { OutOfRange } from "../../units/outOfRange.ts";
import { type Descent, levenbergMarquardt, sumOfSquares } from "../leastSquares/levenbergMarquardt.ts";
import { fitNotes, judge } from "./columnFitNotes.ts";
import { ColumnFitProblem, NEPER_DB } from "./columnFitProblem.ts";
import type { ColumnFit, Estimate } from "./columnFitResult.ts";
import { type UnknownName, unknownOf } from "./columnUnknowns.ts";
import { heldDimensions } from "./heldDimensions.ts";
import type { Measured } from "./measured.ts";

/** After a step of the fit. */
export interface FitStep {
  readonly iteration: number;
  readonly scatterDb: number;
}

const MOST_STEPS = 60;
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
 * @throws OutOfRange in words where the unknowns cannot be fitted to this
 */
export function* columnFitSteps(
  setup: Setup,
  measured: Measured,
  keys: readonly UnknownName[],
  noise: number | null = null,
): Generator<FitStep, ColumnFit, void> {
  if (keys.length === 0 || new Set(keys).size !== keys.length)
    throw new OutOfRange("name each unknown to fit once, and at least one");
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
    if (iteration === MOST_STEPS) break;
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
  const lag1Autocorrelation = lag1AutocorrelationOf(residuals);
  const worth = (1 - lag1Autocorrelation) / (1 + lag1Autocorrelation);
  const degreesOfFreedom = Math.max(1, rows * worth - at.length);
  const scatter = Math.sqrt(squares / (rows - at.length));
  const columns = problem.columns(at);
  const inverted = inverseOf(columns);
  const covariance = inverted?.map((row) => row.map((entry) => (entry * scatter ** 2) / worth)) ?? null;
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
    if (!covariance) return { unknown, value, standard: null, held: parts, interval: null, atBound };
    const components = [
      { standardUncertainty: unknown.step * Math.sqrt(covariance[i][i]), degreesOfFreedom },
      ...held.map(({ dimension, moves }) => ({
        standardUncertainty: Math.abs(moves[i]),
        degreesOfFreedom: dimension.degreesOfFreedom,
      })),
    ];
    const standard = combinedUncertainty(components);
    const expanded = standard && coverageFactor(effectiveDegreesOfFreedom(components)) * standard;
    // it could be nearly anything: no interval says that better than none
    const isTold = expanded < CANNOT_TELL * (unknown.high - unknown.low);
    return {
      unknown,
      value,
      standard: isTold ? standard : null,
      held: parts,
      // nothing beyond what makes an instrument
      interval: isTold
        ? [Math.max(unknown.low, value - expanded), Math.min(unknown.high, value + expanded)]
        : null,
      atBound,
    };
  });
  const correlation =
    covariance &&
    unknowns.map((_, i) =>
      unknowns.map((__, k) => covariance[i][k] / Math.sqrt(covariance[i][i] * covariance[k][k])),
    );
  const ownNoise = noise ?? jumps(residuals);
  const fit = {
    startDb,
    converged: settled,
    setup: problem.setupAt(at),
    estimates,
    correlation,
    scatterDb: NEPER_DB * scatter,
    scatterDegrees: (180 / Math.PI) * scatter,
    lag1Autocorrelation,
    degreesOfFreedom,
    residual: {
      noiseDb: NEPER_DB * ownNoise,
      isStated: noise !== null,
      chiSquare: (scatter / ownNoise) ** 2,
      autocorrelationScore: autocorrelationScore(residuals),
    },
  };
  const judged = { ...fit, judgement: judge(fit) };
  return { ...judged, notes: fitNotes(judged) };
}

/** Standard deviation of what jumps from one frequency to the next, of both parts. */
function jumps(residuals: Float64Array): number {
  const half = residuals.length / 2;
  let squares = 0;
  for (let i = 1; i < residuals.length - 1; i++)
    if (i % half !== 0 && (i + 1) % half !== 0)
      squares += (residuals[i - 1] - 2 * residuals[i] + residuals[i + 1]) ** 2;
  return Math.sqrt(squares / (6 * (residuals.length - 4)));
}

/** Lags that are added up: an error of the model may be as wide as a few frequencies or as many. */
const LAGS = [1, 2, 4, 8, 16, 32];

function autocorrelationScore(residuals: Float64Array): number {
  const half = residuals.length / 2;
  const squares = residuals.reduce((sum, r) => sum + r * r, 0);
  let [sum, most, lag] = [0, 0, 1];
  for (const last of LAGS) {
    for (; lag <= Math.min(last, half - 1); lag++)
      for (let i = lag; i < half; i++)
        sum += residuals[i] * residuals[i - lag] + residuals[half + i] * residuals[half + i - lag];
    most = Math.max(most, (sum / squares) * Math.sqrt(residuals.length / last));
  }
  return squares > 0 ? most : 0;
}

/** ρ of neighbouring residuals, of both parts; what chance alone makes of it is no correlation. */
function lag1AutocorrelationOf(residuals: Float64Array): number {
  const half = residuals.length / 2;
  let products = 0;
  let squares = 0;
  residuals.forEach((r, i) => {
    squares += r * r;
    if (i % half > 0) products += r * residuals[i - 1];
  });
  const rho = squares > 0 ? products / squares : 0;
  return rho < 2 / Math.sqrt(residuals.length) ? 0 : Math.min(rho, 0.999);
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
