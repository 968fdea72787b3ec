import fc from "fast-check";
import { EigenvalueDecomposition, Matrix } from "ml-matrix";
import { expect, test } from "vitest";
import { gaussLegendre } from "../../../src/acoustics/numerics/quadrature.ts";
import { symmetricEigen } from "../../../src/acoustics/numerics/symmetricEigen.ts";

const symmetric = fc.integer({ min: 0, max: 12 }).chain((n) =>
  fc
    .array(fc.double({ min: -1000, max: 1000, noNaN: true }), { minLength: n * n, maxLength: n * n })
    .map((numbers) => ({
      n,
      matrix: Float64Array.from(numbers, (_, at) => {
        const [row, column] = [Math.floor(at / n), at % n];
        return numbers[Math.min(row, column) * n + Math.max(row, column)];
      }),
    })),
);

/** null where ml-matrix gives up: it reads beyond its rows at doubles as small as 1e-323 beside thousands. */
function theirValues(rows: number[][]): number[] | null {
  try {
    return new EigenvalueDecomposition(new Matrix(rows), { assumeSymmetric: true }).realEigenvalues;
  } catch (error) {
    if (error instanceof TypeError) return null;
    throw error;
  }
}

test("has ml-matrix's eigenvalues, and vectors that are orthonormal and give the matrix back", () => {
  let gaveUp = 0;
  fc.assert(
    fc.property(symmetric, ({ n, matrix }) => {
      const { values, vectors } = symmetricEigen(matrix, n);
      const rows = Array.from({ length: n }, (_, row) => [...matrix.slice(row * n, row * n + n)]);
      const size = Math.max(1, ...matrix.map(Math.abs)) * Math.max(1, n);
      const theirs = n === 0 ? [] : theirValues(rows);
      if (!theirs) gaveUp++;
      else
        values.forEach((value, k) => {
          expect(Math.abs(value - theirs[k]) / size).toBeLessThan(1e-13);
        });
      for (let i = 0; i < n; i++)
        for (let j = 0; j < n; j++) {
          let [product, back] = [0, 0];
          for (let k = 0; k < n; k++) {
            product += vectors[k * n + i] * vectors[k * n + j];
            back += vectors[i * n + k] * values[k] * vectors[j * n + k];
          }
          expect(Math.abs(product - Number(i === j))).toBeLessThan(1e-13);
          expect(Math.abs(back - matrix[i * n + j]) / size).toBeLessThan(1e-13);
        }
    }),
  );
  expect(gaveUp).toBeLessThan(10);
});

test("Gauss's rule of five points (Abramowitz & Stegun, table 25.4)", () => {
  const { nodes, weights } = gaussLegendre(5);
  const printed = [
    [0, 0.568888888888889],
    [0.538469310105683, 0.478628670499366],
    [0.906179845938664, 0.236926885056189],
  ];
  printed.forEach(([node, weight], k) => {
    expect(nodes[2 + k]).toBeCloseTo(node, 14);
    expect(nodes[2 - k]).toBeCloseTo(-node, 14);
    expect(weights[2 + k]).toBeCloseTo(weight, 14);
    expect(weights[2 - k]).toBeCloseTo(weight, 14);
  });
});
