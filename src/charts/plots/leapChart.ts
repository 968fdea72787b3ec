/** The chance that a leap lands wrong, against gap: what was counted, and between what the chance lies with 95 %. */
import { scaleLinear, ticks } from "d3";
import type { LengthUnit } from "../../units/length.ts";
import { bothUnits, percent } from "../../words/numbers.ts";
import { bottomAxis, bottomAxisRoom, leftAxis } from "../kit/axes.ts";
import {
  add,
  type Box,
  clamp,
  type Drawing,
  type Frame,
  px,
  referenceDash,
  rule,
  sheet,
  type Table,
  typeSizes,
  write,
} from "../kit/drawing.ts";
import { type Figure, proportional } from "../kit/figure.ts";
import { inUnit, lengthTicks, tickText } from "../kit/numbers.ts";
import { colour } from "../kit/tokens.ts";

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
  const svg = sheet(frame, {
    name: "leap-chart",
    title: `Chance that the leap from note ${from} to note ${to} lands wrong`,
    description: describe(data, frame.unit),
  });
  const rowAxis = large + small + 12;
  const plot: Box = {
    left: 3.8 * small,
    right: frame.width - 1.5 * small,
    top: rowAxis + small + 14,
    bottom: frame.height - bottomAxisRoom(small),
  };
  const reach = (domainMm[1] - domainMm[0]) / 40 || 1;
  const x = scaleLinear([domainMm[0] - reach, domainMm[1] + reach], [plot.left, plot.right]);
  const highest = Math.max(0.05, ...points.map(({ interval }) => interval[1]));
  const y = scaleLinear([0, Math.min(1, 1.08 * highest)], [plot.bottom, plot.top]);

  write(svg, `Leap from note ${from} to note ${to}`, 0, large, { size: large, weight: 600 });
  write(svg, "chance of landing wrong", 0, rowAxis, { size: small, fill: colour("muted") });
  leftAxis(
    svg,
    y,
    plot,
    y
      .ticks(clamp(Math.floor((plot.bottom - plot.top) / 40), 2, 6))
      .map((value) => ({ value, text: `${tickText(100 * value)} %` })),
    small,
    true,
  );
  bottomAxis(
    svg,
    x,
    plot,
    lengthTicks(
      { domain: () => [...domainMm] },
      ticks,
      frame.unit,
      clamp(Math.floor((plot.right - plot.left) / 60), 2, 9),
    ).map(({ mm, text }) => ({ value: mm, text })),
    `gap, ${frame.unit}`,
    small,
  );
  for (const [gapMm, token, dash] of [
    [referenceGapMm, "reference", referenceDash],
    [chosenGapMm, "gap", undefined],
  ] as const)
    rule(svg, [x(gapMm), plot.top - 6], [x(gapMm), plot.bottom], colour(token), 1.5, dash);
  labelGaps();
  for (const { gapMm, chance, interval } of points) {
    const token = gapMm === chosenGapMm ? "gap" : gapMm === referenceGapMm ? "reference" : "ink";
    const at = x(gapMm);
    const [low, high] = interval.map(y);
    add(svg, "path", {
      "data-part": "interval",
      d: `M${px(at)},${px(low)}V${px(high)}M${px(at - 5)},${px(low)}h10M${px(at - 5)},${px(high)}h10`,
      stroke: colour(token),
      "stroke-width": 1.5,
    });
    add(svg, "circle", {
      "data-part": "chance",
      cx: at,
      cy: y(chance),
      r: 4.5,
      fill: colour(token),
      stroke: colour("paper"),
    });
  }
  return { svg, x, y, plot };

  /** Either side of each other, whichever is the wider gap. */
  function labelGaps(): void {
    const [chosenAt, referenceAt] = [x(chosenGapMm), x(referenceGapMm)];
    const isRight = chosenAt >= referenceAt;
    const row = plot.top - 10;
    write(svg, "chosen", chosenAt + (isRight ? 5 : -5), row, {
      size: small,
      anchor: isRight ? "start" : "end",
      fill: colour("gap"),
      weight: 600,
    });
    if (chosenGapMm !== referenceGapMm)
      write(svg, "reference", referenceAt + (isRight ? -5 : 5), row, {
        size: small,
        anchor: isRight ? "end" : "start",
        fill: colour("reference"),
      });
  }
}

export const leapTable = ({ points }: LeapData, unit: LengthUnit): Table => ({
  columns: [`gap (${unit})`, "runs", "landed wrong", "of these silent", "chance", "from (95 %)", "to (95 %)"],
  rows: points.map(({ gapMm, runs, missed, silent, chance, interval }) => [
    inUnit(gapMm, unit),
    runs,
    missed,
    silent,
    chance,
    ...interval,
  ]),
});

function describe({ points, from, to, aimCents, chosenGapMm, referenceGapMm }: LeapData, unit: LengthUnit) {
  const said = [chosenGapMm, referenceGapMm].flatMap((gapMm, i) => {
    const point = points.find((one) => one.gapMm === gapMm);
    return point
      ? [
          `at the ${i === 0 ? "chosen" : "reference"} gap of ${bothUnits(gapMm, unit)} ${point.missed} of ${point.runs} ` +
            `(95 %: ${percent(point.interval[0])} to ${percent(point.interval[1])})`,
        ]
      : [];
  });
  return `Leaps from note ${from} to note ${to} with an aim good to ${tickText(aimCents)} cents that landed wrong: ${said.join("; ") || "none done yet"}.`;
}

export const leapFigure: Figure<LeapData> = {
  name: "leaps",
  label: "Chance that a leap lands wrong, against gap",
  about:
    "A mark a gap: of so many leaps, each with its own error of aim, how many ended on another note or on none. The bar is " +
    "where the chance lies with 95 % confidence. Every gap got the same errors, so that what differs is the gap; gaps whose " +
    "bars overlap cannot be told apart by so few leaps.",
  caption: () => "Bars: 95 % confidence. More leaps make them shorter.",
  height: proportional(0.5, 290, 400),
  draw: leapChart,
  table: leapTable,
};
