import { type Point, px } from "../drawing.ts";

/** Points nearer than this to the line drawn without them are left out, px. */
const tolerance = 0.1;

/**
 * The corners of a curve through points of rising x, as runs: a y that is missing or not finite ends one. A curve is drawn at every
 * step of a hand that drags, and most of its points lie on the straight line between others: from each corner on, the
 * slopes that pass every point within the tolerance are kept, and where none is left the point before becomes a corner.
 */
export function corners(xs: ArrayLike<number>, ys: ArrayLike<number | null>): Point[][] {
  const runs: Point[][] = [];
  let run: Point[] = [];
  let [xBefore, yBefore] = [0, 0];
  let [low, high] = [-Infinity, Infinity];
  for (let i = 0; i < xs.length; i++) {
    const x = xs[i];
    const y = ys[i];
    if (!isPlace(y)) {
      run = [];
      continue;
    }
    if (run.length === 0) {
      runs.push(run);
      run.push([x, y]);
      [low, high] = [-Infinity, Infinity];
    } else {
      let corner = run[run.length - 1];
      let along = x - corner[0];
      let slope = (y - corner[1]) / along;
      if (!(along > 0 && slope >= low && slope <= high)) {
        if (xBefore !== corner[0] || yBefore !== corner[1]) run.push([xBefore, yBefore]);
        corner = run[run.length - 1];
        along = x - corner[0];
        slope = (y - corner[1]) / along;
        [low, high] = [-Infinity, Infinity];
      }
      if (along > 0) {
        low = Math.max(low, slope - tolerance / along);
        high = Math.min(high, slope + tolerance / along);
      }
      const isLast = i === xs.length - 1 || !isPlace(ys[i + 1]);
      if (isLast || !(along > 0)) run.push([x, y]);
    }
    [xBefore, yBefore] = [x, y];
  }
  return runs;
}

const isPlace = (y: number | null): y is number => y !== null && Number.isFinite(y);

/** A run of one point becomes a dot, where line ends are round. */
export const curvePath = (runs: readonly (readonly Point[])[]): string =>
  runs
    .map((run) => `M${run.map(([x, y]) => `${px(x)},${px(y)}`).join("L")}${run.length === 1 ? "Z" : ""}`)
    .join("");
