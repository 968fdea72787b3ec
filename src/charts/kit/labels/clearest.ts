/** Where a label stands clear of the lines of a drawing. */
import type { Box, Point } from "../drawing.ts";

/** The boxes a label of a width may take between two ends: at either end, else between. */
export const startsFrom = (
  first: number,
  last: number,
  width: number,
  [top, bottom]: readonly [number, number],
): Box[] =>
  [0, 1, 0.25, 0.5, 0.75].map((share) => {
    const left = first + share * (last - first);
    return { left, right: left + width, top, bottom };
  });

/** The place that fewest lines run through; the first of equals. */
export function clearest(places: readonly Box[], lines: readonly (readonly Point[])[]): Box {
  const crossed = ({ left, right, top, bottom }: Box) =>
    lines.filter((points) =>
      points.some(([x1, y1], i) => {
        const [x2, y2] = points[Math.min(i + 1, points.length - 1)];
        return (
          Math.max(x1, x2) >= left &&
          Math.min(x1, x2) <= right &&
          Math.max(y1, y2) >= top &&
          Math.min(y1, y2) <= bottom
        );
      }),
    ).length;
  const counts = places.map(crossed);
  return places[counts.indexOf(Math.min(...counts))];
}
