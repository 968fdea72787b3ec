/**
 * Gauss–Legendre quadrature, ∫₋₁¹ f(x) dx ≈ Σ w_i f(x_i), exact for polynomials up to degree 2n − 1: nodes and weights from
 * the eigenvalues and first components of the Jacobi matrix (Golub & Welsch 1969, Math. Comp. 23, 221).
 */
import { symmetricEigen } from "./symmetricEigen.ts";

export interface Quadrature {
  readonly nodes: Float64Array;
  readonly weights: Float64Array;
}

/** Nodes and weights of Gauss and Legendre on −1 … 1, exact for polynomials to the order 2n − 1. */
export function gaussLegendre(n: number): Quadrature {
  const jacobi = new Float64Array(n * n);
  for (let k = 1; k < n; k++) {
    const beside = k / Math.sqrt(4 * k * k - 1);
    jacobi[k * n + k - 1] = beside;
    jacobi[(k - 1) * n + k] = beside;
  }
  const { values, vectors } = symmetricEigen(jacobi, n);
  return { nodes: values, weights: values.map((_, i) => 2 * vectors[i] ** 2) };
}
