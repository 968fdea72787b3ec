/**
 * What a quantity of each resonance does as the gap changes: the frame that height, shift and spacing share. The band of
 * changes too small to feel is always within the scale, however little the lines move: that is the point of the drawing.
 */
import { extent, scaleLinear, ticks } from "d3";
import type { Thresholds } from "../../../setup/setup.ts";
import type { ChangedMode } from "../../../study/change/modeChanges.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { bottomAxis, bottomAxisRoom, leftAxis } from "../../kit/axes.ts";
import { corners, curvePath } from "../../kit/curve.ts";
import {
  add,
  type Box,
  clamp,
  type Drawing,
  type Frame,
  type Point,
  rule,
  sheet,
  type Table,
  typeSizes,
  write,
} from "../../kit/drawing.ts";
import { inUnit, lengthTicks, tickText } from "../../kit/numbers.ts";
import { colour, resonanceColour } from "../../kit/tokens.ts";
import { drawBand, drawRule } from "./gapBand.ts";
import { labelEnds } from "./gapEnds.ts";
import { drawCursor, drawGaps } from "./gapLines.ts";
import {
  type Quantity,
  quantityOf,
  type Series,
  type Swept,
  seriesOf,
  valueAt,
  viewOf,
} from "./gapSeries.ts";
import { describe } from "./gapWords.ts";

export interface GapChartData<Mode extends { readonly n: number } = ChangedMode> {
  readonly sweep: Swept<Mode>;
  readonly chosenGapMm: number;
  readonly thresholds: Thresholds;
  /** Gaps on the axis; those of the sweep if absent. Give it while a sweep is still growing. */
  readonly domainMm?: readonly [low: number, high: number];
  /** Number of the resonance that stands out. */
  readonly highlight?: number;
  /** Gap of the read-out line. */
  readonly cursorGapMm?: number;
  /** It is for paper, where no hand moves the chosen gap: labels keep clear of its line too, or stand before it. */
  readonly isPrinted?: boolean;
}

/** A drawing whose gaps can be put elsewhere while all else stays as it is: what a dragging hand asks for at every step. */
export interface GapDrawing extends Drawing {
  readonly move: (gaps: Gaps) => void;
}

type Gaps = Pick<GapChartData, "chosenGapMm" | "cursorGapMm">;

