/** Against mpmath (`statistics/distributions.py`). */
import { expect, test } from "vitest";
import { chiSquareTail, tQuantile } from "../../src/statistics/distributions.ts";
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

test("the ends: nothing above 0 for χ² = 0, t = 0 in the middle, no end to t at probability 1", () => {
  expect(chiSquareTail(0, 3)).toBe(1);
  expect(tQuantile(0.5, 7)).toBeCloseTo(0, 12);
  expect(tQuantile(1, 7)).toBe(Infinity);
});
