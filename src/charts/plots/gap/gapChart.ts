/**
 * What a quantity of each resonance does as the gap changes: the frame that height, shift and spacing share. Two or three notes
 * are lines with a name, the one that stands out and those that go furthest either way; all others are a shaded range. The band
 * of changes too small to notice is always within the scale, however little the lines move: that is the point of the drawing.
 */
import { extent, scaleLinear } from "d3";
import type { InstrumentKind } from "../../../setup/instrumentKind.ts";
import type { Thresholds } from "../../../setup/setup.ts";
import type { ChangedMode } from "../../../study/change/modeChanges.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { noteText } from "../../../words/instruments.ts";
import { bottomAxis, leftAxis } from "../../kit/axes.ts";
import {
  add,
  type Drawing,
  type Frame,
  type Point,
  polygonPath,
  sheet,
  type Table,
  textWidth,
  typeSizes,
} from "../../kit/drawing.ts";
import { END_LABEL_ROOM, endLabels } from "../../kit/labels/endLabels.ts";
import { firstFitting, heading } from "../../kit/labels/text.ts";
import { corners, curvePath } from "../../kit/marks/curve.ts";
import { ring } from "../../kit/marks/dot.ts";
import { levelLine } from "../../kit/marks/line.ts";
import { heightOf, label, type Panel, plotBox, silent, widthOf } from "../../kit/panel.ts";
import { type Column, lengthColumn, tableOf } from "../../kit/table.ts";
import { lengthTicks, marksIn, roundTicks, signedText } from "../../kit/ticks.ts";
import { resonanceColour } from "../../kit/tokens.ts";
import { drawBand, drawRule } from "./gapBand.ts";
import { drawCursor, drawGaps } from "./gapLines.ts";
import { namedOf, rangeAreas } from "./gapRange.ts";
import {
  played,
  type Quantity,
  quantityOf,
  type Series,
  type Swept,
  seriesOf,
  valueAt,
  viewOf,
} from "./gapSeries.ts";
import { describe, rangeWords } from "./gapWords.ts";

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

