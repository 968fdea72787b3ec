/** The chance to find a difference against the number of repeats, so that nobody plays in vain. */
import { scaleLinear } from "d3";
import { percent } from "../../../words/numbers.ts";
import { bottomAxis, leftAxis } from "../../kit/axes.ts";
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
import { writeWithin } from "../../kit/labels/text.ts";
import { dot } from "../../kit/marks/dot.ts";
import { levelLine, polyline, referenceDash } from "../../kit/marks/line.ts";
import { label, type Panel, plotBox } from "../../kit/panel.ts";
import { tableOf } from "../../kit/table.ts";
import { ticksAt } from "../../kit/ticks.ts";

export interface PowerData {
  readonly powers: readonly { readonly repeats: number; readonly chance: number }[];
  /** As planned; none where it is not among the powers. */
  readonly chosenRepeats: number | null;
  /** The chance that is usually aimed at. */
  readonly aim: number;
  /** What is planned, in words. */
  readonly words: string;
}

export function powerChart({ powers, chosenRepeats, aim, words }: PowerData, frame: Frame): Drawing {
  const { small } = typeSizes(frame);
  const svg = sheet(frame, { name: "power", title: "Chance to find the difference", description: words });
  const left = 14 + textWidth("100 %", small);
  const plot = plotBox(frame, { left, right: 14, top: 2 * small + 10 });
  const [first, last] = [powers[0].repeats, powers[powers.length - 1].repeats];
  const x = scaleLinear([first, Math.max(first + 1, last)], [plot.left + 14, plot.right - 14]);
  const y = scaleLinear([0, 1], [plot.bottom, plot.top]);
  const on: Panel = { parent: svg, x, y, plot, size: small };
  leftAxis(on, ticksAt([0, 0.25, 0.5, 0.75, 1], percent), true);
  label(on, "chance to find it", 0, small, { fill: "muted" });
  levelLine(on, aim, "reference", 1.5, referenceDash);
  const aimText = `${percent(aim)}, the usual aim`;
  label(on, aimText, plot.left + 6, y(aim) - 5, { fill: "reference", halo: true });
  const points = powers.map(({ repeats, chance }): Point => [x(repeats), y(chance)]);
  add(svg, "path", { d: polyline(points), stroke: "ink", "stroke-width": 1.5 });
  powers.forEach(({ repeats, chance }, i) => {
    const isChosen = repeats === chosenRepeats;
    const [cx, cy] = points[i];
    dot(svg, [cx, cy], isChosen ? 6 : 3.5, isChosen ? "gap" : "ink");
    if (!isChosen) return;
    rule(svg, [cx, cy], [cx, plot.bottom], "gap", 1.5);
    const style = { size: small, fill: "gap", weight: 600, halo: true } as const;
    writeWithin(svg, percent(chance), cx, cy - 10, [plot.left + 4, plot.right], style);
  });
  const marks = powers.map(({ repeats }) => repeats);
  bottomAxis(on, ticksAt(marks), "repeats");
  return { svg, x, y, plot };
}

export const powerTable = ({ powers }: PowerData): Table =>
  tableOf(powers, [
    ["repeats", ({ repeats }) => repeats],
    ["chance to find the difference", ({ chance }) => chance],
  ]);

export const powerFigure: Figure<PowerData> = {
  name: "trial-power",
  label: "Chance to find the difference",
  about:
    "Simulated trials of a player whose ratings scatter as given: the share in which the difference is found. The best and the " +
    "worst lie that far apart and all others midway, which is the hardest case.",
  caption: () => "More repeats find smaller differences.",
  height: proportional(0.5, 220, 300),
  followsHand: false,
  draw: powerChart,
  table: powerTable,
};
