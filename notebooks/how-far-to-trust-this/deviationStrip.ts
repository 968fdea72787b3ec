/**
 * How far off every value is, as a part of what is asked of it, a row a check: at 1 a test would fail. What agrees to the last
 * digit stands at the left edge.
 */
import { scaleLog } from "d3";
import { bottomAxis } from "../../src/charts/kit/axes.ts";
import {
  add,
  clamp,
  type Drawing,
  type Frame,
  rule,
  sheet,
  textWidth,
  typeSizes,
  write,
} from "../../src/charts/kit/drawing.ts";
import { bottomAxisRoom } from "../../src/charts/kit/panel.ts";
import { ticksAt } from "../../src/charts/kit/ticks.ts";
import { colour } from "../../src/charts/kit/tokens.ts";
import { type Outcome, partOf } from "./check.ts";
import { deviation } from "./words.ts";

const least = 1e-6;
const most = 1.6;

/** Height that a strip of so many checks takes, px. */
export const stripHeight = (checks: number, frame: Pick<Frame, "width">): number => {
  const { small, large } = typeSizes(frame as Frame);
  return large + 12 + checks * rowHeight(small) + bottomAxisRoom(small);
};

const rowHeight = (size: number): number => 2 * size + 18;

export function deviationStrip(outcomes: readonly Outcome[], title: string, frame: Frame): Drawing {
  const { small, large } = typeSizes(frame);
  const svg = sheet(frame, { name: "deviation-strip", title, description: describe(outcomes, title) });
  const figures = outcomes.map(({ worst, unit }) => deviation(worst.off, unit));
  const plot = {
    left: 6,
    right: frame.width - Math.max(...figures.map((text) => textWidth(text, small))) - 10,
    top: large + 12,
    bottom: large + 12 + outcomes.length * rowHeight(small),
  };
  const x = scaleLog([least, most], [plot.left, plot.right]);
  const ground = add(svg, "g", { "aria-hidden": "true" });
  write(ground, title, 0, large, { size: large, weight: 600 });
  for (const power of [-5, -4, -3, -2, -1])
    rule(ground, [x(10 ** power), plot.top], [x(10 ** power), plot.bottom], colour("hairline"));
  rule(ground, [x(1), plot.top], [x(1), plot.bottom], colour("ink"), 1.5);
  bottomAxis(
    { parent: ground, x, plot, size: small },
    ticksAt([1e-5, 1e-4, 1e-3, 1e-2, 0.1, 1], (value) => (value === 1 ? "all" : `${value}`)),
    "part taken of what is asked",
  );
  outcomes.forEach((outcome, i) => {
    const row = plot.top + i * rowHeight(small);
    write(ground, outcome.name, 0, row + small + 2, { size: small, halo: true });
    write(ground, figures[i], frame.width, row + small + 15 + 0.36 * small, {
      size: small,
      anchor: "end",
      fill: colour("gap"),
      weight: 600,
    });
    const cy = row + small + 15;
    rule(ground, [plot.left, cy], [plot.right, cy], colour("hairline"));
    for (const sample of outcome.samples)
      add(ground, "circle", {
        cx: clamp(x(Math.max(least, partOf(sample))), plot.left, plot.right),
        cy,
        r: 3,
        stroke: colour("muted"),
        "stroke-opacity": "0.55",
      });
    add(ground, "circle", {
      cx: clamp(x(Math.max(least, partOf(outcome.worst))), plot.left, plot.right),
      cy,
      r: 4.5,
      fill: colour("gap"),
      stroke: colour("paper"),
    });
  });
  return { svg, x, y: x, plot };
}

const describe = (outcomes: readonly Outcome[], title: string): string =>
  `${title}. ${outcomes
    .map(
      ({ name, worst, unit }) =>
        `${name}: at most ${deviation(worst.off, unit)} of ${deviation(worst.asked, unit)} asked.`,
    )
    .join(" ")}`;
