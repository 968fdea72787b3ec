import { type Attributes, add, type Point, polygonPath } from "../drawing.ts";
import type { Paint } from "../tokens.ts";

/** The open mark of what was measured on a player or an instrument. @param r half its height, px */
export const diamond = (
  parent: Element,
  [x, y]: Point,
  r: number,
  stroke: Paint = "measured",
  marks: Attributes = {},
) =>
  add(parent, "path", {
    ...marks,
    d: polygonPath([
      [x, y - r],
      [x + r, y],
      [x, y + r],
      [x - r, y],
    ]),
    fill: "paper",
    stroke,
    "stroke-width": 1.75,
  });
