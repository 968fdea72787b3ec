/**
 * What a player said of each gap or each named thing: a dot a repeat, the mean with its interval; and where gaps were told
 * apart, the curve of preference with its band and the gap it is highest at.
 */
import { scaleLinear, scalePoint } from "d3";
import { formatLength } from "../../../units/formatLength.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { bothUnits } from "../../../words/numbers.ts";
import { bottomAxis } from "../../kit/axes.ts";
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
} from "../../kit/drawing.ts";
import { type Figure, proportional } from "../../kit/figure.ts";
import { shortened, writeWithin } from "../../kit/labels/text.ts";
import { dot, ring } from "../../kit/marks/dot.ts";
import { intervalBar } from "../../kit/marks/intervalBar.ts";
import { line } from "../../kit/marks/line.ts";
import { type Panel, widthOf } from "../../kit/panel.ts";
import { lengthColumn, tableOf } from "../../kit/table.ts";
import { lengthTicks, marksIn, type Tick } from "../../kit/ticks.ts";
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
  const on: Panel = { parent: svg, x, y, plot, size: small };
  if (curve) drawCurve(on, curve, frame.unit);
  const room = items.length > 1 ? (0.4 * widthOf(plot)) / items.length : sidePx;
  items.forEach((item, i) => {
    drawItem(on, item, x(item.gapMm ?? i), Math.min(sidePx, room));
  });
  bottomAxis(on, fitting(marks, x, small), title);
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
    const marks = lengthTicks(x, unit, marksIn(right - left, 80, 2));
    return { x, marks, title: `gap (${unit})` };
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
  return marks.map((mark) => ({ ...mark, text: shortened(mark.text, most) }));
}

function drawItem(
  { parent, y }: Panel,
  { label: name, ratings, mean, interval }: RatedItem,
  at: number,
  side: number,
): void {
  ratings.forEach((rating, repeat) => {
    const away = ratings.length > 1 ? (2 * repeat) / (ratings.length - 1) - 1 : 0;
    const mark = ring(parent, [at + side * away, y(rating)], dotPx, "muted", "paper", { class: "rating" });
    add(mark, "title", {}, `${name}, repeat ${repeat + 1}: ${Math.round(rating)}`);
  });
  const [low, high] = interval.map((rating) => y(clamp(rating, 0, 100)));
  intervalBar(parent, { ends: [low, high], at, cap: 4, isUpright: true }, "ink");
  rule(parent, [at - 10, y(mean)], [at + 10, y(mean)], "ink", 3);
}

function drawCurve(
  { parent, x, y, plot, size }: Panel,
  { points, bestGapMm, intervalMm }: RatedCurve,
  unit: LengthUnit,
): void {
  const within = (rating: number) => y(clamp(rating, 0, 100));
  const edge = (end: 0 | 1) => points.map(({ gapMm, interval }): Point => [x(gapMm), within(interval[end])]);
  const band = polygonPath([...edge(1), ...edge(0).reverse()]);
  add(parent, "path", { "data-part": "band", d: band, fill: "gap", "fill-opacity": 0.12 });
  line(
    parent,
    points,
    ({ gapMm }) => x(gapMm),
    ({ rating }) => within(rating),
    { "data-part": "curve", stroke: "gap", "stroke-width": 2.5 },
  );
  const bar = plot.top - 8;
  const best = x(bestGapMm);
  intervalBar(parent, { ends: [x(intervalMm[0]), x(intervalMm[1])], at: bar, cap: 4 }, "gap", 2);
  rule(parent, [best, bar], [best, plot.bottom], "gap", 1.5);
  dot(parent, [best, bar], 4, "gap");
  const text = `best about ${formatLength(bestGapMm, unit, unit === "mm" ? 1 : 3)}`;
  const style = { size, fill: "gap", weight: 600, halo: true } as const;
  writeWithin(parent, text, best, bar - 9, [plot.left, plot.right], style);
}

const describe = ({ label, ratings, mean }: RatedItem): string =>
  `${label}: mean ${Math.round(mean)}, ratings ${ratings.map((one) => Math.round(one)).join(", ")}.`;

/** Every rating that is drawn. */
export const ratingsTable = ({ items, scale }: RatingsData, unit: LengthUnit): Table =>
  tableOf(
    items.flatMap((item) => item.ratings.map((rating, i) => ({ ...item, rating, repeat: i + 1 }))),
    [
      ["item", ({ label: name }) => name],
      lengthColumn("gap", unit, ({ gapMm }) => gapMm),
      ["repeat", ({ repeat }) => repeat],
      [scale.name.toLowerCase(), ({ rating }) => rating],
    ],
  );

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
