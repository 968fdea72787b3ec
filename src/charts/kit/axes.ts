/** Axes in the drawing office's manner: a thin line, few ticks, the title with its unit at the axis. */
import { type Box, type Point, rule, type Scale, write } from "./drawing.ts";
import { colour } from "./tokens.ts";

export interface Tick {
  readonly value: number;
  readonly text: string;
}

const tickLength = 5;

export function bottomAxis(
  parent: Element,
  x: Scale,
  { left, right, bottom }: Box,
  ticks: readonly Tick[],
  title: string,
  size: number,
): void {
  rule(parent, [left, bottom], [right, bottom], colour("ink"));
  for (const { value, text } of ticks) {
    const at = x(value);
    rule(parent, [at, bottom], [at, bottom + tickLength], colour("ink"));
    write(parent, text, at, bottom + tickLength + size, { size, anchor: "middle", fill: colour("muted") });
  }
  write(parent, title, right, bottom + tickLength + 2 * size + 3, {
    size,
    anchor: "end",
    fill: colour("muted"),
  });
}

/** What a bottom axis needs below the plot, px. */
export const bottomAxisRoom = (size: number): number => tickLength + 2 * size + 8;

/** `grid` draws each tick across the plot. */
export function leftAxis(
  parent: Element,
  y: Scale,
  { left, right, top, bottom }: Box,
  ticks: readonly Tick[],
  size: number,
  grid = false,
): void {
  rule(parent, [left, top], [left, bottom], colour("ink"));
  for (const { value, text } of ticks) {
    const at = y(value);
    if (grid) rule(parent, [left, at], [right, at], colour("hairline"));
    rule(parent, [left - tickLength, at], [left, at], colour("ink"));
    write(parent, text, left - tickLength - 4, at + 0.36 * size, {
      size,
      anchor: "end",
      fill: colour("muted"),
    });
  }
}

/** A slim filled arrowhead with its tip at a point, looking along an angle. */
export function arrowhead([x, y]: Point, angle: number, length = 9, halfWidth = 2.6): Point[] {
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const at = (along: number, across: number): Point => [
    x + along * cos - across * sin,
    y + along * sin + across * cos,
  ];
  return [at(0, 0), at(-length, halfWidth), at(-length, -halfWidth)];
}
