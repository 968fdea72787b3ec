/**
 * Repeat readings of two lengths as dots about their means, on one scale, so that their spreads can be compared. Equal
 * readings stand on one another; under them the interval of the mean.
 */
import { scaleLinear } from "d3";
import { formatLength } from "../../../units/formatLength.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { decimals, plusMinus } from "../../../units/uncertainLength.ts";
import { signed } from "../../../words/numbers.ts";
import { bottomAxis } from "../../kit/axes.ts";
import {
  add,
  clamp,
  type Drawing,
  type Frame,
  type Point,
  polygonPath,
  rule,
  sheet,
  type Table,
  textWidth,
  typeSizes,
} from "../../kit/drawing.ts";
import type { Figure } from "../../kit/figure.ts";
import { intervalBar } from "../../kit/marks/intervalBar.ts";
import { inUnit } from "../../kit/numbers.ts";
import { label, type Panel, plotBox } from "../../kit/panel.ts";
import { lengthColumn, tableOf } from "../../kit/table.ts";
import { lengthTicks, marksIn } from "../../kit/ticks.ts";

export interface LengthReadings {
  readonly name: string;
  /** As the tool showed them, at least one. */
  readonly readingsMm: readonly number[];
  readonly meanMm: number;
  /** ±U of the mean; undefined where the readings cannot tell. */
  readonly expandedMm: number | undefined;
  /** Place of the reading that stands apart, from 0. */
  readonly outlier: number | undefined;
}

const dotPx = 5;
/** Room in a row for its name above the dots and the interval below them, px. */
const intervalRoom = 20;
/** Where no reading differs from another, the scale still needs a width, mm. */
const leastReachMm = 0.02;

export function readingsChart(rows: readonly LengthReadings[], frame: Frame): Drawing {
  const { small } = typeSizes(frame);
  const svg = sheet(frame, {
    name: "readings",
    title: "The readings about their means",
    description: rows.map((row) => describe(row, frame.unit)).join(" "),
  });
  const plot = plotBox(frame, { left: 10, right: 10, top: 0 });
  const reachMm = 1.15 * Math.max(leastReachMm, ...rows.map(reach));
  const x = scaleLinear([-reachMm, reachMm], [plot.left, plot.right]);
  const y = scaleLinear([0, rows.length], [plot.top, plot.bottom]);
  const on: Panel = { parent: svg, x, y, plot, size: small };
  rule(svg, [x(0), plot.top + small + 6], [x(0), plot.bottom], "hairline");
  rows.forEach((row, i) => {
    drawRow({ ...on, plot: { ...plot, top: y(i), bottom: y(i + 1) } }, row, frame.unit);
  });
  const marks = lengthTicks(x, frame.unit, marksIn(frame.width, 90, 2, 8));
  bottomAxis(on, marks, `difference from the mean, ${frame.unit}`);
  return { svg, x, y, plot };
}

export const readingsTable = (rows: readonly LengthReadings[], unit: LengthUnit): Table =>
  tableOf(
    rows.flatMap((row) => row.readingsMm.map((readingMm, i) => ({ ...row, readingMm, i }))),
    [
      ["length", ({ name }) => name],
      ["number", ({ i }) => i + 1],
      lengthColumn("reading", unit, ({ readingMm }) => readingMm),
      lengthColumn("difference from the mean", unit, ({ readingMm, meanMm }) => readingMm - meanMm),
      ["remark", ({ i, outlier }) => (i === outlier ? "stands apart" : "")],
    ],
  );

const reach = ({ readingsMm, meanMm, expandedMm = 0 }: LengthReadings): number =>
  Math.max(expandedMm, ...readingsMm.map((readingMm) => Math.abs(readingMm - meanMm)));

