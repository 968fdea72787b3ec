/** How a search for a leadpipe goes: what is left of the misses after every step, start by start. */
import { scaleLinear, scaleLog } from "d3";
import { bottomAxis, leftAxis } from "../../kit/axes.ts";
import { add, type Drawing, type Frame, sheet, type Table, typeSizes } from "../../kit/drawing.ts";
import { type Figure, proportional } from "../../kit/figure.ts";
import { heading } from "../../kit/labels/text.ts";
import { levelLine, polyline, uprightLine } from "../../kit/marks/line.ts";
import { label, type Panel, plotBox } from "../../kit/panel.ts";
import { tableOf } from "../../kit/table.ts";
import { ticksAt } from "../../kit/ticks.ts";

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
  const plot = plotBox(frame, { left: 4.2 * small, right: 10, top: large + small + 22 });
  const shown = (miss: number) => Math.max(LEAST, miss);
  const misses = steps.map(({ miss }) => shown(miss));
  const [low, high] = steps.length > 0 ? [Math.min(...misses), Math.max(...misses)] : [0.1, 10];
  const x = scaleLinear([1, Math.max(2, steps.length)], [plot.left, plot.right]);
  const y = scaleLog([low / 1.3, 1.3 * high], [plot.bottom, plot.top]);
  const on: Panel = { parent: svg, x, y, plot, size: small };
  heading(svg, "The search, step by step", large);
  label(on, "left of the misses, cents or dB", 0, large + small + 8, { fill: "muted" });
  leftAxis(on, ticksAt(logTicks(low / 1.3, 1.3 * high)), true);
  bottomAxis(on, ticksAt(x.ticks(6).filter(Number.isInteger)), "step");
  for (const start of new Set(steps.map((step) => step.start))) {
    const own = steps.flatMap((step, i) => (step.start === start ? [{ ...step, at: i + 1 }] : []));
    if (start > 1) uprightLine(on, own[0].at - 0.5, "hairline");
    add(svg, "path", {
      "data-start": `${start}`,
      d: polyline(own.map(({ at, miss }) => [x(at), y(shown(miss))])),
      stroke: "ink",
      "stroke-width": 1.5,
      "stroke-linecap": "round",
    });
    label(on, `${start}`, x(own[0].at) + 3, plot.top + small, { fill: "muted" });
  }
  if (steps.length > 0) {
    const { best } = steps[steps.length - 1];
    levelLine(on, shown(best), "gap", 2);
    const words = `best ${best < LEAST ? `under ${LEAST}` : Number(best.toPrecision(3))}`;
    const style = { anchor: "end", fill: "gap", weight: 600, halo: true } as const;
    label(on, words, plot.right - 4, y(shown(best)) - 5, style);
  }
  return { svg, x, y, plot };
}

function logTicks(low: number, high: number): number[] {
  const decades = Array.from({ length: 8 }, (_, i) => 10 ** (i - 3));
  const all = decades.flatMap((ten) => [ten, 2 * ten, 5 * ten]);
  return all.filter((value) => value >= low && value <= high);
}

export const designTable = (steps: readonly DesignStep[]): Table =>
  tableOf(steps, [
    ["start", ({ start }) => start],
    ["step", ({ step }) => step],
    ["left of the misses (cents or dB)", ({ miss }) => miss],
    ["best so far", ({ best }) => best],
  ]);

function describe(steps: readonly DesignStep[]): string {
  const last = steps.at(-1);
  if (!last) return "No step has been taken yet.";
  return `${steps.length} steps, start ${last.start} of ${last.of}; from ${steps[0].miss.toPrecision(3)} to ${last.best.toPrecision(3)} cents or dB at best.`;
}

export const designFigure: Figure<readonly DesignStep[]> = {
  name: "design-steps",
  label: "The search, step by step",
  about:
    "Every step the search took. It begins with your leadpipe and then with others, since a goal may have several valleys; " +
    "the numbers on top are the starts. What is left is the weighted root mean square of the misses, of pitch in cents, of heights in dB.",
  caption: () => "Orange: the best so far.",
  height: proportional(0.45, 220, 300),
  draw: designChart,
  table: designTable,
};
