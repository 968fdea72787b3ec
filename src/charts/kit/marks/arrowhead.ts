import type { Point } from "../drawing.ts";

/** A slim filled arrowhead with its tip at a point, looking along an angle. */
export function arrowhead([x, y]: Point, angle: number, length = 9, halfWidth = 2.6): Point[] {
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const at = (along: number, across: number): Point => [
    x + along * cos - across * sin,
    y + along * sin + across * cos,
  ];
  return [at(0, 0), at(-length, halfWidth), at(-length, -halfWidth)];
}
