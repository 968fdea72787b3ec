/** Whether a player says the same again: the ratings of each item from repeat to repeat. Level lines agree, crossing ones do not. */
import { scaleLinear } from "d3";
import { bottomAxis } from "../../kit/axes.ts";
import {
  add,
  type Drawing,
  type Frame,
  type Point,
  rule,
  sheet,
  type Table,
  textWidth,
  typeSizes,
} from "../../kit/drawing.ts";
import { type Figure, proportional } from "../../kit/figure.ts";
import { spread } from "../../kit/labels/spread.ts";
import { shortened } from "../../kit/labels/text.ts";
import { dot } from "../../kit/marks/dot.ts";
import { polyline } from "../../kit/marks/line.ts";
import { label, type Panel } from "../../kit/panel.ts";
import { ticksAt } from "../../kit/ticks.ts";
import { resonanceColour } from "../../kit/tokens.ts";
import { type RatingScale, ratingAxis, ratingPlot } from "./ratingScale.ts";

export interface AgreementData {
  readonly scale: RatingScale;
  /** In order, as the gaps are: the shade follows it. */
  readonly items: readonly { readonly label: string; readonly ratings: readonly number[] }[];
  /** The finding. */
  readonly words: string;
}

const longestLabel = 14;
const lowestShade = 3;

export function agreementChart({ scale, items, words }: AgreementData, frame: Frame): Drawing {
  const { small } = typeSizes(frame);
  const svg = sheet(frame, {
    name: "agreement",
    title: `${scale.name} from repeat to repeat`,
    description: words,
  });
  const labels = items.map((item) => shortened(item.label, longestLabel));
  const plot = ratingPlot(frame, 30 + Math.max(...labels.map((text) => textWidth(text, small))));
  const y = ratingAxis(svg, frame, plot, scale);
  const repeats = items[0].ratings.length;
  const x = scaleLinear([1, Math.max(2, repeats)], [plot.left + 12, plot.right - 8]);
  const on: Panel = { parent: svg, x, y, plot, size: small };
  const places = items.map(({ ratings }) => y(ratings[repeats - 1]));
  const order = places.map((_, i) => i).sort((a, b) => places[a] - places[b]);
  const wanted = order.map((i) => places[i]);
  const spreadPlaces = spread(wanted, small + 2, [plot.top, plot.bottom]);
  order.forEach((item, i) => {
    const stroke = resonanceColour(lowestShade + item);
    const points = items[item].ratings.map((rating, repeat): Point => [x(repeat + 1), y(rating)]);
    add(svg, "path", { class: "item", d: polyline(points), stroke, "stroke-width": 2 });
    for (const point of points) dot(svg, point, 3, stroke);
    rule(svg, [plot.right - 4, places[item]], [plot.right + 10, spreadPlaces[i]], "hairline");
    label(on, labels[item], plot.right + 14, spreadPlaces[i] + 0.36 * small);
  });
  bottomAxis(on, ticksAt(Array.from({ length: repeats }, (_, i) => i + 1)), "repeat");
  return { svg, x, y, plot };
}

export const agreementTable = ({ items }: AgreementData): Table => ({
  columns: ["item", ...(items[0]?.ratings ?? []).map((_, i) => `repeat ${i + 1}`)],
  rows: items.map(({ label, ratings }) => [label, ...ratings]),
});

export const agreementFigure: Figure<AgreementData> = {
  name: "trial-agreement",
  label: "Ratings from repeat to repeat",
  about:
    "A line is one item, from its first repeat to its last. Where the player says the same again the lines stay in their " +
    "order; all of them rising or falling together is a drift, which the tests leave out.",
  caption: () => "Lines that keep their order mean that the player says the same again.",
  height: proportional(0.6, 260, 380),
  followsHand: false,
  draw: agreementChart,
  table: agreementTable,
};
