/** The chance that a leap lands wrong, against gap: what was counted, and between what the chance lies with 95 %. */

import { scaleLinear } from "d3";
import { isSameGap } from "../../setup/setup.ts";
import type { LengthUnit } from "../../units/length.ts";
import { noteText } from "../../words/instruments.ts";
import { bothUnits, percent } from "../../words/numbers.ts";
import { bottomAxis, leftAxis } from "../kit/axes.ts";
import {
  add,
  type Drawing,
  type Frame,
  sheet,
  type Table,
  type TextStyle,
  typeSizes,
} from "../kit/drawing.ts";
import { type Figure, proportional } from "../kit/figure.ts";
import { heading } from "../kit/labels/text.ts";
import { intervalPath } from "../kit/marks/intervalBar.ts";
import { referenceDash, uprightLine } from "../kit/marks/line.ts";
import { tickText } from "../kit/numbers.ts";
import { heightOf, label, type Panel, plotBox, widthOf } from "../kit/panel.ts";
import { lengthColumn, tableOf } from "../kit/table.ts";
import { lengthTicks, marksIn, roundTicks } from "../kit/ticks.ts";

export interface LeapPoint {
  readonly gapMm: number;
  readonly runs: number;
  readonly missed: number;
  readonly silent: number;
  /** Of missing, 0 to 1. */
  readonly chance: number;
  /** 95 %. */
  readonly interval: readonly [low: number, high: number];
}

export interface LeapData {
  readonly from: number;
  readonly to: number;
  readonly aimCents: number;
  readonly points: readonly LeapPoint[];
  readonly chosenGapMm: number;
  readonly referenceGapMm: number;
  readonly domainMm: readonly [low: number, high: number];
}

export function leapChart(data: LeapData, frame: Frame): Drawing {
  const { from, to, points, chosenGapMm, referenceGapMm, domainMm } = data;
  const { small, large } = typeSizes(frame);
  const named = (n: number) => noteText(n, frame.instrument);
  const svg = sheet(frame, {
    name: "leap-chart",
    title: `How often the slur from ${named(from)} to ${named(to)} misses`,
    description: describe(data, frame),
  });
  const rowAxis = large + small + 12;
  const plot = plotBox(frame, { left: 3.8 * small, right: 1.5 * small, top: rowAxis + small + 14 });
  const reach = (domainMm[1] - domainMm[0]) / 40 || 1;
  const x = scaleLinear([domainMm[0] - reach, domainMm[1] + reach], [plot.left, plot.right]);
  const highest = Math.max(0.05, ...points.map(({ interval }) => interval[1]));
  const y = scaleLinear([0, Math.min(1, 1.08 * highest)], [plot.bottom, plot.top]);
  const on: Panel = { parent: svg, x, y, plot, size: small };

  heading(svg, `Slur from ${named(from)} to ${named(to)}`, large);
  label(on, "share of slurs that miss", 0, rowAxis, { fill: "muted" });
  const share = (value: number) => `${tickText(100 * value)} %`;
  leftAxis(on, roundTicks(y, marksIn(heightOf(plot), 40, 2, 6), share), true);
  const marks = marksIn(widthOf(plot), 60, 2, 9);
  bottomAxis(on, lengthTicks({ domain: () => [...domainMm] }, frame.unit, marks), `gap, ${frame.unit}`);
  uprightLine(on, referenceGapMm, "reference", 1.5, referenceDash, 6);
  uprightLine(on, chosenGapMm, "gap", 1.5, undefined, 6);
  labelGaps(on, data);
  for (const { gapMm, chance, interval } of points) {
    const stroke = gapMm === chosenGapMm ? "gap" : gapMm === referenceGapMm ? "reference" : "ink";
    const at = x(gapMm);
    const [low, high] = interval;
    const { bar, caps } = intervalPath({ ends: [y(low), y(high)], at, cap: 5, isUpright: true });
    add(svg, "path", { "data-part": "interval", d: bar + caps, stroke, "stroke-width": 1.5 });
    add(svg, "circle", {
      "data-part": "chance",
      cx: at,
      cy: y(chance),
      r: 4.5,
      fill: stroke,
      stroke: "paper",
    });
  }
  return { svg, x, y, plot };
}

/** Either side of each other, whichever is the wider gap. */
function labelGaps(on: Panel, { chosenGapMm, referenceGapMm }: LeapData): void {
  const row = on.plot.top - 10;
  const beside = (text: string, gapMm: number, isRight: boolean, style: Partial<TextStyle>) =>
    label(on, text, on.x(gapMm) + (isRight ? 5 : -5), row, { anchor: isRight ? "start" : "end", ...style });
  const isRight = on.x(chosenGapMm) >= on.x(referenceGapMm);
  beside("what if", chosenGapMm, isRight, { fill: "gap", weight: 600 });
  if (!isSameGap(chosenGapMm, referenceGapMm))
    beside("compared with", referenceGapMm, !isRight, { fill: "reference" });
}

export const leapTable = ({ points }: LeapData, unit: LengthUnit): Table =>
  tableOf(points, [
    lengthColumn("gap", unit, ({ gapMm }) => gapMm),
    ["runs", ({ runs }) => runs],
    ["missed", ({ missed }) => missed],
    ["of these silent", ({ silent }) => silent],
    ["chance", ({ chance }) => chance],
    ["from (95 %)", ({ interval }) => interval[0]],
    ["to (95 %)", ({ interval }) => interval[1]],
  ]);

function describe(
  { points, from, to, aimCents, chosenGapMm, referenceGapMm }: LeapData,
  { unit, instrument }: Frame,
): string {
  const said = [chosenGapMm, referenceGapMm].flatMap((gapMm, i) => {
    const point = points.find((one) => one.gapMm === gapMm);
    return point
      ? [
          `${i === 0 ? "what if" : "compared with"}, at ${bothUnits(gapMm, unit)}, ${point.missed} of ${point.runs} ` +
            `(95 %: ${percent(point.interval[0])} to ${percent(point.interval[1])})`,
        ]
      : [];
  });
  return `Slurs from ${noteText(from, instrument)} to ${noteText(to, instrument)} with an aim good to ${tickText(aimCents)} cents that missed: ${said.join("; ") || "none done yet"}.`;
}

export const leapFigure: Figure<LeapData> = {
  name: "leaps",
  label: "How often a slur misses, against gap",
  about:
    "A mark a gap: of so many slurs, each with its own error of aim, how many ended on another note or on none. The bar is " +
    "where the chance lies with 95 % confidence. Every gap got the same errors, so that what differs is the gap; gaps whose " +
    "bars overlap cannot be told apart by so few slurs.",
  caption: () => "Bars: 95 % confidence. More slurs make them shorter.",
  height: proportional(0.5, 290, 400),
  draw: leapChart,
  table: leapTable,
};
