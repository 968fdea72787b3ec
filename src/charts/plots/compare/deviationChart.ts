/**
 * How far something is off at every resonance, from a line that stands for none: one or two sets of values on one scale, each
 * named at its own end, over the band in which nobody feels it.
 */
import { scaleLinear } from "d3";
import { isNoticeable } from "../../../study/change/judgement.ts";
import { signed } from "../../../words/numbers.ts";
import { leftAxis } from "../../kit/axes.ts";
import {
  add,
  type Box,
  type Drawing,
  type Frame,
  type Point,
  polygonPath,
  referenceDash,
  rule,
  type Scale,
  sheet,
  type Table,
  textWidth,
  typeSizes,
  write,
} from "../../kit/drawing.ts";
import type { Figure } from "../../kit/figure.ts";
import { hatchPath } from "../../kit/hatch.ts";
import { tickText } from "../../kit/numbers.ts";
import { colour } from "../../kit/tokens.ts";

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

const keyRows = ({ series }: DeviationData, width: number, small: number): number =>
  series.reduce((sum, { name }) => sum + keyWidth(name, small), 0) > width ? series.length : 1;

const samplePx = 30;
const keyWidth = (name: string, small: number): number => samplePx + 6 + textWidth(name, small) + 18;

export function deviationHeight(data: DeviationData, width: number): number {
  const { small, large } = typeSizes({ width, height: 0, unit: "mm" });
  return large + keyRows(data, width, small) * (small + 6) + 2 * small + 20 + plotPx + 2 * small + 12;
}

export function deviationChart(data: DeviationData, frame: Frame): Drawing {
  const { title, unit, feltFrom, series } = data;
  const { small, large } = typeSizes(frame);
  const svg = sheet(frame, {
    name: "deviations",
    title: `${title}, resonance by resonance`,
    description: describe(data),
  });
  const ground = add(svg, "g", { "aria-hidden": "true" });
  write(ground, title, 0, large, { size: large, weight: 600 });
  const rows = keyRows(data, frame.width, small);
  drawKey(ground, data, large + small + 8, rows > 1, small);
  const axisRow = large + rows * (small + 6) + small + 10;
  write(ground, unit, 0, axisRow, { size: small, fill: colour("muted") });
  const plot: Box = {
    left: 3.4 * small,
    right: frame.width - 6,
    top: axisRow + 8,
    bottom: frame.height - 2 * small - 10,
  };
  const all = series.flatMap(({ values }) => values);
  const numbers = all.map(({ n }) => n);
  const [first, last] = numbers.length > 0 ? [Math.min(...numbers), Math.max(...numbers)] : [1, 2];
  const x = scaleLinear([first - 0.5, last + 0.5], [plot.left, plot.right]);
  const y = scaleLinear(domainOf(all, feltFrom), [plot.bottom, plot.top]);
  drawBand(ground, feltFrom, y, plot);
  const ticks = y.ticks(5).map((value) => ({ value, text: tickText(value, true) }));
  leftAxis(ground, y, plot, ticks, small, true);
  rule(ground, [plot.left, y(0)], [plot.right, y(0)], colour("ink"));
  const every = (plot.right - plot.left) / (last - first + 1) < 1.7 * small ? 2 : 1;
  for (let n = first; n <= last; n += every)
    write(ground, `${n}`, x(n), plot.bottom + small + 4, {
      size: small,
      anchor: "middle",
      fill: colour("muted"),
    });
  write(ground, "resonance", plot.right, plot.bottom + 2 * small + 7, {
    size: small,
    anchor: "end",
    fill: colour("muted"),
  });
  for (const one of series) drawSeries(svg, one, x, y);
  return { svg, x, y, plot };
}

function domainOf(values: readonly { readonly value: number | null }[], felt: number): [number, number] {
  const found = values.flatMap(({ value }) => value ?? []);
  const low = Math.min(-1.4 * felt, ...found);
  const high = Math.max(1.4 * felt, ...found);
  const room = 0.07 * (high - low);
  return [low - room, high + room];
}

function drawBand(ground: Element, felt: number, y: Scale, { left, right }: Box): void {
  const band: Point[] = [
    [left, y(felt)],
    [right, y(felt)],
    [right, y(-felt)],
    [left, y(-felt)],
  ];
  add(ground, "path", { "data-part": "felt", d: hatchPath(band, 6, -1), stroke: colour("feel") });
  add(ground, "path", { d: polygonPath(band), stroke: colour("feel"), "stroke-width": 0.75 });
}

const strokeOf = (kind: Deviations["kind"]) => colour(kind === "after" ? "gap" : "reference");
const dashOf = (kind: Deviations["kind"]) => (kind === "before" ? referenceDash : undefined);

function drawSeries(svg: Element, { kind, values }: Deviations, x: Scale, y: Scale): void {
  const group = add(svg, "g", { "data-series": kind, "stroke-linejoin": "round" });
  const found = values.flatMap(({ n, value }) => (value === null ? [] : [{ n, value }]));
  if (found.length > 1)
    add(group, "path", {
      d: `M${found.map(({ n, value }) => `${x(n).toFixed(1)},${y(value).toFixed(1)}`).join("L")}`,
      stroke: strokeOf(kind),
      "stroke-width": 1.5,
      "stroke-dasharray": dashOf(kind),
    });
  for (const { n, value } of found)
    add(group, "circle", {
      "data-n": `${n}`,
      cx: x(n),
      cy: y(value),
      r: dotPx,
      fill: kind === "before" ? colour("paper") : strokeOf(kind),
      stroke: strokeOf(kind),
      "stroke-width": 1.5,
    });
}

function drawKey(
  parent: Element,
  { series }: DeviationData,
  top: number,
  isStacked: boolean,
  size: number,
): void {
  let [left, row] = [0, top];
  for (const { name, kind } of series) {
    const line = row - 0.33 * size;
    rule(parent, [left, line], [left + samplePx, line], strokeOf(kind), 1.5, dashOf(kind));
    add(parent, "circle", {
      cx: left + samplePx / 2,
      cy: line,
      r: dotPx,
      fill: kind === "before" ? colour("paper") : strokeOf(kind),
      stroke: strokeOf(kind),
      "stroke-width": 1.5,
    });
    write(parent, name, left + samplePx + 6, row, { size, fill: strokeOf(kind), weight: 500 });
    if (isStacked) row += size + 6;
    else left += keyWidth(name, size);
  }
}

export const deviationTable = ({ series, unit }: DeviationData): Table => {
  const numbers = [...new Set(series.flatMap(({ values }) => values.map(({ n }) => n)))].sort(
    (a, b) => a - b,
  );
  return {
    columns: ["resonance", ...series.map(({ name }) => `${name} (${unit})`)],
    rows: numbers.map((n) => [
      n,
      ...series.map(({ values }) => values.find((one) => one.n === n)?.value ?? ""),
    ]),
  };
};

/** Of every set the largest, and whether anybody would feel it. */
function describe({ title, unit, digits, feltFrom, series }: DeviationData): string {
  const found = series.map(({ name, values }) => {
    const known = values.flatMap(({ n, value }) => (value === null ? [] : [{ n, value }]));
    if (known.length === 0) return `${name}: none could be told`;
    const most = known.reduce((a, b) => (Math.abs(b.value) > Math.abs(a.value) ? b : a));
    const felt = isNoticeable(most.value, feltFrom) ? "" : ", too small to feel";
    return `${name}: at most ${signed(most.value, digits)} ${unit} at resonance ${most.n}${felt}`;
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
