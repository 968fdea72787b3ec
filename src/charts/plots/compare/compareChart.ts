/**
 * One quantity of every resonance, a small chart for each variant: its own values over the reference's, on one scale for all,
 * so that what differs is seen by looking along the row. The band about the reference is what nobody feels.
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
  readonly of: "resonance" | "note";
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
  const { small, large } = typeSizes({ width, height: 0, unit: "mm" });
  return headRoom(small, large) + layoutOf(data, width, small).rows * (panelHeight + 2 * small + 16) + small;
}

export function compareChart(data: CompareChartData, frame: Frame): Drawing {
  const { variants, title, unit, of } = data;
  const { small, large } = typeSizes(frame);
  const { left, columns, panel } = layoutOf(data, frame.width, small);
  const svg = sheet(frame, {
    name: "compare-chart",
    title: `${sentence(title)} of every ${of}, variant by variant`,
    description: describe(data),
  });
  write(svg, sentence(title), 0, large, { size: large, weight: 600 });
  write(svg, unit, 0, large + small + 4, { size: small, fill: colour("muted") });
  write(
    svg,
    `${of} number across; dashed: the reference, ${data.reference}`,
    frame.width,
    large + small + 4,
    {
      size: small,
      anchor: "end",
      fill: colour("muted"),
    },
  );
  const reference = variants.find(({ number }) => number === data.reference);
  const values = variants.flatMap((variant) => variant.values.flatMap(({ value }) => value ?? []));
  const numbers = variants.flatMap((variant) => variant.values.map(({ n }) => n));
  const [first, last] = numbers.length > 0 ? [Math.min(...numbers), Math.max(...numbers)] : [1, 2];
  const yDomain = domainOf(values, data.feltFrom);
  let scales: { x: Scale; y: Scale; plot: Box } | null = null;
  variants.forEach((variant, i) => {
    const column = i % columns;
    const top = headRoom(small, large) + Math.floor(i / columns) * (panelHeight + 2 * small + 16) + small + 6;
    const from = left + column * (panel + gapPx);
    const plot: Box = { left: from, right: from + panel, top, bottom: top + panelHeight };
    const x = scaleLinear([first - 0.5, last + 0.5], [plot.left, plot.right]);
    const y = scaleLinear(yDomain, [plot.bottom, plot.top]);
    scales ??= { x, y, plot };
    drawPanel(svg, data, variant, reference, { x, y, plot }, column === 0, small, [first, last]);
  });
  const fallback = scaleLinear([0, 1], [left, frame.width]);
  const whole = { left, right: frame.width, top: 0, bottom: frame.height };
  const { x, y, plot } = scales ?? { x: fallback, y: fallback, plot: whole };
  return { svg, x, y, plot };
}

function drawPanel(
  svg: SVGSVGElement,
  data: CompareChartData,
  variant: ValuedVariant,
  reference: ValuedVariant | undefined,
  { x, y, plot }: { x: Scale; y: Scale; plot: Box },
  hasAxis: boolean,
  size: number,
  [first, last]: readonly [number, number],
): void {
  const group = add(svg, "g", { "data-variant": `${variant.number}` });
  const most = Math.max(4, Math.floor((plot.right - plot.left) / (0.57 * size)) - 2);
  const name = `${variant.number} ${variant.name}`;
  const isReference = variant === reference;
  const label =
    isReference && textWidth(`${name}, the reference`, size) < plot.right - plot.left
      ? `${name}, the reference`
      : name;
  write(group, label.length > most ? `${label.slice(0, most - 1)}…` : label, plot.left, plot.top - 5, {
    size,
    weight: 600,
    fill: colour(isReference ? "reference" : variant.number === data.chosen ? "gap" : "ink"),
  });
  const ticks = y.domain();
  const values = scaleLinear(ticks, [plot.bottom, plot.top]).ticks(5);
  for (const value of values)
    rule(group, [plot.left, y(value)], [plot.right, y(value)], colour("hairline"), 0.75);
  if (reference && data.feltFrom !== null && !isReference)
    drawBand(group, reference.values, data.feltFrom, x, y, plot);
  if (hasAxis)
    leftAxis(
      group,
      y,
      plot,
      values.map((value) => ({ value, text: tickText(value) })),
      size,
    );
  rule(group, [plot.left, plot.bottom], [plot.right, plot.bottom], colour("ink"));
  const every = (plot.right - plot.left) / (last - first + 1) < 1.7 * size ? 2 : 1;
  for (let n = first; n <= last; n++)
    if ((n - first) % every === 0)
      write(group, `${n}`, x(n), plot.bottom + size + 3, { size, anchor: "middle", fill: colour("muted") });
  const line = (of: ValuedVariant) =>
    runsOf(of.values)
      .map((run) => `M${run.map(({ n, value }) => `${x(n).toFixed(1)},${y(value).toFixed(1)}`).join("L")}`)
      .join("");
  if (reference && !isReference)
    add(group, "path", {
      "data-part": "reference",
      d: line(reference),
      ...strokeOf(reference, data),
      "stroke-width": 1.5,
    });
  add(group, "path", {
    "data-part": "own",
    d: line(variant),
    ...strokeOf(variant, data),
    "stroke-width": 1.5,
  });
  for (const { n, value } of variant.values)
    if (value !== null)
      add(group, "circle", {
        "data-n": `${n}`,
        cx: x(n),
        cy: y(value),
        r: 3.5,
        fill: isReference ? colour("paper") : strokeOf(variant, data).stroke,
        stroke: strokeOf(variant, data).stroke,
        "stroke-width": 1.5,
      });
}

/** What a player cannot tell from the reference. */
function drawBand(
  group: Element,
  values: readonly Value[],
  felt: number,
  x: Scale,
  y: Scale,
  plot: Box,
): void {
  for (const run of runsOf(values)) {
    const upper = run.map(({ n, value }): Point => [x(n), Math.max(plot.top, y(value + felt))]);
    const lower = run.map(({ n, value }): Point => [x(n), Math.min(plot.bottom, y(value - felt))]);
    const band = [...upper, ...lower.reverse()];
    if (run.length > 1)
      add(group, "path", { "data-part": "felt", d: hatchPath(band, 5, -1), stroke: colour("feel") });
    if (run.length > 1)
      add(group, "path", { d: polygonPath(band), stroke: colour("feel"), "stroke-width": 0.75 });
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

export const compareChartTable = ({ variants, of, title, unit }: CompareChartData): Table => {
  const numbers = [...new Set(variants.flatMap(({ values }) => values.map(({ n }) => n)))].sort(
    (a, b) => a - b,
  );
  return {
    columns: [of, ...variants.map(({ number, name }) => `${number} ${name}: ${title} (${unit})`)],
    rows: numbers.map((n) => [
      n,
      ...variants.map(({ values }) => values.find((one) => one.n === n)?.value ?? ""),
    ]),
  };
};

const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** For every variant where it lies farthest from the reference. */
function describe({ variants, reference, title, unit, of, digits, feltFrom }: CompareChartData): string {
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
      const felt = feltFrom === null || isNoticeable(most.by, feltFrom) ? "" : ", too small to feel";
      return `${number} ${name}: at most ${signed(most.by, digits)} ${unit} at ${of} ${most.n}${felt}`;
    });
  return `${sentence(title)} against the reference, ${reference} ${base?.name ?? ""}. ${found.join("; ") || "There is nothing to compare with yet"}.`;
}

/** @param name for its files: several quantities may be shown at once */
export const compareFigure = (name: string): Figure<CompareChartData> => ({
  name,
  label: "One quantity of every resonance, candidate by candidate",
  about:
    "All on one scale. Each candidate's values are drawn over the reference's, which are dashed; within the hatched band about " +
    "them nobody feels the difference. An equivalent fundamental is a resonance over its number: level dots are a harmonic series.",
  caption: (data) =>
    data?.feltFrom === null
      ? "Dashed: the reference."
      : "Dashed: the reference. Within the hatched band the difference is too small to feel.",
  height: (width, data) => (data ? compareChartHeight(data, width) : 0),
  draw: compareChart,
  table: compareChartTable,
});