export function gapChart<Mode extends { readonly n: number }>(
  quantity: Quantity<Mode>,
  data: GapChartData<Mode>,
  frame: Frame,
): GapDrawing {
  const { sweep, highlight, isPrinted = false } = data;
  const { small, large } = typeSizes(frame);
  const band = quantity.feltFrom(data.thresholds);
  const series = seriesOf(quantity, sweep, highlight);
  const { noun = "resonance" } = quantity;
  const title = noun === "note" ? quantity.title : `${quantity.title}, ${viewOf(sweep)}`;
  const svg = sheet(frame, {
    name: quantity.name,
    title,
    description: describe(quantity, data, series, band, frame.unit),
    role: "group",
  });

  const rowAxis = large + small + 12;
  const rowGaps = rowAxis + small + 8;
  const plot: Box = {
    left: 3.4 * small,
    right: frame.width - 3.6 * small,
    top: rowGaps + 6,
    bottom: frame.height - bottomAxisRoom(small),
  };
  const x = scaleLinear(gapDomain(data), [plot.left, plot.right]);
  const y = scaleLinear(valueDomain(series, band), [plot.bottom, plot.top]);

  const ground = add(svg, "g", { "aria-hidden": "true" });
  const words = isPrinted ? add(svg, "g", { "aria-hidden": "true" }) : ground;
  // What a label should keep clear of; of the chosen gap's line only where it stays, or labels would jump as it is dragged.
  const upright = (at: number): Point[] => [
    [at, plot.top],
    [at, plot.bottom],
  ];
  const runs = series.map(({ samples }) =>
    corners(
      samples.map(({ gapMm }) => x(gapMm)),
      samples.map(({ value }) => (value === null ? Number.NaN : y(value))),
    ),
  );
  const lines: Point[][] = [
    ...runs.flat(),
    upright(x(sweep.referenceGapMm)),
    ...(isPrinted ? [-6, 6].map((beside) => upright(x(data.chosenGapMm) + beside)) : []),
  ];
  drawBand(ground, words, plot, y, band, quantity.unit, small, lines);
  bottomAxis(
    ground,
    x,
    plot,
    lengthTicks(x, ticks, frame.unit, clamp(Math.floor((plot.right - plot.left) / 60), 2, 8)).map(
      ({ mm, text }) => ({
        value: mm,
        text,
      }),
    ),
    `gap, ${frame.unit}`,
    small,
  );
  const valueTicks = y.ticks(clamp(Math.floor((plot.bottom - plot.top) / 36), 2, 7));
  leftAxis(
    ground,
    y,
    plot,
    valueTicks.map((value) => ({ value, text: tickText(value, true) })),
    small,
  );
  rule(ground, [plot.left, y(0)], [plot.right, y(0)], colour("hairline"));
  write(ground, title, 0, large, { size: large, weight: 600 });
  write(ground, quantity.axis, 0, rowAxis, { size: small, fill: colour("muted") });
  write(ground, noun, frame.width - 2, rowAxis, { size: small, anchor: "end", fill: colour("muted") });
  if (quantity.rule) drawRule(words, quantity.rule, plot, y, band, small, lines);

  const drawn = add(svg, "g", {
    "aria-hidden": "true",
    "stroke-linejoin": "round",
    "stroke-linecap": "round",
  });
  series.forEach(({ n }, i) => {
    add(drawn, "path", {
      "data-resonance": `${n}`,
      d: curvePath(runs[i]),
      stroke: resonanceColour(n),
      "stroke-width": n === highlight ? 3 : 1.5,
    });
  });
  labelEnds(drawn, series, x, y, plot, small, highlight);

  const still = svg.childElementCount;
  const mark = ({ chosenGapMm, cursorGapMm }: Gaps) => {
    drawGaps(svg, { ...data, chosenGapMm }, x, plot, rowGaps, small, frame.unit);
    for (const { n, samples } of series) {
      const value = valueAt(samples, chosenGapMm);
      if (value === null) continue;
      add(svg, "circle", {
        cx: x(chosenGapMm),
        cy: y(value),
        r: n === highlight ? 4.5 : 2.75,
        fill: n === highlight ? colour("gap") : colour("paper"),
        stroke: colour("gap"),
        "stroke-width": 1.5,
        "pointer-events": "none",
      });
    }
    if (cursorGapMm !== undefined)
      drawCursor(svg, quantity, series, cursorGapMm, highlight, x, y, plot, small, frame.unit);
  };
  mark(data);
  if (isPrinted) svg.append(words);
  const move: GapDrawing["move"] = (gaps) => {
    while (svg.childElementCount > still) svg.lastElementChild!.remove();
    mark(gaps);
    svg.querySelector("desc")!.textContent = describe(
      quantity,
      { ...data, ...gaps },
      series,
      band,
      frame.unit,
    );
  };
  return { svg, x, y, plot, move };
}

export function gapTable<Mode extends { readonly n: number }>(
  quantity: Quantity<Mode>,
  { sweep }: Pick<GapChartData<Mode>, "sweep">,
  unit: LengthUnit,
): Table {
  const numbers = sweep.reference.map(({ n }) => n);
  const { noun = "resonance" } = quantity;
  const hasSlide = noun === "resonance";
  return {
    columns: [
      `gap (${unit})`,
      ...(hasSlide ? [`slide drawn (${unit})`] : []),
      ...numbers.map((n) => `${noun} ${n}: ${quantity.axis.replace(/, .*$/, "")} (${quantity.unit})`),
    ],
    rows: sweep.rows.map((row) => [
      inUnit(row.gapMm, unit),
      ...(hasSlide ? [inUnit(row.slideMm, unit)] : []),
      ...numbers.map((n) => quantityOf(quantity, row, n) ?? ""),
    ]),
  };
}

function gapDomain<Mode extends { readonly n: number }>({
  sweep,
  chosenGapMm,
  domainMm,
}: GapChartData<Mode>): [number, number] {
  const [low, high] =
    domainMm ??
    (extent([...sweep.rows.map(({ gapMm }) => gapMm), sweep.referenceGapMm, chosenGapMm]) as [
      number,
      number,
    ]);
  return low < high ? [low, high] : [low, low + 1];
}

function valueDomain(series: readonly Series[], band: number): [number, number] {
  const values = series.flatMap(({ samples }) => samples.map(({ value }) => value ?? 0));
  const [low, high] = [Math.min(0, ...values), Math.max(0, ...values)];
  const room = 0.06 * (high - low);
  return [Math.min(-1.45 * band, low - room), Math.max(1.45 * band, high + room)];
}
