/**
 * One quantity of every resonance, a small chart for each variant: its own values over the reference's, on one scale for all,
 * so that what differs is seen by looking along the row. The band about the reference is what nobody feels.
 */

import { scaleLinear } from "d3";
import type { InstrumentKind } from "../../../setup/instrumentKind.ts";
import { isNoticeable } from "../../../study/change/judgement.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { noteText } from "../../../words/instruments.ts";
import { signed } from "../../../words/numbers.ts";
import { TOO_SMALL } from "../../../words/verdicts/findings.ts";
import { leftAxis, noteAxis } from "../../kit/axes.ts";
import {
  add,
  type Box,
  type Drawing,
  type Frame,
  type Point,
  rule,
  sheet,
  type Table,
  textWidth,
  typeSizes,
} from "../../kit/drawing.ts";
import type { Figure } from "../../kit/figure.ts";
import { capitalised, heading, shortened } from "../../kit/labels/text.ts";
import { hatched } from "../../kit/marks/band.ts";
import { curvePath } from "../../kit/marks/curve.ts";
import { ring } from "../../kit/marks/dot.ts";
import { levelLine } from "../../kit/marks/line.ts";
import { label, type Panel, widthOf } from "../../kit/panel.ts";
import { valuesTable } from "../../kit/table.ts";
import { roundTicks } from "../../kit/ticks.ts";
import { type Standing, strokeOf, type Variant } from "./compareSeries.ts";

/** Of a resonance or a note; null where it has none. */
export interface Value {
  readonly n: number;
  readonly value: number | null;
}

export interface ValuedVariant extends Variant {
  readonly values: readonly Value[];
}

export interface CompareChartData extends Standing {
  readonly variants: readonly ValuedVariant[];
  /** What is drawn: `equivalent fundamental`. */
  readonly title: string;
  readonly unit: string;
  readonly digits: number;
  /** Smaller differences from the reference are not felt; null where nobody knows. */
  readonly feltFrom: number | null;
}

const panelHeight = 170;
const leastPanel = 200;
const gapPx = 14;

const layoutOf = ({ variants }: CompareChartData, width: number, small: number) => {
  const left = 3.6 * small;
  const most = Math.max(1, Math.floor((width - left + gapPx) / (leastPanel + gapPx)));
  const columns = Math.min(variants.length, most);
  const rows = Math.max(1, Math.ceil(variants.length / columns));
  return { left, columns, rows, panel: (width - left - (columns - 1) * gapPx) / columns };
};

const headRoom = (small: number, large: number): number => large + small + 16;

export function compareChartHeight(data: CompareChartData, width: number): number {
  const { small, large } = typeSizes({ width });
  return headRoom(small, large) + layoutOf(data, width, small).rows * (panelHeight + 2 * small + 16) + small;
}

export function compareChart(data: CompareChartData, frame: Frame): Drawing {
  const { variants, title, unit } = data;
  const { small, large } = typeSizes(frame);
  const { left, columns, panel } = layoutOf(data, frame.width, small);
  const svg = sheet(frame, {
    name: "compare-chart",
    title: `${capitalised(title)} of every note, candidate by candidate`,
    description: describe(data, frame),
  });
  heading(svg, capitalised(title), large);
  const head = { parent: svg, size: small };
  label(head, unit, 0, large + small + 4, { fill: "muted" });
  const across = `dashed: ${data.reference}, compared with`;
  label(head, across, frame.width, large + small + 4, { anchor: "end", fill: "muted" });
  const reference = variants.find(({ number }) => number === data.reference);
  const values = variants.flatMap((variant) => variant.values.flatMap(({ value }) => value ?? []));
  const numbers = variants.flatMap((variant) => variant.values.map(({ n }) => n));
  const ends =
    numbers.length > 0 ? ([Math.min(...numbers), Math.max(...numbers)] as const) : ([1, 2] as const);
  const yDomain = domainOf(values, data.feltFrom);
  const panels = variants.map((variant, i): Panel => {
    const column = i % columns;
    const top = headRoom(small, large) + Math.floor(i / columns) * (panelHeight + 2 * small + 16) + small + 6;
    const from = left + column * (panel + gapPx);
    const plot: Box = { left: from, right: from + panel, top, bottom: top + panelHeight };
    const x = scaleLinear([ends[0] - 0.5, ends[1] + 0.5], [plot.left, plot.right]);
    const y = scaleLinear(yDomain, [plot.bottom, plot.top]);
    const parent = add(svg, "g", { "data-variant": `${variant.number}` });
    const on = { parent, x, y, plot, size: small };
    drawPanel(on, data, variant, reference, column === 0, ends, frame.instrument);
    return on;
  });
  const fallback = scaleLinear([0, 1], [left, frame.width]);
  const whole = { left, right: frame.width, top: 0, bottom: frame.height };
  const { x, y, plot } = panels[0] ?? { x: fallback, y: fallback, plot: whole };
  return { svg, x, y, plot };
}

