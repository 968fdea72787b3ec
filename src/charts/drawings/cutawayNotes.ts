/** What is written into the section beside its dimensions: the parts' names, the reference, the gap, the scale. */

import { add, clamp, type Frame, rule, type Scale, textWidth, write } from "../kit/drawing.ts";
import { referenceDash } from "../kit/marks/line.ts";
import { outsideTail } from "./dimension.ts";

/** CSS px in a millimetre of a screen that keeps to the standard. */
const pxPerScreenMm = 96 / 25.4;

export function nameParts(
  parent: Element,
  {
    fromMm,
    toMm,
    depthMm,
    insertionMm,
  }: { fromMm: number; toMm: number; depthMm: number; insertionMm: number },
  x: Scale,
  row: number,
  size: number,
): void {
  const style = { size, fill: "muted", anchor: "middle" } as const;
  const shank = "mouthpiece shank";
  const left = Math.max(fromMm, insertionMm - 40);
  if (x(insertionMm) - x(left) > textWidth(shank, size) + 20)
    write(parent, shank, x((left + insertionMm) / 2), row, style);
  const pipe = "leadpipe";
  const right = Math.min(toMm, depthMm + 40);
  if (x(right) - x(depthMm) > textWidth(pipe, size) + 20)
    write(parent, pipe, x((depthMm + right) / 2), row, style);
}

/** Where the shank ends at the reference gap. */
export function drawReference(
  parent: Element,
  { at, top, bottom }: { at: number; top: number; bottom: number },
): void {
  const group = add(parent, "g", { "data-part": "reference" });
  rule(group, [at, top + 2], [at, bottom + 4], "reference", 1.75, referenceDash);
}

/** Beside its dimension, where there is room: right of it, left of it, or under it. */
export function placeGapText(
  parent: Element,
  text: string,
  [from, to]: readonly [number, number],
  row: number,
  width: number,
  size: number,
): void {
  const clear = outsideTail + 11 + 6;
  const needs = textWidth(text, size);
  const style = { size, fill: "gap", weight: 700, halo: true } as const;
  if (to + clear + needs < width) write(parent, text, to + clear, row + 0.36 * size, style);
  else if (from - clear - needs > 0)
    write(parent, text, from - clear, row + 0.36 * size, { ...style, anchor: "end" });
  else
    write(parent, text, clamp((from + to) / 2, needs / 2, width - needs / 2), row - 5, {
      ...style,
      anchor: "middle",
    });
}

export function drawScale(
  parent: Element,
  { width, unit }: Frame,
  pxPerMm: number,
  lastRow: number,
  firstRow: number,
  face: number,
  size: number,
  narrow: boolean,
): void {
  const lengthMm = unit === "mm" ? 10 : 12.7;
  const length = lengthMm * pxPerMm;
  const label = unit === "mm" ? "10 mm" : "1/2 in";
  const row = narrow ? lastRow : firstRow;
  const left = 8;
  const ratio = `about ${(pxPerMm / pxPerScreenMm).toFixed(1)} : 1`;
  const room = (narrow ? width * 0.5 : face) - length - 24;
  const text =
    [`${label}, true to scale, ${ratio}`, `${label}, ${ratio}`].find((one) => textWidth(one, size) <= room) ??
    label;
  rule(parent, [left, row], [left + length, row], "ink", 1.5);
  for (const at of [left, left + length / 2, left + length])
    rule(parent, [at, row - 4], [at, row + 4], "ink", 1.25);
  write(parent, text, left + length + 8, row + 0.36 * size, { size, fill: "muted" });
  if (narrow) return;
  write(parent, "outer walls and shoulder as drawn, not measured", width - 8, size + 4, {
    size: 12,
    anchor: "end",
    fill: "muted",
  });
}
