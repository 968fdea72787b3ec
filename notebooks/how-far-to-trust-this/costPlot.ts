/** Time against size, both over the smallest, on logarithmic scales: a cost that is straight runs along the dashed line or below it. */
import type { Drawing, Frame, Table } from "../../src/charts/kit/drawing.ts";
import { type PlotPoints, plot } from "../paper/plot.ts";
import { type Cost, exponent } from "./cost.ts";

const MOST = 32;
const POWERS = [1, 2, 4, 8, 16, 32];
/** Told apart without their colours too. */
const LOOKS: readonly Pick<PlotPoints, "colour" | "shape">[] = [
  { colour: "ink", shape: "dot" },
  { colour: "gap", shape: "dot" },
  { colour: "reference", shape: "dot" },
  { colour: "muted", shape: "cross" },
  { colour: "ink", shape: "cross" },
];

export function costPlot(costs: readonly Cost[], frame: Frame): Drawing {
  const shown = costs.filter(({ seconds }) => seconds.length > 1);
  const over = (values: readonly number[]) => values.map((value) => value / values[0]);
  const lines = shown.map(({ name, sizes, seconds }, i) => ({
    name,
    xs: over(sizes),
    ys: over(seconds),
    ...LOOKS[i % LOOKS.length],
  }));
  return plot(
    {
      name: "cost",
      title: "Time as the work grows",
      description: describe(shown),
      x: { title: "size of the work over the smallest", domain: [1, MOST], log: true, ticks: POWERS },
      y: {
        title: "time over that of the smallest",
        domain: [0.5, Math.max(2 * MOST, ...lines.flatMap(({ ys }) => ys))],
        log: true,
        ticks: POWERS,
      },
      lines: [{ xs: [1, MOST], ys: [1, MOST], colour: "muted", dashed: true, width: 1.5 }, ...lines],
      points: lines.map((line) => ({ ...line, size: 3.5 })),
      key: [{ text: "straight: twice the work, twice the time", colour: "muted", sign: "dashes" }],
    },
    frame,
  );
}

/** Every timing in figures. */
export const costTable = (costs: readonly Cost[]): Table => ({
  columns: [
    "work",
    "of",
    "from",
    "to",
    "ms at the smallest",
    "ms at the largest",
    "time grows as size to the power",
  ],
  rows: costs
    .filter(({ seconds }) => seconds.length > 1)
    .map((cost) => [
      cost.name,
      cost.of,
      cost.sizes[0],
      cost.sizes[cost.seconds.length - 1],
      rounded(1000 * cost.seconds[0]),
      rounded(1000 * cost.seconds[cost.seconds.length - 1]),
      exponent(cost).toFixed(2),
    ]),
});

const rounded = (value: number): string => `${Number(value.toPrecision(3))}`;

const describe = (costs: readonly Cost[]): string =>
  costs
    .map(
      (cost) =>
        `${cost.name}: ${cost.sizes[0]} to ${cost.sizes[cost.seconds.length - 1]} ${cost.of}, time as size to the power ${exponent(cost).toFixed(2)}.`,
    )
    .join(" ") || "Nothing is timed yet.";
