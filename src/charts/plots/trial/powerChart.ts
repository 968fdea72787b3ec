/** The chance to find a difference against the number of repeats, so that nobody plays in vain. */
import { scaleLinear } from "d3";
import { percent } from "../../../words/numbers.ts";
import { bottomAxis, bottomAxisRoom, leftAxis } from "../../kit/axes.ts";
import { curvePath } from "../../kit/curve.ts";
import {
  add,
  clamp,
  type Drawing,
  type Frame,
  type Point,
  referenceDash,
  rule,
  sheet,
  type Table,
  textWidth,
  typeSizes,
  write,
} from "../../kit/drawing.ts";
import { type Figure, proportional } from "../../kit/figure.ts";
import { colour } from "../../kit/tokens.ts";

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
  const plot = {
    left: 14 + textWidth("100 %", small),
    right: frame.width - 14,
    top: 2 * small + 10,
    bottom: frame.height - bottomAxisRoom(small),
  };
  const [first, last] = [powers[0].repeats, powers[powers.length - 1].repeats];
  const x = scaleLinear([first, Math.max(first + 1, last)], [plot.left + 14, plot.right - 14]);
  const y = scaleLinear([0, 1], [plot.bottom, plot.top]);
  const marks = [0, 0.25, 0.5, 0.75, 1].map((value) => ({ value, text: percent(value) }));
  leftAxis(svg, y, plot, marks, small, true);
  write(svg, "chance to find it", 0, small, { size: small, fill: colour("muted") });
  rule(svg, [plot.left, y(aim)], [plot.right, y(aim)], colour("reference"), 1.5, referenceDash);
  write(svg, `${percent(aim)}, the usual aim`, plot.left + 6, y(aim) - 5, {
    size: small,
    fill: colour("reference"),
    halo: true,
  });
  const points = powers.map(({ repeats, chance }): Point => [x(repeats), y(chance)]);
  add(svg, "path", { d: curvePath([points]), stroke: colour("ink"), "stroke-width": 1.5 });
  powers.forEach(({ repeats, chance }, i) => {
    const isChosen = repeats === chosenRepeats;
    const [cx, cy] = points[i];
    add(svg, "circle", { cx, cy, r: isChosen ? 6 : 3.5, fill: colour(isChosen ? "gap" : "ink") });
    if (!isChosen) return;
    rule(svg, [cx, cy], [cx, plot.bottom], colour("gap"), 1.5);
    const text = percent(chance);
    const half = textWidth(text, small) / 2;
    write(svg, text, clamp(cx, plot.left + half + 4, plot.right - half), cy - 10, {
      size: small,
      anchor: "middle",
      fill: colour("gap"),
      weight: 600,
      halo: true,
    });
  });
  bottomAxis(
    svg,
    x,
    plot,
    powers.map(({ repeats }) => ({ value: repeats, text: `${repeats}` })),
    "repeats",
    small,
  );
  return { svg, x, y, plot };
}

export const powerTable = ({ powers }: PowerData): Table => ({
  columns: ["repeats", "chance to find the difference"],
  rows: powers.map(({ repeats, chance }) => [repeats, chance]),
});

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