function drawRow(
  on: Panel,
  { name, readingsMm, meanMm, expandedMm, outlier }: LengthReadings,
  unit: LengthUnit,
): void {
  const { parent, x, size } = on;
  const { left, right, top, bottom } = on.plot;
  label(on, `${name}, mean ${plusMinus(meanMm, expandedMm, unit)}`, left, top + size, { halo: true });
  const at = bottom - intervalRoom / 2;
  const floor = bottom - intervalRoom - dotPx;
  const ceiling = top + size + 8 + dotPx;
  if (top > 0) rule(parent, [left, top - 2], [right, top - 2], "hairline");
  if (expandedMm !== undefined)
    intervalBar(parent, { ends: [x(-expandedMm), x(expandedMm)], at, cap: 4 }, "ink");
  rule(parent, [x(0), at - 7], [x(0), at + 7], "ink", 2);

  const places = stacked(readingsMm.map((readingMm) => x(readingMm - meanMm)));
  const tallest = Math.max(...places.map(({ level }) => level));
  const rise = tallest === 0 ? 0 : Math.min(2 * dotPx + 1, (floor - ceiling) / tallest);
  places.forEach(({ at, level }, i) => {
    const row = floor - level * rise;
    if (i !== outlier) {
      add(parent, "circle", { cx: at, cy: row, r: dotPx, fill: "ink", stroke: "paper" });
      return;
    }
    const d = polygonPath(diamond([at, row], dotPx + 3));
    add(parent, "path", { class: "outlier", d, fill: "paper", stroke: "gap", "stroke-width": 2.5 });
    const text = `number ${i + 1} stands apart`;
    const anchor = at < (left + right) / 2 ? "start" : "end";
    const away = anchor === "start" ? dotPx + 8 : -dotPx - 8;
    const width = textWidth(text, size);
    const [least, most] = anchor === "start" ? [left, right - width] : [left + width, right];
    const style = { anchor, fill: "gap", weight: 600, halo: true } as const;
    label(on, text, clamp(at + away, least, most), row + 0.36 * size, style);
  });
}

/** Dots that would touch stand on one another, in the order of reading. */
function stacked(places: readonly number[]): { at: number; level: number }[] {
  const stacks: { at: number; height: number }[] = [];
  return places.map((at) => {
    const stack = stacks.find((one) => Math.abs(one.at - at) < 2 * dotPx);
    if (stack) return { at, level: stack.height++ };
    stacks.push({ at, height: 1 });
    return { at, level: 0 };
  });
}

const diamond = ([x, y]: Point, half: number): Point[] => [
  [x, y - half],
  [x + half, y],
  [x, y + half],
  [x - half, y],
];

function describe(
  { name, readingsMm, meanMm, expandedMm, outlier }: LengthReadings,
  unit: LengthUnit,
): string {
  const count = `${readingsMm.length} ${readingsMm.length === 1 ? "reading" : "readings"}`;
  const spread = Math.max(...readingsMm) - Math.min(...readingsMm);
  const span =
    readingsMm.length > 1 ? `, ${formatLength(spread, unit, unit === "mm" ? 3 : 4)} from least to most` : "";
  const apart =
    outlier === undefined
      ? ""
      : ` Number ${outlier + 1} stands apart, ${signed(inUnit(readingsMm[outlier] - meanMm, unit), decimals(undefined, unit))} ${unit} from the mean.`;
  return `${name}: ${count} about a mean of ${plusMinus(meanMm, expandedMm, unit)}${span}.${apart}`;
}

export const readingsFigure: Figure<readonly LengthReadings[]> = {
  name: "readings",
  label: "The readings about their means",
  about:
    "Each dot is one reading, as far from the mean of its length as it was read; equal readings stand on one another. " +
    "Under them the interval that holds the mean with 95 % confidence, the tool's step and zero in it. A diamond is a " +
    "reading that stands apart from the others by Grubbs' test; it is counted like the rest.",
  caption: () => "Each dot is a reading; under them the 95 % interval of the mean.",
  height: () => 236,
  draw: readingsChart,
  table: readingsTable,
};
