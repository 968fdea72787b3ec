/** What a gap chart is held against: the band too small to notice, and which way the rule of thumb points. */

import { TOO_SMALL } from "../../../words/verdicts/findings.ts";
import { add, clamp, type Point, polygonPath, rule, textWidth, write } from "../../kit/drawing.ts";
import { clearest, startsFrom } from "../../kit/labels/clearest.ts";
import { arrowhead } from "../../kit/marks/arrowhead.ts";
import { hatched, rectangle } from "../../kit/marks/band.ts";
import { tickText } from "../../kit/numbers.ts";
import type { Panel } from "../../kit/panel.ts";

export function drawBand(
  on: Panel,
  words: Element,
  band: number,
  unit: string,
  lines: readonly (readonly Point[])[],
): void {
  const { parent, y, size } = on;
  const { left, right } = on.plot;
  const [top, bottom] = [y(band), y(-band)];
  hatched(parent, rectangle({ left, right, top, bottom }), { spacing: 7 });
  for (const edge of [top, bottom]) rule(parent, [left, edge], [right, edge], "hairline");
  const full = `${TOO_SMALL}: under ${tickText(band)} ${unit}`;
  const text = textWidth(full, size) < right - left - 16 ? full : TOO_SMALL;
  const width = textWidth(text, size);
  const places = [bottom - size - 9, top + 5].flatMap((at) =>
    startsFrom(left + 8, right - 8 - width, width, [at, at + size + 4]),
  );
  const place = clearest(places, lines);
  write(words, text, place.left, place.top + size, { size, fill: "muted", halo: true });
}

/** Slanted up for "more", beyond the band where there is room; its slope means nothing. */
export function drawRule(
  { parent, y, plot, size }: Panel,
  text: string,
  band: number,
  lines: readonly (readonly Point[])[],
): void {
  const { left, right, top } = plot;
  const room = y(band) - top;
  const rise = clamp(room - 10, 8, 26);
  const run = clamp(0.1 * (right - left), 26, 56);
  const full = `rule of thumb: ${text}`;
  const words = run + textWidth(full, size) + 34 < right - left ? full : text;
  const width = run + 10 + textWidth(words, size);
  const height = Math.max(rise, size + 4);
  const upper = top + Math.max(2, (room - height) / 2);
  const places = startsFrom(left + 12, right - 8 - width, width, [upper, upper + height]);
  const place = clearest(places, lines);
  const middle = (place.top + place.bottom) / 2;
  const foot: Point = [place.left, middle + rise / 2];
  const tip: Point = [foot[0] + run, middle - rise / 2];
  const angle = Math.atan2(tip[1] - foot[1], tip[0] - foot[0]);
  rule(parent, foot, [tip[0] - 6 * Math.cos(angle), tip[1] - 6 * Math.sin(angle)], "ink", 1.5);
  add(parent, "path", { d: polygonPath(arrowhead(tip, angle, 11, 3.6)), fill: "ink" });
  write(parent, words, tip[0] + 10, middle + 0.36 * size, { size, halo: true });
}