/** Of the lines that do not stand out: the one that goes furthest up, the one furthest down. Told apart in black and white too. */
const DASHES = ["11 3", "3 4"] as const;
const RANGE_PAINT = "series-3";

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
  const title = noun === "note" ? quantity.title : `${quantity.title}, ${viewOf(sweep, frame.instrument)}`;
  const svg = sheet(frame, {
    name: quantity.name,
    title,
    description: describe(quantity, data, series, band, frame),
    role: "group",
  });

  const rowAxis = large + small + 12;
  const rowGaps = rowAxis + small + 8;
  const plot = plotBox(frame, { left: 3.4 * small, right: END_LABEL_ROOM * small, top: rowGaps + 6 });
  const x = scaleLinear(gapDomain(data), [plot.left, plot.right]);
  const y = scaleLinear(valueDomain(series, band), [plot.bottom, plot.top]);
  const on: Panel = { parent: svg, x, y, plot, size: small };

  const ground = { ...on, parent: silent(svg) };
  const words = silent(svg);
  words.setAttribute("pointer-events", "none");
  // What a label should keep clear of; of the chosen gap's line only where it stays, or labels would jump as it is dragged.
  const upright = (at: number): Point[] => [
    [at, plot.top],
    [at, plot.bottom],
  ];
  const named = namedOf(series, highlight);
  const runs = named.map(({ samples }) =>
    corners(
      samples.map(({ gapMm }) => x(gapMm)),
      samples.map(({ value }) => (value === null ? Number.NaN : y(value))),
    ),
  );
  const ranged = series.filter(({ n }) => n >= played[0] && n <= played[1]);
  const areas = rangeAreas(ranged, (gapMm, value) => [x(gapMm), y(value)]);
  const lines: Point[][] = [
    ...runs.flat(),
    ...areas,
    upright(x(sweep.referenceGapMm)),
    ...(isPrinted ? [-6, 6].map((beside) => upright(x(data.chosenGapMm) + beside)) : []),
  ];
  drawBand(ground, words, band, quantity.unit, lines);
  bottomAxis(ground, lengthTicks(x, frame.unit, marksIn(widthOf(plot), 60, 2, 8)), `gap, ${frame.unit}`);
  leftAxis(ground, roundTicks(y, marksIn(heightOf(plot), 36, 2, 7), signedText));
  levelLine(ground, 0, "hairline");
  heading(ground.parent, title, large);
  label(ground, quantity.axis, 0, rowAxis, { fill: "muted" });
  const room = frame.width - textWidth(quantity.axis, small) - 16;
  const shaded = firstFitting(rangeWords(ranged, frame.instrument), room, small) ?? "note";
  label(ground, shaded, frame.width - 2, rowAxis, { anchor: "end", fill: "muted" });
  if (quantity.rule) drawRule({ ...ground, parent: words }, quantity.rule, band, lines);

  const round = { "stroke-linejoin": "round", "stroke-linecap": "round" };
  const drawn = add(svg, "g", { "aria-hidden": "true", ...round });
  for (const area of areas)
    add(drawn, "path", {
      "data-part": "range",
      d: polygonPath(area),
      fill: RANGE_PAINT,
      "fill-opacity": 0.22,
    });
  named.forEach(({ n }, i) => {
    add(drawn, "path", {
      "data-resonance": `${n}`,
      d: curvePath(runs[i]),
      stroke: resonanceColour(n),
      "stroke-width": n === highlight ? 3 : 2,
      "stroke-dasharray": n === highlight ? undefined : DASHES[i % DASHES.length],
    });
  });
  const ends = named.map(({ n, samples }) => {
    const last = samples.findLast(({ value }) => value !== null)!;
    return { n, x: x(last.gapMm), y: y(last.value!) };
  });
  endLabels({ ...on, parent: drawn }, ends, highlight, frame.instrument);

  // over the line of the chosen gap, which a hand moves through them
  words.remove();
  const still = svg.childElementCount;
  const mark = ({ chosenGapMm, cursorGapMm }: Gaps) => {
    drawGaps(on, { ...data, chosenGapMm }, rowGaps, frame.unit);
    for (const { n, samples } of named) {
      const value = valueAt(samples, chosenGapMm);
      if (value === null) continue;
      const [r, fill] = n === highlight ? [4.5, "gap" as const] : [2.75, "paper" as const];
      const at = ring(svg, [x(chosenGapMm), y(value)], r, "gap", fill);
      at.setAttribute("pointer-events", "none");
    }
    if (cursorGapMm !== undefined) drawCursor(on, quantity, series, cursorGapMm, highlight, frame);
  };
  mark(data);
  svg.append(words);
  const move: GapDrawing["move"] = (gaps) => {
    while (svg.childElementCount > still) svg.lastElementChild!.remove();
    mark(gaps);
    svg.append(words);
    const moved = { ...data, ...gaps };
    svg.querySelector("desc")!.textContent = describe(quantity, moved, series, band, frame);
  };
  return { svg, x, y, plot, move };
}

export function gapTable<Mode extends { readonly n: number }>(
  quantity: Quantity<Mode>,
  { sweep }: Pick<GapChartData<Mode>, "sweep">,
  unit: LengthUnit,
  instrument?: InstrumentKind,
): Table {
  type Row = (typeof sweep.rows)[number];
  const { noun = "resonance", axis, unit: valueUnit } = quantity;
  const of = axis.replace(/, .*$/, "");
  const slide: Column<Row> = lengthColumn("slide drawn", unit, ({ slideMm }) => slideMm);
  return tableOf<Row>(sweep.rows, [
    lengthColumn("gap", unit, ({ gapMm }) => gapMm),
    ...(noun === "resonance" ? [slide] : []),
    ...sweep.reference.map(
      ({ n }): Column<Row> => [
        `${noteText(n, instrument)}: ${of} (${valueUnit})`,
        (row) => quantityOf(quantity, row, n),
      ],
    ),
  ]);
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
