/** Against mpmath (`statistics/distributions.py`). */
import { expect, test } from "vitest";
import { chiSquareTail, fProbability, fQuantile, tQuantile } from "../../src/statistics/distributions.ts";
import { numbers } from "../reference/table.ts";

test("quantiles of Student's t are mpmath's, degrees of freedom whole or not", () => {
  for (const [probability, degrees, quantile] of numbers("statistics/student-t.csv"))
    expect(Math.abs(tQuantile(probability, degrees) / quantile - 1)).toBeLessThan(
      degrees > 1000 ? 1e-9 : 1e-11,
    );
});

test("tails of χ² are mpmath's, the far ones in proportion too", () => {
  for (const [value, degrees, tail] of numbers("statistics/chi-square.csv"))
    expect(Math.abs(chiSquareTail(value, degrees) / tail - 1)).toBeLessThan(1e-12);
});

test("a quantile of F is where its probability is reached, however small that or uneven the degrees of freedom", () => {
  const degrees = [0.4, 1, 2.5, 12, 150, 2000];
  for (const d1 of degrees)
    for (const d2 of degrees)
      for (const probability of [1e-9, 1e-4, 0.02, 0.37, 0.5, 0.95, 1 - 1e-6])
        expect(fProbability(fQuantile(probability, d1, d2), d1, d2) / probability).toBeCloseTo(1, 10);
});

test("the ends: nothing above 0 for χ² = 0, t = 0 in the middle, no end to t at probability 1", () => {
  expect(chiSquareTail(0, 3)).toBe(1);
  expect(tQuantile(0.5, 7)).toBeCloseTo(0, 12);
  expect(tQuantile(1, 7)).toBe(Infinity);
  expect(fQuantile(0, 2, 3)).toBe(0);
});