function drawPanel(
  on: Panel,
  data: CompareChartData,
  variant: ValuedVariant,
  reference: ValuedVariant | undefined,
  hasAxis: boolean,
  ends: readonly [number, number],
  instrument: InstrumentKind | undefined,
): void {
  const { parent, x, y, plot, size } = on;
  const most = Math.max(4, Math.floor(widthOf(plot) / (0.57 * size)) - 2);
  const name = `${variant.number} ${variant.name}`;
  const isReference = variant === reference;
  const full = `${name}, compared with`;
  const text = isReference && textWidth(full, size) < widthOf(plot) ? full : name;
  label(on, shortened(text, most), plot.left, plot.top - 5, {
    weight: 600,
    fill: isReference ? "reference" : variant.number === data.chosen ? "gap" : "ink",
  });
  const ticks = roundTicks(y, 5);
  for (const { value } of ticks) levelLine(on, value, "hairline", 0.75);
  if (reference && data.feltFrom !== null && !isReference) drawBand(on, reference.values, data.feltFrom);
  if (hasAxis) leftAxis(on, ticks);
  rule(parent, [plot.left, plot.bottom], [plot.right, plot.bottom], "ink");
  noteAxis(on, ends, 3, instrument);
  const draw = (part: string, of: ValuedVariant) => {
    const d = curvePath(runsOf(of.values).map((run) => run.map(({ n, value }): Point => [x(n), y(value)])));
    add(parent, "path", { "data-part": part, d, ...strokeOf(of, data), "stroke-width": 1.5 });
  };
  if (reference && !isReference) draw("reference", reference);
  draw("own", variant);
  const { stroke } = strokeOf(variant, data);
  for (const { n, value } of variant.values)
    if (value !== null)
      ring(parent, [x(n), y(value)], 3.5, stroke, isReference ? "paper" : stroke, { "data-n": `${n}` });
}

/** What a player cannot tell from the reference. */
function drawBand({ parent, x, y, plot }: Panel, values: readonly Value[], felt: number): void {
  for (const run of runsOf(values)) {
    const upper = run.map(({ n, value }): Point => [x(n), Math.max(plot.top, y(value + felt))]);
    const lower = run.map(({ n, value }): Point => [x(n), Math.min(plot.bottom, y(value - felt))]);
    if (run.length > 1)
      hatched(parent, [...upper, ...lower.reverse()], { spacing: 5, part: "felt", outline: true });
  }
}

/** Neighbours that have a value. */
function runsOf(values: readonly Value[]): { readonly n: number; readonly value: number }[][] {
  const runs: { n: number; value: number }[][] = [[]];
  for (const { n, value } of values)
    if (value === null) runs.push([]);
    else runs[runs.length - 1].push({ n, value });
  return runs.filter((run) => run.length > 0);
}

function domainOf(values: readonly number[], felt: number | null): [number, number] {
  if (values.length === 0) return [0, 1];
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const room = Math.max(0.08 * (high - low), 1.3 * (felt ?? 0), 1e-6 * Math.max(1, Math.abs(high)));
  return [low - room, high + room];
}

export const compareChartTable = (
  { variants, title, unit }: CompareChartData,
  _unit?: LengthUnit,
  instrument?: InstrumentKind,
): Table =>
  valuesTable(
    instrument,
    variants.map(({ number, name, values }) => ({ name: `${number} ${name}: ${title} (${unit})`, values })),
  );

/** For every variant where it lies farthest from the reference. */
function describe(
  { variants, reference, title, unit, digits, feltFrom }: CompareChartData,
  { instrument }: Frame,
): string {
  const base = variants.find(({ number }) => number === reference);
  const found = variants
    .filter((variant) => variant !== base)
    .map(({ number, name, values }) => {
      const apart = values.flatMap(({ n, value }) => {
        const from = base?.values.find((one) => one.n === n)?.value ?? null;
        return value === null || from === null ? [] : [{ n, by: value - from }];
      });
      if (apart.length === 0) return `${number} ${name}: nothing to compare`;
      const most = apart.reduce((a, b) => (Math.abs(b.by) > Math.abs(a.by) ? b : a));
      const felt = feltFrom === null || isNoticeable(most.by, feltFrom) ? "" : `, ${TOO_SMALL}`;
      return `${number} ${name}: at most ${signed(most.by, digits)} ${unit} at ${noteText(most.n, instrument)}${felt}`;
    });
  return `${capitalised(title)} compared with ${reference} ${base?.name ?? ""}. ${found.join("; ") || "There is nothing to compare with yet"}.`;
}

/** @param name for its files: several quantities may be shown at once */
export const compareFigure = (name: string): Figure<CompareChartData> => ({
  name,
  label: "One quantity of every note, candidate by candidate",
  about:
    "All on one scale. Each candidate's values are drawn over those it is compared with, dashed; within the hatched band about " +
    "them the difference is too small to notice. An equivalent fundamental is a resonance over its number: level dots are a harmonic series.",
  caption: (data) =>
    data?.feltFrom === null
      ? "Dashed: the one compared with."
      : "Dashed: the one compared with. Within the hatched band the difference is too small to notice.",
  height: (width, data) => (data ? compareChartHeight(data, width) : 0),
  draw: compareChart,
  table: compareChartTable,
});
