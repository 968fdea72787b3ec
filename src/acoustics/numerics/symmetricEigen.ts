/**
 * Eigenvalues and vectors of a small real symmetric matrix, A = V·diag(w)·Vᵀ, by Jacobi's rotations (cyclic by rows; Golub &
 * Van Loan, Matrix Computations, §8.5). Own code: the first curve needs no more of a library of matrices than this, and
 * waits for all of it.
 */

export interface SymmetricEigen {
  /** In ascending order. */
  readonly values: Float64Array;
  /** n × n, row by row; column j belongs to value j. */
  readonly vectors: Float64Array;
}

/** Quadratic convergence: ten sweeps and fewer for hundreds of rows. */
const MOST_SWEEPS = 30;

/** @param matrix symmetric, n × n, row by row */
export function symmetricEigen(matrix: Float64Array, n: number): SymmetricEigen {
  const a = matrix.slice();
  const v = new Float64Array(n * n);
  for (let k = 0; k < n; k++) v[k * n + k] = 1;
  for (let sweep = 0; sweep < MOST_SWEEPS; sweep++) {
    let isDiagonal = true;
    for (let p = 0; p < n; p++)
      for (let q = p + 1; q < n; q++) {
        const beside = a[p * n + q];
        const spread = a[q * n + q] - a[p * n + p];
        // so small that it changes neither diagonal element
        if (Math.abs(beside) <= Number.EPSILON * 1e-3 * (Math.abs(a[p * n + p]) + Math.abs(a[q * n + q])))
          continue;
        isDiagonal = false;
        const theta = spread / (2 * beside);
        const t = (theta < 0 ? -1 : 1) / (Math.abs(theta) + Math.hypot(theta, 1));
        const c = 1 / Math.hypot(t, 1);
        rotateColumns(a, n, p, q, c, t * c);
        rotateRows(a, n, p, q, c, t * c);
        rotateColumns(v, n, p, q, c, t * c);
      }
    if (isDiagonal) break;
  }
  const order = Array.from({ length: n }, (_, k) => k).sort((i, j) => a[i * n + i] - a[j * n + j]);
  return {
    values: Float64Array.from(order, (k) => a[k * n + k]),
    vectors: v.map((_, at) => v[at - (at % n) + order[at % n]]),
  };
}

function rotateColumns(m: Float64Array, n: number, p: number, q: number, c: number, s: number): void {
  for (let row = 0; row < n * n; row += n) {
    const [x, y] = [m[row + p], m[row + q]];
    m[row + p] = c * x - s * y;
    m[row + q] = s * x + c * y;
  }
}

function rotateRows(m: Float64Array, n: number, p: number, q: number, c: number, s: number): void {
  for (let k = 0; k < n; k++) {
    const [x, y] = [m[p * n + k], m[q * n + k]];
    m[p * n + k] = c * x - s * y;
    m[q * n + k] = s * x + c * y;
  }
}
