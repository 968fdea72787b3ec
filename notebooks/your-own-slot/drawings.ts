/** What the notebook draws: what chance alone makes two gaps seem to differ by, and what so many bends can find. */
import type { Drawing, Frame, Table } from "../../src/charts/kit/drawing.ts";
import { plot } from "../paper/plot.ts";
import { MOST_BENDS } from "./believable.ts";

/** A row of crosses, an afternoon each. */
export function seemingPlot(cents: readonly number[], bends: number, frame: Frame): Drawing {
  const most = Math.max(10, Math.ceil(Math.max(...cents.map(Math.abs)) / 10) * 10);
  return plot(
    {
      name: "seeming",
      title: "Two gaps that are alike, measured forty times",
      description: `With ${bends} bends each way at each gap they seem to differ by ${Math.min(...cents.map(Math.abs)).toFixed(1)} to ${Math.max(...cents.map(Math.abs)).toFixed(1)} cents.`,
      x: { title: "afternoon", domain: [0, cents.length + 1] },
      y: { title: "B seems wider than A by, cents", domain: [-most, most] },
      lines: [{ xs: [0, cents.length + 1], ys: [0, 0], colour: "reference", dashed: true }],
      points: [{ xs: cents.map((_, i) => i + 1), ys: cents, colour: "measured", shape: "cross" }],
    },
    frame,
  );
}

export const seemingTable = (cents: readonly number[]): Table => ({
  columns: ["afternoon", "seeming difference (cents)"],
  rows: cents.map((one, i) => [i + 1, one]),
});

interface Known {
  readonly bends: readonly number[];
  readonly cents: readonly number[];
}

export function believablePlot({ bends, cents }: Known, chosen: number, frame: Frame): Drawing {
  const at = cents[bends.indexOf(chosen)];
  // two bends find next to nothing, and would flatten all the rest
  const most = Math.ceil(cents[1] / 20) * 20;
  return plot(
    {
      name: "believable",
      title: "What so many bends can find",
      description: `With ${chosen} bends each way at each gap a difference of ${at.toFixed(0)} cents is found four times in five; with ${MOST_BENDS}, one of ${cents[cents.length - 1].toFixed(0)} cents.`,
      x: { title: "bends each way, at each gap", domain: [2, MOST_BENDS] },
      y: { title: "difference found four times in five, cents", domain: [0, most] },
      lines: [{ xs: bends, ys: cents, colour: "measured", width: 2 }],
      points: at <= most ? [{ xs: [chosen], ys: [at], colour: "gap", shape: "dot", size: 5 }] : [],
      marks: [{ x: chosen, text: `${chosen}: ${at.toFixed(0)} cents` }],
    },
    frame,
  );
}

export const believableTable = ({ bends, cents }: Known): Table => ({
  columns: ["bends each way, at each gap", "difference found (cents)"],
  rows: bends.map((count, i) => [count, cents[i]]),
});
