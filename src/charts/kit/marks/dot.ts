import { type Attributes, add, type Point } from "../drawing.ts";
import type { Paint } from "../tokens.ts";

/** A filled dot; `marks` say what it stands for. */
export const dot = (parent: Element, [cx, cy]: Point, r: number, fill: Paint, marks: Attributes = {}) =>
  add(parent, "circle", { ...marks, cx, cy, r, fill });

/** A dot with an edge. */
export const ring = (
  parent: Element,
  [cx, cy]: Point,
  r: number,
  stroke: Paint,
  fill: Paint = "paper",
  marks: Attributes = {},
) => add(parent, "circle", { ...marks, cx, cy, r, fill, stroke, "stroke-width": 1.5 });
