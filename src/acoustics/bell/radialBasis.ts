/**
 * Radial functions for the field in a round duct of radius a, s = r/a:
 *
 *   φ_q(s) = √(2q+1) P_q(1 − 2s²),   ∫₀¹ φ_m φ_n 2s ds = δ_mn
 *
 * φ₀ = 1 is the plane wave. Modes of the straight duct (J₀) have no slope at the wall and so fit a flaring wall badly: their
 * series converges like 1/N. Legendre polynomials are free there, and a smooth flare needs three or four. Integrals, weight 2s ds:
 *
 *   B_mn = ∫ s φ_n' φ_m,   C_mn = ∫ s² φ_m' φ_n',   K_mn = ∫ φ_m' φ_n'
 */
import { gaussLegendre } from "../numerics/quadrature.ts";
import { symmetricEigen } from "../numerics/symmetricEigen.ts";

/** Real n × n matrices, row by row. */
export interface RadialBasis {
  readonly count: number;
  readonly B: Float64Array;
  readonly K: Float64Array;
  /** C − BᵀB: what a finite number of functions leaves of the wall's slope; 0 for all of them. */
  readonly rest: Float64Array;
  /** KB + BᵀK and the same of `rest`: what B does to either along a flare. */
  readonly KB: Float64Array;
  readonly restB: Float64Array;
  /** K of all but the plane wave as V·diag(w)·Vᵀ: its straight duct's modes. */
  readonly w: Float64Array;
  readonly V: Float64Array;
}

const known = new Map<number, RadialBasis>();

/**
 * The functions and their integrals; made once for each number of them.
 * @param count of functions, the plane wave included
 */
export function radialBasis(count: number): RadialBasis {
  const found = known.get(count);
  if (found) return found;
  const made = makeBasis(count);
  known.set(count, made);
  return made;
}

function makeBasis(n: number): RadialBasis {
  const { nodes, weights } = gaussLegendre(n + 2);
  const value = new Float64Array(n * nodes.length);
  const slope = new Float64Array(n * nodes.length);
  nodes.forEach((v, i) => {
    // v = 1 − 2s², 2s ds = −dv/2, dφ/ds = −4s dP/dv
    const s = Math.sqrt((1 - v) / 2);
    let [p0, p1, d0, d1] = [1, v, 0, 1];
    for (let q = 0; q < n; q++) {
      value[q * nodes.length + i] = Math.sqrt(2 * q + 1) * p0;
      slope[q * nodes.length + i] = -4 * s * Math.sqrt(2 * q + 1) * d0;
      const p2 = ((2 * q + 3) * v * p1 - (q + 1) * p0) / (q + 2);
      [p0, p1, d0, d1] = [p1, p2, d1, d0 + (2 * q + 3) * p1];
    }
  });
  /** ∫ s^power f_m g_n 2s ds */
  const integrals = (f: Float64Array, g: Float64Array, power: number) =>
    each(n, (row, column) =>
      sum(nodes.length, (i) => {
        const weight = (weights[i] / 2) * ((1 - nodes[i]) / 2) ** (power / 2);
        return weight * f[row * nodes.length + i] * g[column * nodes.length + i];
      }),
    );
  const B = integrals(value, slope, 1);
  const C = integrals(slope, slope, 2);
  const K = integrals(slope, slope, 0);
  const rest = each(
    n,
    (row, column) => C[row * n + column] - sum(n, (k) => B[k * n + row] * B[k * n + column]),
  );
  const twice = (of: Float64Array) =>
    each(n, (row, column) =>
      sum(n, (k) => of[row * n + k] * B[k * n + column] + B[k * n + row] * of[k * n + column]),
    );
  const inner = each(n - 1, (row, column) => K[(row + 1) * n + column + 1]);
  const { values: w, vectors: V } = symmetricEigen(inner, n - 1);
  return { count: n, B, K, rest, KB: twice(K), restB: twice(rest), w, V };
}

/** An n × n matrix, row by row. */
const each = (n: number, element: (row: number, column: number) => number): Float64Array =>
  Float64Array.from({ length: n * n }, (_, at) => element(Math.floor(at / n), at % n));

function sum(count: number, term: (k: number) => number): number {
  let total = 0;
  for (let k = 0; k < count; k++) total += term(k);
  return total;
}
