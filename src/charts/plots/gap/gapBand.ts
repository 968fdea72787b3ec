/** What a gap chart is held against: the band too small to feel, and which way the rule of thumb points. */
import { arrowhead } from "../../kit/axes.ts";
import { clearest, startsFrom } from "../../kit/clearest.ts";
import {
  add,
  type Box,
  clamp,
  type Point,
  polygonPath,
  rule,
  type Scale,
  textWidth,
  write,
} from "../../kit/drawing.ts";
import { hatchPath } from "../../kit/hatch.ts";
import { tickText } from "../../kit/numbers.ts";
import { colour } from "../../kit/tokens.ts";

export function drawBand(
  parent: Element,
  words: Element,
  { left, right }: Box,
  y: Scale,
  band: number,
  unit: string,
  size: number,
  lines: readonly Point[][],
): void {
  const [top, bottom] = [y(band), y(-band)];
  const corners: Point[] = [
    [left, top],
    [right, top],
    [right, bottom],
    [left, bottom],
  ];
  add(parent, "path", { d: hatchPath(corners, 7, -1), stroke: colour("feel") });
  for (const edge of [top, bottom]) rule(parent, [left, edge], [right, edge], colour("hairline"));
  const full = `too small to feel: under ${tickText(band)} ${unit}`;
  const label = textWidth(full, size) < right - left - 16 ? full : "too small to feel";
  const width = textWidth(label, size);
  const place = clearest(
    [bottom - size - 9, top + 5].flatMap((at) =>
      startsFrom(left + 8, right - 8 - width).map((from) => ({
        left: from,
        right: from + width,
        top: at,
        bottom: at + size + 4,
      })),
    ),
    lines,
  );
  write(words, label, place.left, place.top + size, { size, fill: colour("muted"), halo: true });
}

/** Slanted up for "more", beyond the band where there is room; its slope means nothing. */
export function drawRule(
  parent: Element,
  text: string,
  { left, right, top }: Box,
  y: Scale,
  band: number,
  size: number,
  lines: readonly Point[][],
): void {
  const room = y(band) - top;
  const rise = clamp(room - 10, 8, 26);
  const run = clamp(0.1 * (right - left), 26, 56);
  const full = `rule of thumb: ${text}`;
  const label = run + textWidth(full, size) + 34 < right - left ? full : text;
  const width = run + 10 + textWidth(label, size);
  const height = Math.max(rise, size + 4);
  const upper = top + Math.max(2, (room - height) / 2);
  const place = clearest(
    startsFrom(left + 12, right - 8 - width).map((from) => ({
      left: from,
      right: from + width,
      top: upper,
      bottom: upper + height,
    })),
    lines,
  );
  const middle = (place.top + place.bottom) / 2;
  const foot: Point = [place.left, middle + rise / 2];
  const tip: Point = [foot[0] + run, middle - rise / 2];
  const angle = Math.atan2(tip[1] - foot[1], tip[0] - foot[0]);
  rule(parent, foot, [tip[0] - 6 * Math.cos(angle), tip[1] - 6 * Math.sin(angle)], colour("ink"), 1.5);
  add(parent, "path", { d: polygonPath(arrowhead(tip, angle, 11, 3.6)), fill: colour("ink") });
  write(parent, label, tip[0] + 10, middle + 0.36 * size, { size, halo: true });
}
