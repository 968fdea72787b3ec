/**
 * Least squares by Levenberg and Marquardt's method, a step at a time:
 *
 *   (JᵀJ + λI) h = −Jᵀr
 *
 * with the damping λ divided by 9 after a step that helped and multiplied by 11 after one that did not (Marquardt 1963, J. Soc.
 * Indust. Appl. Math. 11, 431; the factors are Gavin's, The Levenberg-Marquardt method for nonlinear least squares, 2019, from
 * memory). Variables are kept within bounds by taking each step's end to the nearest place within them; one that stands at its
 * bound and is pulled outwards takes no part in the step, since it would spoil that of the others (the active set of Bertsekas
 * 1982, SIAM J. Control Optim. 20, 221). The unit of a variable is the caller's: a unit of each should change the residuals by
 * about as much.
 */
import { CholeskyDecomposition, Matrix } from "ml-matrix";

export interface LeastSquares {
  readonly start: readonly number[];
  /** Bounds of each variable, infinite where there is none. */
  readonly low: readonly number[];
  readonly high: readonly number[];
  /** Not all finite where `x` is impossible: a step too far. */
  residuals(x: readonly number[]): ArrayLike<number>;
  /** Derivatives of all residuals by each variable: a column a variable. */
  columns(x: readonly number[]): readonly ArrayLike<number>[];
}

/** How far it has come. */
export interface Descent {
  readonly x: readonly number[];
  /** Sum of the squared residuals. */
  readonly squares: number;
  /** Whether it has settled: no step is left worth taking. */
  readonly settled: boolean;
}

export interface Settled {
  /** Part of the sum of squares, and change of any variable, below which the last step that helped is the last. */
  readonly squares: number;
  readonly variables: number;
}

const DAMPING = { first: 1e-2, least: 1e-9, most: 1e9, down: 9, up: 11 };

/** After every step the best place so far; ends when that has settled. */
export function* levenbergMarquardt(problem: LeastSquares, until: Settled): Generator<Descent, void, void> {
  const { low, high } = problem;
  let x: readonly number[] = problem.start;
  let normal = normalEquations(problem, x, problem.residuals(x));
  let damping = DAMPING.first;
  for (;;) {
    const { squares } = normal;
    const step = dampedStep(normal, damping, x, problem);
    const next = step && x.map((value, i) => Math.min(high[i], Math.max(low[i], value + step[i])));
    const there = next && problem.residuals(next);
    const better = there ? sumOfSquares(there) : Infinity;
    let settled = squares === 0;
    if (next && there && better < squares) {
      const moved = Math.max(...next.map((value, i) => Math.abs(value - x[i])));
      settled = squares - better < until.squares * squares || moved < until.variables;
      x = next;
      damping = Math.max(damping / DAMPING.down, DAMPING.least);
      yield { x, squares: better, settled };
      if (settled) return;
      normal = normalEquations(problem, x, there);
      continue;
    }
    damping *= DAMPING.up;
    settled ||= damping > DAMPING.most;
    yield { x, squares, settled };
    if (settled) return;
  }
}

/** Of all residuals; not finite where one is not. */
export function sumOfSquares(residuals: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < residuals.length; i++) sum += residuals[i] ** 2;
  return sum;
}

interface NormalEquations {
  /** JᵀJ */
  readonly matrix: Matrix;
  /** Jᵀr */
  readonly gradient: readonly number[];
  readonly squares: number;
}

function normalEquations(
  problem: LeastSquares,
  x: readonly number[],
  residuals: ArrayLike<number>,
): NormalEquations {
  const columns = problem.columns(x);
  const matrix = Matrix.zeros(columns.length, columns.length);
  columns.forEach((column, i) => {
    for (let k = 0; k <= i; k++) {
      const product = dot(column, columns[k]);
      matrix.set(i, k, product);
      matrix.set(k, i, product);
    }
  });
  return {
    matrix,
    gradient: columns.map((column) => dot(column, residuals)),
    squares: sumOfSquares(residuals),
  };
}

/** null where rounding leaves no step. */
function dampedStep(
  { matrix, gradient }: NormalEquations,
  damping: number,
  x: readonly number[],
  { low, high }: LeastSquares,
): number[] | null {
  const isFree = x.map((value, i) => !(gradient[i] > 0 ? value <= low[i] : value >= high[i]));
  const free = isFree.flatMap((is, i) => (is ? [i] : []));
  if (free.length === 0) return null;
  const damped = matrix.selection(free, free);
  free.forEach((_, k) => {
    damped.set(k, k, damped.get(k, k) + damping);
  });
  const cholesky = new CholeskyDecomposition(damped);
  if (!cholesky.isPositiveDefinite()) return null;
  const solution = cholesky.solve(Matrix.columnVector(free.map((i) => -gradient[i])));
  const step = x.map(() => 0);
  free.forEach((i, k) => {
    step[i] = solution.get(k, 0);
  });
  return step;
}

function dot(a: ArrayLike<number>, b: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}
