import { type Point, px } from "../drawing.ts";

/** Points nearer than this to the line drawn without them are left out, px. */
const tolerance = 0.1;

/**
 * The corners of a curve through points of rising x, as runs: a y that is not finite ends one. A curve is drawn at every
 * step of a hand that drags, and most of its points lie on the straight line between others: from each corner on, the
 * slopes that pass every point within the tolerance are kept, and where none is left the point before becomes a corner.
 */
export function corners(xs: ArrayLike<number>, ys: ArrayLike<number>): Point[][] {
  const runs: Point[][] = [];
  let run: Point[] = [];
  let [low, high] = [-Infinity, Infinity];
  for (let i = 0; i < xs.length; i++) {
    if (!Number.isFinite(ys[i])) {
      run = [];
      continue;
    }
    if (run.length === 0) {
      runs.push(run);
      run.push([xs[i], ys[i]]);
      [low, high] = [-Infinity, Infinity];
      continue;
    }
    let corner = run[run.length - 1];
    let along = xs[i] - corner[0];
    let slope = (ys[i] - corner[1]) / along;
    if (!(along > 0 && slope >= low && slope <= high)) {
      if (xs[i - 1] !== corner[0] || ys[i - 1] !== corner[1]) run.push([xs[i - 1], ys[i - 1]]);
      corner = run[run.length - 1];
      along = xs[i] - corner[0];
      slope = (ys[i] - corner[1]) / along;
      [low, high] = [-Infinity, Infinity];
    }
    if (along > 0) {
      low = Math.max(low, slope - tolerance / along);
      high = Math.min(high, slope + tolerance / along);
    }
    const isLast = i === xs.length - 1 || !Number.isFinite(ys[i + 1]);
    if (isLast || !(along > 0)) run.push([xs[i], ys[i]]);
  }
  return runs;
}

/** A run of one point becomes a dot, where line ends are round. */
export const curvePath = (runs: readonly (readonly Point[])[]): string =>
  runs
    .map((run) => `M${run.map(([x, y]) => `${px(x)},${px(y)}`).join("L")}${run.length === 1 ? "Z" : ""}`)
    .join("");
