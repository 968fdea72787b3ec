/** Metal in section: filled, hatched, outlined; a ring of it cut along its axis, torn where a long part is broken off. */

import { add, type Point, polygonPath, type Scale } from "../kit/drawing.ts";
import { hatchPath } from "../kit/marks/hatch.ts";
import type { Outline } from "./profile.ts";

/** Neighbouring parts are told apart by these. */
export interface Hatching {
  readonly direction: 1 | -1;
  /** Between section lines, px. */
  readonly spacing: number;
}

/** One part in as many pieces as the section cuts it into. */
export function drawMetal(
  parent: Element,
  pieces: readonly (readonly Point[])[],
  { direction, spacing }: Hatching,
): void {
  const d = pieces.map(polygonPath).join("");
  add(parent, "path", { d, fill: "metal" });
  add(parent, "path", {
    d: pieces.map((corners) => hatchPath(corners, spacing, direction)).join(""),
    stroke: "metal-hatch",
    "stroke-width": 0.9,
  });
  add(parent, "path", { d, stroke: "ink", "stroke-width": 1.5, "stroke-linejoin": "round" });
}

export interface Ring extends Hatching {
  readonly inside: Outline;
  readonly outside: Outline;
  /** The end at which a long part is broken off. */
  readonly torn?: "start" | "end";
  /** Above (1) and below (−1) the axis; both if absent. */
  readonly sides?: readonly (1 | -1)[];
}

export function drawRing(
  { parent, x, y }: { readonly parent: Element; readonly x: Scale; readonly y: Scale },
  { inside, outside, torn, sides = [1, -1], ...hatching }: Ring,
): void {
  const pieces = sides.map((side) => {
    const place = ([mm, radius]: Outline[number]): Point => [x(mm), y(side * radius)];
    const inner = inside.map(place);
    const outer = outside.map(place).reverse();
    return [
      ...inner,
      ...(torn === "end" ? tear(inner[inner.length - 1], outer[0]) : []),
      ...outer,
      ...(torn === "start" ? tear(outer[outer.length - 1], inner[0]) : []),
    ];
  });
  drawMetal(parent, pieces, hatching);
}

/** A wavy line between two places above one another. */
function tear([x1, y1]: Point, [, y2]: Point): Point[] {
  const steps = Math.max(2, Math.round(Math.abs(y2 - y1) / 3));
  return Array.from({ length: steps - 1 }, (_, i) => {
    const y = y1 + ((i + 1) / steps) * (y2 - y1);
    return [x1 + 2.5 * Math.sin(y / 5), y];
  });
}
