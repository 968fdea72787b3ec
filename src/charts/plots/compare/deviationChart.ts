/**
 * How far something is off at every resonance, from a line that stands for none: one or two sets of values on one scale, each
 * named at its own end, over the band in which nobody feels it.
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
  type Attributes,
  add,
  type Drawing,
  type Frame,
  type Point,
  sheet,
  type Table,
  typeSizes,
} from "../../kit/drawing.ts";
import type { Figure } from "../../kit/figure.ts";
import { type KeyItem, keySample, keyWidth } from "../../kit/labels/key.ts";
import { heading } from "../../kit/labels/text.ts";
import { levelBand } from "../../kit/marks/band.ts";
import { ring } from "../../kit/marks/dot.ts";
import { levelLine, referenceDash } from "../../kit/marks/line.ts";
import { label, type Panel, plotBox, silent } from "../../kit/panel.ts";
import { valuesTable } from "../../kit/table.ts";
import { roundTicks, signedText } from "../../kit/ticks.ts";

/** `before` is open and dashed, as references are; `after` is filled and in the accent. */
export interface Deviations {
  readonly name: string;
  readonly kind: "before" | "after";
  /** null where a resonance has none. */
  readonly values: readonly { readonly n: number; readonly value: number | null }[];
}

export interface DeviationData {
  readonly title: string;
  readonly unit: string;
  readonly digits: number;
  /** Smaller ones are not felt. */
  readonly feltFrom: number;
  readonly series: readonly Deviations[];
}

const plotPx = 190;
const dotPx = 4;

const keyStyle = { sample: 30, apart: 18 };

const keyRows = ({ series }: DeviationData, width: number, small: number): number =>
  keyWidth(series.map(keyItem), keyStyle, small) > width ? series.length : 1;

export function deviationHeight(data: DeviationData, width: number): number {
  const { small, large } = typeSizes({ width });
  return large + keyRows(data, width, small) * (small + 6) + 2 * small + 20 + plotPx + 2 * small + 12;
}

export function deviationChart(data: DeviationData, frame: Frame): Drawing {
  const { title, unit, feltFrom, series } = data;
  const { small, large } = typeSizes(frame);
  const svg = sheet(frame, {
    name: "deviations",
    title: `${title}, note by note`,
    description: describe(data, frame),
  });
  const ground = silent(svg);
  heading(ground, title, large);
  const rows = keyRows(data, frame.width, small);
  drawSigns({ parent: ground, size: small }, series, large + small + 8, rows > 1);
  const axisRow = large + rows * (small + 6) + small + 10;
  const plot = plotBox(frame, { left: 3.4 * small, right: 6, top: axisRow + 8, bottom: 2 * small + 10 });
  const all = series.flatMap(({ values }) => values);
  const numbers = all.map(({ n }) => n);
  const [first, last] = numbers.length > 0 ? [Math.min(...numbers), Math.max(...numbers)] : [1, 2];
  const x = scaleLinear([first - 0.5, last + 0.5], [plot.left, plot.right]);
  const y = scaleLinear(domainOf(all, feltFrom), [plot.bottom, plot.top]);
  const on: Panel = { parent: ground, x, y, plot, size: small };
  label(on, unit, 0, axisRow, { fill: "muted" });
  levelBand(on, [-feltFrom, feltFrom], { part: "felt", outline: true });
  leftAxis(on, roundTicks(y, 5, signedText), true);
  levelLine(on, 0, "ink");
  noteAxis(on, [first, last], 4, frame.instrument);
  label(on, "note", plot.right, plot.bottom + 2 * small + 7, { anchor: "end", fill: "muted" });
  for (const one of series) drawSeries({ ...on, parent: svg }, one);
  return { svg, x, y, plot };
}

function domainOf(values: readonly { readonly value: number | null }[], felt: number): [number, number] {
  const found = values.flatMap(({ value }) => value ?? []);
  const low = Math.min(-1.4 * felt, ...found);
  const high = Math.max(1.4 * felt, ...found);
  const room = 0.07 * (high - low);
  return [low - room, high + room];
}

const strokeOf = (kind: Deviations["kind"]) => (kind === "after" ? "gap" : "reference");
const lineOf = (kind: Deviations["kind"]): Attributes => ({
  stroke: strokeOf(kind),
  "stroke-width": 1.5,
  "stroke-dasharray": kind === "before" ? referenceDash : undefined,
});
const keyItem = ({ name, kind }: Deviations): KeyItem => ({
  text: name,
  line: lineOf(kind),
  fill: strokeOf(kind),
  weight: 500,
});

const sign = (parent: Element, at: Point, kind: Deviations["kind"], marks = {}) =>
  ring(parent, at, dotPx, strokeOf(kind), kind === "before" ? "paper" : strokeOf(kind), marks);

function drawSeries({ parent, x, y }: Panel, { kind, values }: Deviations): void {
  const group = add(parent, "g", { "data-series": kind, "stroke-linejoin": "round" });
  const found = values.flatMap(({ n, value }) =>
    value === null ? [] : [{ n, at: [x(n), y(value)] as const }],
  );
  const d = `M${found.map(({ at: [left, top] }) => `${left.toFixed(1)},${top.toFixed(1)}`).join("L")}`;
  if (found.length > 1) add(group, "path", { d, ...lineOf(kind) });
  for (const { n, at } of found) sign(group, at, kind, { "data-n": `${n}` });
}

function drawSigns(
  on: Pick<Panel, "parent" | "size">,
  series: readonly Deviations[],
  top: number,
  isStacked: boolean,
): void {
  let [left, row] = [0, top];
  for (const one of series) {
    keySample(on, keyItem(one), left, row, keyStyle.sample);
    sign(on.parent, [left + keyStyle.sample / 2, row - 0.33 * on.size], one.kind);
    if (isStacked) row += on.size + 6;
    else left += keyWidth([keyItem(one)], keyStyle, on.size);
  }
}

export const deviationTable = (
  { series, unit }: DeviationData,
  _unit?: LengthUnit,
  instrument?: InstrumentKind,
): Table =>
  valuesTable(
    instrument,
    series.map(({ name, values }) => ({ name: `${name} (${unit})`, values })),
  );

/** Of every set the largest, and whether anybody would feel it. */
function describe({ title, unit, digits, feltFrom, series }: DeviationData, { instrument }: Frame): string {
  const found = series.map(({ name, values }) => {
    const known = values.flatMap(({ n, value }) => (value === null ? [] : [{ n, value }]));
    if (known.length === 0) return `${name}: none could be told`;
    const most = known.reduce((a, b) => (Math.abs(b.value) > Math.abs(a.value) ? b : a));
    const felt = isNoticeable(most.value, feltFrom) ? "" : `, ${TOO_SMALL}`;
    return `${name}: at most ${signed(most.value, digits)} ${unit} at ${noteText(most.n, instrument)}${felt}`;
  });
  return `${title}. ${found.join("; ")}.`;
}

/** @param said what stands off from what, and how it is told in words */
export const deviationFigure = (
  said: Pick<Figure<DeviationData>, "name" | "label" | "about" | "caption">,
): Figure<DeviationData> => ({
  ...said,
  height: (width, data) => (data ? deviationHeight(data, width) : 0),
  draw: deviationChart,
  table: deviationTable,
});
