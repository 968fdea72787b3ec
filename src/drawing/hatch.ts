import type { Point } from "./sheet.ts";

/** Section lines at 45° inside a polygon. With y counted downwards `direction` 1 falls to the right, −1 rises. */
export function hatchLines(
  polygon: readonly Point[],
  spacing: number,
  direction: 1 | -1 = 1,
): (readonly [Point, Point])[] {
  // On such a line y − direction·x is constant.
  const across = polygon.map(([x, y]) => y - direction * x);
  const low = Math.ceil(Math.min(...across) / spacing);
  const high = Math.floor(Math.max(...across) / spacing);
  const crossings: number[][] = Array.from({ length: Math.max(0, high - low + 1) }, () => []);
  polygon.forEach(([x1], i) => {
    const j = (i + 1) % polygon.length;
    const [from, to] = [across[i], across[j]];
    if (from === to) return;
    const x2 = polygon[j][0];
    const first = Math.ceil(Math.min(from, to) / spacing);
    // Half-open, so that a line through a corner crosses once.
    for (let k = first; k * spacing < Math.max(from, to); k++)
      crossings[k - low]?.push(x1 + ((k * spacing - from) / (to - from)) * (x2 - x1));
  });
  const lines: (readonly [Point, Point])[] = [];
  crossings.forEach((xs, i) => {
    xs.sort(ascending);
    const c = (i + low) * spacing;
    for (let k = 0; k + 1 < xs.length; k += 2) {
      const [from, to] = [xs[k], xs[k + 1]];
      if (to > from) lines.push([[from, c + direction * from] as const, [to, c + direction * to] as const]);
    }
  });
  return lines;
}

const ascending = (a: number, b: number): number => a - b;
