/**
 * Repeat readings of two lengths as dots about their means, on one scale, so that their spreads can be compared. Equal
 * readings stand on one another; under them the interval of the mean.
 */
import { scaleLinear, ticks } from "d3";
import { formatLength } from "../../../units/formatLength.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { decimals, plusMinus } from "../../../units/uncertainLength.ts";
import { signed } from "../../../words/numbers.ts";
import { bottomAxis, bottomAxisRoom } from "../../kit/axes.ts";
import {
  add,
  type Box,
  clamp,
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
import { inUnit, lengthTicks } from "../../kit/numbers.ts";
import { colour } from "../../kit/tokens.ts";

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
  const plot: Box = {
    left: 10,
    right: frame.width - 10,
    top: 0,
    bottom: frame.height - bottomAxisRoom(small),
  };
  const reachMm = 1.15 * Math.max(leastReachMm, ...rows.map(reach));
  const x = scaleLinear([-reachMm, reachMm], [plot.left, plot.right]);
  const y = scaleLinear([0, rows.length], [plot.top, plot.bottom]);
  rule(svg, [x(0), plot.top + small + 6], [x(0), plot.bottom], colour("hairline"));
  rows.forEach((row, i) => {
    drawRow(svg, row, x, { ...plot, top: y(i), bottom: y(i + 1) }, frame.unit, small);
  });
  const marks = lengthTicks(x, ticks, frame.unit, clamp(Math.floor(frame.width / 90), 2, 8));
  bottomAxis(
    svg,
    x,
    plot,
    marks.map(({ mm, text }) => ({ value: mm, text })),
    `difference from the mean, ${frame.unit}`,
    small,
  );
  return { svg, x, y, plot };
}

export function readingsTable(rows: readonly LengthReadings[], unit: LengthUnit): Table {
  return {
    columns: ["length", "number", `reading (${unit})`, `difference from the mean (${unit})`, "remark"],
    rows: rows.flatMap(({ name, readingsMm, meanMm, outlier }) =>
      readingsMm.map((readingMm, i) => [
        name,
        i + 1,
        inUnit(readingMm, unit),
        inUnit(readingMm - meanMm, unit),
        i === outlier ? "stands apart" : "",
      ]),
    ),
  };
}

const reach = ({ readingsMm, meanMm, expandedMm = 0 }: LengthReadings): number =>
  Math.max(expandedMm, ...readingsMm.map((readingMm) => Math.abs(readingMm - meanMm)));

function drawRow(
  svg: SVGSVGElement,
  { name, readingsMm, meanMm, expandedMm, outlier }: LengthReadings,
  x: Scale,
  { left, right, top, bottom }: Box,
  unit: LengthUnit,
  size: number,
): void {
  const title = `${name}, mean ${plusMinus(meanMm, expandedMm, unit)}`;
  write(svg, title, left, top + size, { size, halo: true });
  const interval = bottom - intervalRoom / 2;
  const floor = bottom - intervalRoom - dotPx;
  const ceiling = top + size + 8 + dotPx;
  if (top > 0) rule(svg, [left, top - 2], [right, top - 2], colour("hairline"));

  if (expandedMm !== undefined) {
    const ends = [x(-expandedMm), x(expandedMm)] as const;
    rule(svg, [ends[0], interval], [ends[1], interval], colour("ink"), 1.5);
    for (const at of ends) rule(svg, [at, interval - 4], [at, interval + 4], colour("ink"), 1.5);
  }
  rule(svg, [x(0), interval - 7], [x(0), interval + 7], colour("ink"), 2);

  const places = stacked(readingsMm.map((readingMm) => x(readingMm - meanMm)));
  const tallest = Math.max(...places.map(({ level }) => level));
  const rise = tallest === 0 ? 0 : Math.min(2 * dotPx + 1, (floor - ceiling) / tallest);
  places.forEach(({ at, level }, i) => {
    const row = floor - level * rise;
    if (i !== outlier) {
      add(svg, "circle", { cx: at, cy: row, r: dotPx, fill: colour("ink"), stroke: colour("paper") });
      return;
    }
    add(svg, "path", {
      class: "outlier",
      d: polygonPath(diamond([at, row], dotPx + 3)),
      fill: colour("paper"),
      stroke: colour("gap"),
      "stroke-width": 2.5,
    });
    const text = `number ${i + 1} stands apart`;
    const anchor = at < (left + right) / 2 ? "start" : "end";
    const away = anchor === "start" ? dotPx + 8 : -dotPx - 8;
    const [least, most] =
      anchor === "start" ? [left, right - textWidth(text, size)] : [left + textWidth(text, size), right];
    write(svg, text, clamp(at + away, least, most), row + 0.36 * size, {
      size,
      anchor,
      fill: colour("gap"),
      weight: 600,
      halo: true,
    });
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
