/** How far an arrow's line runs on, where arrows stand outside, px. */

import { add, type Point, polygonPath, rule } from "../kit/drawing.ts";
import { arrowhead } from "../kit/marks/arrowhead.ts";
import type { Paint } from "../kit/tokens.ts";

export const outsideTail = 10;

/**
 * A dimension between two places, with extension lines from the part (null: none). Where the arrows have no room inside
 * they point inwards from outside.
 */
export function dimension(
  parent: Element,
  [from, to]: readonly [number, number],
  row: number,
  extensions: readonly [number | null, number | null],
  stroke: Paint,
  firstArrow = true,
  width = 1,
): void {
  [from, to].forEach((at, i) => {
    const start = extensions[i];
    if (start === null || (i === 0 && !firstArrow)) return;
    rule(parent, [at, start], [at, row + 3 * Math.sign(row - start)], stroke, 0.8);
  });
  const size = width > 1 ? 11 : 9;
  const heads: Point[][] = [];
  if (to - from >= 2.6 * size) {
    rule(parent, [from, row], [to, row], stroke, width);
    if (firstArrow) heads.push(arrowhead([from, row], Math.PI, size));
    heads.push(arrowhead([to, row], 0, size));
  } else {
    const tail = outsideTail + size;
    rule(parent, [from - tail, row], [to + tail, row], stroke, width);
    heads.push(arrowhead([from, row], 0, size), arrowhead([to, row], Math.PI, size));
  }
  add(parent, "path", { d: heads.map(polygonPath).join(""), fill: stroke });
}
