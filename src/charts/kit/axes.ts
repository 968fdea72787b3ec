/** Axes in the drawing office's manner: a thin line, few ticks, the title with its unit at the axis. */
import type { InstrumentKind } from "../../setup/instrumentKind.ts";
import { noteLabel } from "../../words/instruments.ts";
import { rule, textWidth } from "./drawing.ts";
import { label, type Panel, tickLength } from "./panel.ts";
import type { Tick } from "./ticks.ts";

export function bottomAxis(on: Omit<Panel, "y">, ticks: readonly Tick[], title: string): void {
  const { parent, x, size } = on;
  const { left, right, bottom } = on.plot;
  rule(parent, [left, bottom], [right, bottom], "ink");
  for (const { value, text } of ticks) {
    const at = x(value);
    rule(parent, [at, bottom], [at, bottom + tickLength], "ink");
    label(on, text, at, bottom + tickLength + size, { anchor: "middle", fill: "muted" });
  }
  label(on, title, right, bottom + tickLength + 2 * size + 3, { anchor: "end", fill: "muted" });
}

/** `grid` draws each tick across the plot. */
export function leftAxis(on: Omit<Panel, "x">, ticks: readonly Tick[], grid = false): void {
  const { parent, y, size } = on;
  const { left, right, top, bottom } = on.plot;
  rule(parent, [left, top], [left, bottom], "ink");
  for (const { value, text } of ticks) {
    const at = y(value);
    if (grid) rule(parent, [left, at], [right, at], "hairline");
    rule(parent, [left - tickLength, at], [left, at], "ink");
    label(on, text, left - tickLength - 4, at + 0.36 * size, { anchor: "end", fill: "muted" });
  }
}

/** Notes as they are written, each with its partial's number, under the plot; only some of them where they would crowd. */
export function noteAxis(
  on: Panel,
  [first, last]: readonly [number, number],
  below: number,
  instrument: InstrumentKind | undefined,
): void {
  const { x, plot, size } = on;
  const count = last - first + 1;
  const notes = Array.from({ length: count }, (_, i) => noteLabel(first + i, instrument));
  const widest = Math.max(...notes.map((note) => textWidth(note, size)));
  const every = Math.max(1, Math.ceil((widest + 0.4 * size) / ((plot.right - plot.left) / count)));
  for (let i = 0; i < count; i += every)
    label(on, notes[i], x(first + i), plot.bottom + size + below, { anchor: "middle", fill: "muted" });
}
