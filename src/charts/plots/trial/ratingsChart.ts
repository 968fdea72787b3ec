/**
 * What a player said of each gap or each named thing: a dot a repeat, the mean with its interval; and where gaps were told
 * apart, the curve of preference with its band and the gap it is highest at.
 */
import { scaleLinear, scalePoint, ticks } from "d3";
import { formatLength } from "../../../units/formatLength.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { bothUnits } from "../../../words/numbers.ts";
import { bottomAxis, type Tick } from "../../kit/axes.ts";
import { corners, curvePath } from "../../kit/curve.ts";
import {
  add,
  type Box,
  clamp,
  type Drawing,
  type Frame,
  type Point,
  polygonPath,
  px,
  rule,
  type Scale,
  sheet,
  type Table,
  textWidth,
  typeSizes,
  write,
} from "../../kit/drawing.ts";
import { type Figure, proportional } from "../../kit/figure.ts";
import { inUnit, lengthTicks } from "../../kit/numbers.ts";
import { colour } from "../../kit/tokens.ts";
import { type RatingScale, ratingAxis, ratingPlot } from "./ratingScale.ts";

type Interval = readonly [low: number, high: number];

export interface RatedItem {
  readonly label: string;
  /** Of all items or of none. */
  readonly gapMm: number | null;
  /** In the order of the repeats. */
  readonly ratings: readonly number[];
  readonly mean: number;
  readonly interval: Interval;
}

export interface RatedCurve {
  readonly points: readonly {
    readonly gapMm: number;
    readonly rating: number;
    readonly interval: Interval;
  }[];
  readonly bestGapMm: number;
  readonly intervalMm: Interval;
}

export interface RatingsData {
  readonly scale: RatingScale;
  readonly items: readonly RatedItem[];
  /** null where none may be drawn: the items are no gaps, or were not told apart. */
  readonly curve: RatedCurve | null;
  /** The finding. */
  readonly words: string;
}

const dotPx = 4;
/** Dots of one item stand side by side, by repeat, within so much to each side, px. */
const sidePx = 16;

export function ratingsChart(data: RatingsData, frame: Frame): Drawing {
  const { small } = typeSizes(frame);
  const { items, curve, scale } = data;
  const svg = sheet(frame, {
    name: "ratings",
    title: `${scale.name} of what was played`,
    description: `${data.words} ${items.map(describe).join(" ")}`,
  });
  const plot = ratingPlot(frame, 14, curve ? small + 14 : 0);
  const y = ratingAxis(svg, frame, plot, scale);
  const { x, marks, title } = across(items, plot, frame.unit);
  if (curve) drawCurve(svg, curve, x, y, plot, frame.unit, small);
  const room = items.length > 1 ? (0.4 * (plot.right - plot.left)) / items.length : sidePx;
  items.forEach((item, i) => {
    drawItem(svg, item, x(item.gapMm ?? i), y, Math.min(sidePx, room));
  });
  bottomAxis(svg, x, plot, fitting(marks, x, small), title, small);
  return { svg, x, y, plot };
}

/** Gaps stand where they are, names side by side. */
function across(
  items: readonly RatedItem[],
  { left, right }: Box,
  unit: LengthUnit,
): { x: Scale; marks: readonly Tick[]; title: string } {
  const gapsMm = items.flatMap(({ gapMm }) => gapMm ?? []);
  const inset = sidePx + dotPx + 4;
  if (gapsMm.length === items.length) {
    const x = scaleLinear([Math.min(...gapsMm), Math.max(...gapsMm)], [left + inset, right - inset]);
    const marks = lengthTicks(x, ticks, unit, Math.max(2, Math.floor((right - left) / 80)));
    return { x, marks: marks.map(({ mm, text }) => ({ value: mm, text })), title: `gap (${unit})` };
  }
  const places = scalePoint(
    items.map((_, i) => i),
    [left, right],
  ).padding(0.5);
  const x = scaleLinear([0, Math.max(1, items.length - 1)], [places(0)!, places(items.length - 1)!]);
  return { x, marks: items.map(({ label }, value) => ({ value, text: label })), title: "" };
}

/** Names are cut to the room between two. */
function fitting(marks: readonly Tick[], x: Scale, size: number): Tick[] {
  const room = marks.length > 1 ? x(marks[1].value) - x(marks[0].value) - 6 : Infinity;
  const most = Math.max(2, Math.floor(room / textWidth("n", size)));
  return marks.map((mark) =>
    mark.text.length > most ? { ...mark, text: `${mark.text.slice(0, most - 1)}…` } : mark,
  );
}

