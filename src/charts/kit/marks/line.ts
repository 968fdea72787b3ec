/** Lines: through data, and straight ones across or up the plot at one value. */

import { type Attributes, add, rule } from "../drawing.ts";
import type { Panel } from "../panel.ts";
import type { Paint } from "../tokens.ts";
import { corners, curvePath } from "./curve.ts";

/** The reference is always dashed, so that colour is never its only sign. */
export const referenceDash = "6 4";

/** A curve through places in px of rising x; a y that is null leaves a hole. */
export const curve = (xs: ArrayLike<number>, ys: ArrayLike<number | null>): string =>
  curvePath(corners(xs, ys));

/** Straight from point to point, every one of them. */
export const polyline = (points: Parameters<typeof curvePath>[0][number]): string => curvePath([points]);

/** The curve of data: `x` and `y` say where each of them stands, in px. */
export function line<T>(
  parent: Element,
  data: readonly T[],
  x: (one: T) => number,
  y: (one: T) => number | null,
  style: Attributes,
): SVGPathElement {
  const { "data-part": part, ...rest } = style;
  return add(parent, "path", { "data-part": part, d: curve(data.map(x), data.map(y)), ...rest });
}

/** Across the plot at a value. */
export const levelLine = (
  { parent, y, plot: { left, right } }: Omit<Panel, "x" | "size">,
  value: number,
  paint: Paint,
  width = 1,
  dash?: string,
) => rule(parent, [left, y(value)], [right, y(value)], paint, width, dash);

/** Up the plot at a value, `above` px beyond its top. */
export const uprightLine = (
  { parent, x, plot: { top, bottom } }: Omit<Panel, "y" | "size">,
  value: number,
  paint: Paint,
  width = 1,
  dash?: string,
  above = 0,
) => rule(parent, [x(value), top - above], [x(value), bottom], paint, width, dash);

/** The upright line of a read-out, in a group that takes the marks on it. */
export function readOutLine(on: Omit<Panel, "y" | "size">, value: number): SVGGElement {
  const parent = add(on.parent, "g", { class: "cursor", "data-part": "cursor", "pointer-events": "none" });
  uprightLine({ ...on, parent }, value, "ink");
  return parent;
}
