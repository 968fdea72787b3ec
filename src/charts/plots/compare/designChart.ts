/** How a search for a leadpipe goes: what is left of the misses after every step, start by start. */
import { scaleLinear, scaleLog } from "d3";
import { bottomAxis, bottomAxisRoom, leftAxis } from "../../kit/axes.ts";
import {
  add,
  type Box,
  type Drawing,
  type Frame,
  rule,
  sheet,
  type Table,
  typeSizes,
  write,
} from "../../kit/drawing.ts";
import { type Figure, proportional } from "../../kit/figure.ts";
import { tickText } from "../../kit/numbers.ts";
import { colour } from "../../kit/tokens.ts";

export interface DesignStep {
  readonly start: number;
  readonly of: number;
  readonly step: number;
  readonly miss: number;
  readonly best: number;
}

/** Below this nothing is heard, and a logarithm must end somewhere. */
const LEAST = 1e-3;

export function designChart(steps: readonly DesignStep[], frame: Frame): Drawing {
  const { small, large } = typeSizes(frame);
  const svg = sheet(frame, {
    name: "design-chart",
    title: "What is left of the goal's misses, step by step",
    description: describe(steps),
  });
  const plot: Box = {
    left: 4.2 * small,
    right: frame.width - 10,
    top: large + small + 22,
    bottom: frame.height - bottomAxisRoom(small),
  };
  const shown = (miss: number) => Math.max(LEAST, miss);
  const misses = steps.map(({ miss }) => shown(miss));
  const [low, high] = steps.length > 0 ? [Math.min(...misses), Math.max(...misses)] : [0.1, 10];
  const x = scaleLinear([1, Math.max(2, steps.length)], [plot.left, plot.right]);
  const y = scaleLog([low / 1.3, 1.3 * high], [plot.bottom, plot.top]);
  write(svg, "The search, step by step", 0, large, { size: large, weight: 600 });
  write(svg, "left of the misses, cents or dB", 0, large + small + 8, { size: small, fill: colour("muted") });
  leftAxis(
    svg,
    y,
    plot,
    logTicks(low / 1.3, 1.3 * high).map((value) => ({ value, text: tickText(value) })),
    small,
    true,
  );
  bottomAxis(
    svg,
    x,
    plot,
    x
      .ticks(6)
      .filter(Number.isInteger)
      .map((value) => ({ value, text: `${value}` })),
    "step",
    small,
  );
  const starts = [...new Set(steps.map(({ start }) => start))];
  for (const start of starts) {
    const own = steps.flatMap((step, i) => (step.start === start ? [{ ...step, at: i + 1 }] : []));
    if (start > 1)
      rule(svg, [x(own[0].at - 0.5), plot.top], [x(own[0].at - 0.5), plot.bottom], colour("hairline"));
    const points = own.map(({ at, miss }) => `${x(at).toFixed(1)},${y(shown(miss)).toFixed(1)}`);
    add(svg, "path", {
      "data-start": `${start}`,
      d: `M${points.join("L")}${points.length === 1 ? "Z" : ""}`,
      stroke: colour("ink"),
      "stroke-width": 1.5,
      "stroke-linecap": "round",
    });
    write(svg, `${start}`, x(own[0].at) + 3, plot.top + small, { size: small, fill: colour("muted") });
  }
  if (steps.length > 0) {
    const { best } = steps[steps.length - 1];
    rule(svg, [plot.left, y(shown(best))], [plot.right, y(shown(best))], colour("gap"), 2);
    write(
      svg,
      `best ${best < LEAST ? `under ${LEAST}` : Number(best.toPrecision(3))}`,
      plot.right - 4,
      y(shown(best)) - 5,
      {
        size: small,
        anchor: "end",
        fill: colour("gap"),
        weight: 600,
        halo: true,
      },
    );
  }
  return { svg, x, y, plot };
}

function logTicks(low: number, high: number): number[] {
  const decades = Array.from({ length: 8 }, (_, i) => 10 ** (i - 3));
  const all = decades.flatMap((ten) => [ten, 2 * ten, 5 * ten]);
  return all.filter((value) => value >= low && value <= high);
}

export const designTable = (steps: readonly DesignStep[]): Table => ({
  columns: ["start", "step", "left of the misses (cents or dB)", "best so far"],
  rows: steps.map(({ start, step, miss, best }) => [start, step, miss, best]),
});

function describe(steps: readonly DesignStep[]): string {
  const last = steps.at(-1);
  if (!last) return "No step has been taken yet.";
  return `${steps.length} steps, start ${last.start} of ${last.of}; from ${steps[0].miss.toPrecision(3)} to ${last.best.toPrecision(3)} cents or dB at best.`;
}

export const designFigure: Figure<readonly DesignStep[]> = {
  name: "design-steps",
  label: "The search, step by step",
  about:
    "Every step the search took. It begins with the present leadpipe and then with others, since a goal may have several valleys; " +
    "the numbers on top are the starts. What is left is the weighted root mean square of the misses, of pitch in cents, of heights in dB.",
  caption: () => "Orange: the best so far.",
  height: proportional(0.45, 220, 300),
  draw: designChart,
  table: designTable,
};