function drawItem(
  svg: SVGSVGElement,
  { label, ratings, mean, interval: [low, high] }: RatedItem,
  at: number,
  y: Scale,
  side: number,
): void {
  ratings.forEach((rating, repeat) => {
    const away = ratings.length > 1 ? (2 * repeat) / (ratings.length - 1) - 1 : 0;
    const dot = add(svg, "circle", {
      class: "rating",
      cx: at + side * away,
      cy: y(rating),
      r: dotPx,
      fill: colour("paper"),
      stroke: colour("muted"),
      "stroke-width": 1.5,
    });
    add(dot, "title", {}, `${label}, repeat ${repeat + 1}: ${Math.round(rating)}`);
  });
  const ends = [y(clamp(low, 0, 100)), y(clamp(high, 0, 100))];
  rule(svg, [at, ends[0]], [at, ends[1]], colour("ink"), 1.5);
  for (const end of ends) rule(svg, [at - 4, end], [at + 4, end], colour("ink"), 1.5);
  rule(svg, [at - 10, y(mean)], [at + 10, y(mean)], colour("ink"), 3);
}

function drawCurve(
  svg: SVGSVGElement,
  { points, bestGapMm, intervalMm }: RatedCurve,
  x: Scale,
  y: Scale,
  plot: Box,
  unit: LengthUnit,
  size: number,
): void {
  const within = (rating: number) => y(clamp(rating, 0, 100));
  const band: Point[] = [
    ...points.map(({ gapMm, interval }): Point => [x(gapMm), within(interval[1])]),
    ...[...points].reverse().map(({ gapMm, interval }): Point => [x(gapMm), within(interval[0])]),
  ];
  add(svg, "path", { "data-part": "band", d: polygonPath(band), fill: colour("gap"), "fill-opacity": 0.12 });
  const line = corners(
    points.map(({ gapMm }) => x(gapMm)),
    points.map(({ rating }) => within(rating)),
  );
  add(svg, "path", { "data-part": "curve", d: curvePath(line), stroke: colour("gap"), "stroke-width": 2.5 });
  const bar = plot.top - 8;
  const [low, high] = intervalMm.map((mm) => x(mm));
  rule(svg, [low, bar], [high, bar], colour("gap"), 2);
  for (const end of [low, high]) rule(svg, [end, bar - 4], [end, bar + 4], colour("gap"), 2);
  rule(svg, [x(bestGapMm), bar], [x(bestGapMm), plot.bottom], colour("gap"), 1.5);
  add(svg, "circle", { cx: px(x(bestGapMm)), cy: bar, r: 4, fill: colour("gap") });
  const text = `best about ${formatLength(bestGapMm, unit, unit === "mm" ? 1 : 3)}`;
  const half = textWidth(text, size) / 2;
  write(svg, text, clamp(x(bestGapMm), plot.left + half, plot.right - half), bar - 9, {
    size,
    anchor: "middle",
    fill: colour("gap"),
    weight: 600,
    halo: true,
  });
}

const describe = ({ label, ratings, mean }: RatedItem): string =>
  `${label}: mean ${Math.round(mean)}, ratings ${ratings.map((one) => Math.round(one)).join(", ")}.`;

/** Every rating that is drawn. */
export const ratingsTable = ({ items, scale }: RatingsData, unit: LengthUnit): Table => ({
  columns: ["item", `gap (${unit})`, "repeat", scale.name.toLowerCase()],
  rows: items.flatMap(({ label, gapMm, ratings }) =>
    ratings.map((rating, i) => [label, gapMm === null ? "" : inUnit(gapMm, unit), i + 1, rating]),
  ),
});

/** What an item is called on the sheet: its name, or its gap in both units. */
export const itemLabel = (
  { name, gapMm }: { readonly name: string; readonly gapMm: number | null },
  unit: LengthUnit,
) => (gapMm === null ? name : bothUnits(gapMm, unit));

export const ratingsFigure: Figure<RatingsData> = {
  name: "trial-ratings",
  label: "What was said of each",
  about:
    "Rings: the ratings, from left to right by repeat. The thick line is their mean, the thin one its 95 % interval. The curve " +
    "is the parabola that fits best, its band 95 % at each gap, the bar above it where the preferred gap lies with 95 % " +
    "confidence; it is drawn only where preference was told apart.",
  caption: () => "Each ring is one turn, the thick line the mean of all repeats.",
  height: proportional(0.6, 260, 380),
  followsHand: false,
  draw: ratingsChart,
  table: ratingsTable,
};
