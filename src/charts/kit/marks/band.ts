/** Hatched areas: changes too small to notice, the limits of a target, one standard deviation. */
import { add, type Box, type Point, polygonPath } from "../drawing.ts";
import type { Panel } from "../panel.ts";
import { hatchPath } from "./hatch.ts";

export const rectangle = ({ left, right, top, bottom }: Box): Point[] => [
  [left, top],
  [right, top],
  [right, bottom],
  [left, bottom],
];

/** Section lines over an area; `outline` draws its edge too. */
export function hatched(
  parent: Element,
  area: readonly Point[],
  { spacing = 6, part, outline = false }: { spacing?: number; part?: string; outline?: boolean } = {},
): void {
  add(parent, "path", { "data-part": part, d: hatchPath(area, spacing, -1), stroke: "feel" });
  if (outline) add(parent, "path", { d: polygonPath(area), stroke: "feel", "stroke-width": 0.75 });
}

/** Across the plot between two values, as far as the plot reaches if it is `cut`. */
export function levelBand(
  { parent, y, plot }: Panel,
  [low, high]: readonly [number, number],
  { isCut = false, ...style }: Parameters<typeof hatched>[2] & { isCut?: boolean } = {},
): void {
  const [top, bottom] = [y(high), y(low)];
  const area = isCut
    ? { top: Math.max(plot.top, top), bottom: Math.min(plot.bottom, bottom) }
    : { top, bottom };
  hatched(parent, rectangle({ ...plot, ...area }), style);
}
