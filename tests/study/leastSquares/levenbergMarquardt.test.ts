import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type Descent,
  type LeastSquares,
  levenbergMarquardt,
} from "../../../src/study/leastSquares/levenbergMarquardt.ts";

const SETTLED = { squares: 1e-14, variables: 1e-12 };
const ANYWHERE = { low: [-Infinity, -Infinity], high: [Infinity, Infinity] };

function settledAt(problem: LeastSquares, most = 200): Descent & { readonly steps: number } {
  let steps = 0;
  for (const descent of levenbergMarquardt(problem, SETTLED)) {
    steps++;
    if (descent.settled || steps === most) return { ...descent, steps };
  }
  throw new Error("it ended without a step");
}

/** Rosenbrock's valley, from where it is usually begun: all squares are 0 at (1, 1) (Moré, Garbow & Hillstrom 1981, problem 1). */
const valley: LeastSquares = {
  start: [-1.2, 1],
  ...ANYWHERE,
  residuals: ([x, y]) => [10 * (y - x * x), 1 - x],
  columns: ([x]) => [
    [-20 * x, -1],
    [10, 0],
  ],
};

describe("least squares", () => {
  it("comes to the end of Rosenbrock's valley", () => {
    const { x, squares, settled, steps } = settledAt(valley);
    expect(x[0]).toBeCloseTo(1, 8);
    expect(x[1]).toBeCloseTo(1, 8);
    expect(squares).toBeLessThan(1e-16);
    expect(settled).toBe(true);
    expect(steps).toBeLessThan(40);
  });

  it("never gets worse from step to step", () => {
    let last = Infinity;
    const steps = [...levenbergMarquardt(valley, SETTLED)];
    expect(steps.length).toBeGreaterThan(2);
    for (const { squares } of steps) {
      expect(squares).toBeLessThanOrEqual(last);
      last = squares;
    }
  });

  it("keeps within bounds, and one variable pressed against its own leaves the other its best", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -3, max: 0.9, noNaN: true }),
        fc.double({ min: -5, max: 5, noNaN: true }),
        (most, slope) => {
          // x would be 1, y then follows it
          const { x } = settledAt({
            start: [Math.min(0, most), 0],
            low: [-Infinity, -Infinity],
            high: [most, Infinity],
            residuals: ([a, b]) => [a - 1, b - slope * a],
            columns: () => [
              [1, -slope],
              [0, 1],
            ],
          });
          expect(x[0]).toBeLessThanOrEqual(most);
          expect(x[0]).toBeCloseTo(most, 6);
          expect(x[1]).toBeCloseTo(slope * most, 5);
        },
      ),
    );
  });

  it("takes a smaller step where one leads to what is impossible, and stops where nothing changes anything", () => {
    const { x } = settledAt({
      start: [0.1],
      low: [-Infinity],
      high: [Infinity],
      // ln x = 3, which does not exist left of 0
      residuals: ([a]) => [a > 0 ? Math.log(a) - 3 : Number.POSITIVE_INFINITY],
      columns: ([a]) => [[1 / a]],
    });
    expect(x[0]).toBeCloseTo(Math.exp(3), 6);
    const flat = settledAt({
      ...valley,
      residuals: () => [1, 1],
      columns: () => [
        [0, 0],
        [0, 0],
      ],
    });
    expect(flat).toMatchObject({ x: [-1.2, 1], squares: 2, settled: true });
  });
});
