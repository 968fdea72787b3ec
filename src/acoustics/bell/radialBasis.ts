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
import { EigenvalueDecomposition, Matrix } from "ml-matrix";
import { gaussLegendre } from "../numerics/quadrature.ts";

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
  const value = new Matrix(n, nodes.length);
  const slope = new Matrix(n, nodes.length);
  nodes.forEach((v, i) => {
    // v = 1 − 2s², 2s ds = −dv/2, dφ/ds = −4s dP/dv
    const s = Math.sqrt((1 - v) / 2);
    let [p0, p1, d0, d1] = [1, v, 0, 1];
    for (let q = 0; q < n; q++) {
      value.set(q, i, Math.sqrt(2 * q + 1) * p0);
      slope.set(q, i, -4 * s * Math.sqrt(2 * q + 1) * d0);
      const p2 = ((2 * q + 3) * v * p1 - (q + 1) * p0) / (q + 2);
      [p0, p1, d0, d1] = [p1, p2, d1, d0 + (2 * q + 3) * p1];
    }
  });
  const weighted = (of: Matrix, power: number) =>
    of.clone().mulRowVector(Array.from(nodes, (v, i) => (weights[i] / 2) * ((1 - v) / 2) ** (power / 2)));
  const B = weighted(value, 1).mmul(slope.transpose());
  const C = weighted(slope, 2).mmul(slope.transpose());
  const K = weighted(slope, 0).mmul(slope.transpose());
  const rest = Matrix.sub(C, B.transpose().mmul(B));
  const twice = (of: Matrix) => Matrix.add(of.mmul(B), B.transpose().mmul(of));
  const inner = n > 1 ? K.subMatrix(1, n - 1, 1, n - 1) : Matrix.zeros(0, 0);
  const modes = n > 1 ? new EigenvalueDecomposition(inner, { assumeSymmetric: true }) : null;
  const flat = (m: Matrix) => Float64Array.from(m.to1DArray());
  return {
    count: n,
    B: flat(B),
    K: flat(K),
    rest: flat(rest),
    KB: flat(twice(K)),
    restB: flat(twice(rest)),
    w: Float64Array.from(modes?.realEigenvalues ?? []),
    V: modes ? flat(modes.eigenvectorMatrix) : new Float64Array(0),
  };
}
