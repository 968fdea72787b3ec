/** The two marks that are worked out by hand: section lines and thinned curves. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { corners, curvePath } from "../../../src/charts/kit/marks/curve.ts";
import { hatchPath } from "../../../src/charts/kit/marks/hatch.ts";

test("a thinned curve passes within 0.2 px of every point it leaves out", () => {
  fc.assert(
    fc.property(
      fc.array(
        fc.tuple(fc.double({ min: 0, max: 3, noNaN: true }), fc.double({ min: 0, max: 300, noNaN: true })),
      ),
      (steps) => {
        let x = 0;
        const xs = steps.map(([dx]) => (x += dx));
        const ys = steps.map(([, y]) => y);
        const [run = []] = corners(xs, ys);
        xs.forEach((at, i) => {
          const on = run.slice(1).some(([x2, y2], k) => {
            const [x1, y1] = run[k];
            if (at < x1 || at > x2) return false;
            if (x2 - x1 < 1e-6) return ys[i] >= Math.min(y1, y2) - 0.2 && ys[i] <= Math.max(y1, y2) + 0.2;
            return Math.abs(y1 + ((at - x1) / (x2 - x1)) * (y2 - y1) - ys[i]) <= 0.2;
          });
          expect(on || xs.length === 1).toBe(true);
        });
      },
    ),
  );
});

test("a smooth curve needs few corners, a straight one two", () => {
  const xs = Array.from({ length: 1600 }, (_, i) => i / 2);
  expect(corners(xs, xs)[0]).toEqual([
    [0, 0],
    [799.5, 799.5],
  ]);
  const wave = corners(
    xs,
    xs.map((x) => 100 * Math.sin(x / 60)),
  )[0];
  expect(wave.length).toBeLessThan(200);
});

test("what is not a number ends a run; a lone point is a dot", () => {
  const runs = corners([0, 1, 2, 3], [5, Number.NaN, 6, 7]);
  expect(runs).toEqual([
    [[0, 5]],
    [
      [2, 6],
      [3, 7],
    ],
  ]);
  expect(curvePath(runs)).toBe("M0,5ZM2,6L3,7");
  expect(curvePath(corners([], []))).toBe("");
});

test("section lines at 45° fill a rectangle corner to corner and a notch is left out", () => {
  const square = [
    [0, 0],
    [20, 0],
    [20, 20],
    [0, 20],
  ] as const;
  expect(hatchPath(square, 10)).toBe("M10,0L20,10M0,0L20,20M0,10L10,20");
  const u = [
    [0, 0],
    [5, 0],
    [5, 10],
    [15, 10],
    [15, 0],
    [20, 0],
    [20, 20],
    [0, 20],
  ] as const;
  for (const [, x1, y1, x2, y2] of hatchPath(u, 3).matchAll(/M([\d.]+),([\d.]+)L([\d.]+),([\d.]+)/g)) {
    const [x, y] = [(Number(x1) + Number(x2)) / 2, (Number(y1) + Number(y2)) / 2];
    expect(x > 5.1 && x < 14.9 && y < 9.9).toBe(false);
  }
});
