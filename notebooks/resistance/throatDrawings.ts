/** The graphs of the throat's edge and of the gap under a laminar stream, each beside finite elements. */

import type { Drawing, Frame, Table } from "../../src/charts/kit/drawing.ts";
import type { TokenName } from "../../src/charts/kit/tokens.ts";
import type { Resistance } from "../../src/study/blown/resistance.ts";
import { bothUnits } from "../../src/words/numbers.ts";
import { mostGapMm } from "../paper/demo.ts";
import { plot } from "../paper/plot.ts";
import { addedByElements, addedByGap } from "./laminarGap.ts";
import { cupAndThroat, cupByElements, mostEdgeMm, type overEdges } from "./throat.ts";

const reynoldsText = (value: number): string => value.toLocaleString("en").replaceAll(",", " ");
const spread = (from: number, to: number, count: number): number[] =>
  Array.from({ length: count }, (_, i) => from * (to / from) ** (i / (count - 1)));

/** The whole drop over the radius of the edge, beside all that a gap can do. */
export function edgePlot(
  edges: ReturnType<typeof overEdges>,
  gapSpanPa: number,
  chosenMm: number,
  frame: Frame,
): Drawing {
  const xs = edges.map(({ radiusMm }) => radiusMm);
  const figure = (name: "lower" | "estimate" | "upper") =>
    edges.map(({ drop }) => drop.throatEdge.dropPa[name]);
  const here = edges.find(({ radiusMm }) => Math.abs(radiusMm - chosenMm) < 1e-9) ?? edges[0];
  const { estimate, upper } = here.drop.throatEdge.dropPa;
  return plot(
    {
      name: "throat-edge",
      title: "What the throat’s edge costs",
      description: `Rounded to ${bothUnits(chosenMm, "mm")} the edge takes ${estimate.toFixed(1)} Pa, at most ${upper.toFixed(1)} Pa; gaps of 0 to ${mostGapMm} mm are worth ${gapSpanPa.toFixed(1)} Pa.`,
      x: { title: "radius of the throat’s edge, mm", domain: [0, mostEdgeMm] },
      y: {
        title: "pressure drop at the edge, Pa",
        domain: [0, 1.08 * Math.max(...figure("upper"), gapSpanPa)],
      },
      bands: [{ from: 0, to: gapSpanPa }],
      // where the curves are far above
      labels: [{ x: 0.3 * mostEdgeMm, y: gapSpanPa, text: "all that any gap can do", colour: "muted" }],
      lines: [
        { name: "at most", xs, ys: figure("upper"), colour: "ink", width: 1.5 },
        { name: "estimate", xs, ys: figure("estimate"), colour: "ink", width: 2.5 },
      ],
      points: [{ xs: [chosenMm], ys: [estimate], colour: "gap", shape: "dot" }],
      marks: [{ x: chosenMm, text: `${chosenMm.toFixed(2)} mm` }],
    },
    frame,
  );
}

export const edgeTable = (edges: ReturnType<typeof overEdges>): Table => ({
  columns: ["radius of the edge (mm)", "at the edge (Pa)", "at most (Pa)", "rim to room (Pa)"],
  rows: edges.map(({ radiusMm, drop }) => [
    radiusMm,
    drop.throatEdge.dropPa.estimate,
    drop.throatEdge.dropPa.upper,
    drop.dropPa.estimate,
  ]),
});

const cupReynolds = spread(300, 16000, 120);

/** Rim to the throat's end against Reynolds number, from sharp to rounded, with what finite elements find. */
export function cupPlot({ parts, litresPerMinute }: Resistance, frame: Frame): Drawing {
  const curve = cupReynolds.map(cupAndThroat);
  const [here] = parts.find(({ part }) => part === "throat")!.reynolds;
  const crosses = (radius: number, colour: TokenName, shape: "cross" | "ring") => {
    const rows = cupByElements.filter(({ radiusMm }) => radiusMm === radius);
    return {
      xs: rows.map(({ reynolds }) => reynolds),
      ys: rows.map(({ loss }) => loss),
      colour,
      shape,
    };
  };
  return plot(
    {
      name: "cup-stream",
      title: "From the rim to the throat’s end",
      description: `Loss over the dynamic pressure in the throat: at Re ${here.toFixed(0)}, ${litresPerMinute} L/min, between ${cupAndThroat(here).lower.toFixed(2)} and ${cupAndThroat(here).upper.toFixed(2)}, estimated ${cupAndThroat(here).estimate.toFixed(2)}. Finite elements end at Re ${Math.max(...cupByElements.map(({ reynolds }) => reynolds))}.`,
      x: {
        title: "Reynolds number in the throat",
        domain: [300, 16000],
        log: true,
        ticks: [300, 1000, 2300, 4000, 10000],
        text: reynoldsText,
      },
      y: { title: "loss ÷ ½ρu² in the throat", domain: [0, 1] },
      lines: [
        { name: "sharp", xs: cupReynolds, ys: curve.map(({ upper }) => upper), colour: "ink", width: 1 },
        {
          name: "estimate",
          xs: cupReynolds,
          ys: curve.map(({ estimate }) => estimate),
          colour: "gap",
          width: 2.5,
        },
        { name: "round", xs: cupReynolds, ys: curve.map(({ lower }) => lower), colour: "ink", width: 1 },
      ],
      points: [crosses(0, "ink", "cross"), crosses(1, "ink", "ring")],
      marks: [{ x: here, text: `${litresPerMinute} L/min` }],
      key: [
        { text: "computed here", colour: "gap", sign: "line" },
        { text: "finite elements, edge as drawn", colour: "ink", sign: "cross" },
        { text: "rounded to 1 mm", colour: "ink", sign: "ring" },
      ],
    },
    frame,
  );
}

export const cupTable: Table = {
  columns: ["radius of the edge (mm)", "Reynolds number", "finite elements", "least", "computed", "most"],
  rows: cupByElements.map(({ radiusMm, reynolds, loss }) => {
    const { lower, estimate, upper } = cupAndThroat(reynolds);
    return [radiusMm, reynolds, loss, lower, estimate, upper];
  }),
};

const gapReynolds = spread(320, 3200, 60);
const gapsOverDiameter = [...new Set(addedByElements.map(({ gapOverDiameter }) => gapOverDiameter))];
const profiles = [...new Set(addedByElements.map(({ fullness }) => fullness))].sort((a, b) => a - b);
const [longPipe] = profiles;
const fullest = profiles[profiles.length - 1];

/** What the gap adds to a laminar stream, gap by gap. */
export function laminarGapPlot(frame: Frame): Drawing {
  const of = (wanted: number) => addedByElements.filter(({ fullness }) => fullness === wanted);
  const signs = (wanted: number, shape: "cross" | "ring") => ({
    xs: of(wanted).map(({ reynolds }) => reynolds),
    ys: of(wanted).map(({ loss }) => loss),
    colour: "ink" as const,
    shape,
    size: 3.5,
  });
  return plot(
    {
      name: "laminar-gap",
      title: "What a gap adds to a laminar stream",
      description: `Loss over the dynamic pressure for gaps of ${gapsOverDiameter.join(", ")} of the bore: the friction of a wall as long, or a little less; finite elements lie on it for a long pipe’s profile below Re 2300 and above it for a fuller one.`,
      x: {
        title: "Reynolds number in the shank’s end",
        domain: [300, 3300],
        log: true,
        ticks: [320, 640, 1290, 2200, 3200],
        text: reynoldsText,
      },
      y: {
        title: "loss ÷ ½ρU²",
        domain: [0.001, 0.3],
        log: true,
        ticks: [0.001, 0.01, 0.1],
      },
      lines: gapsOverDiameter.map((gap) => ({
        name: `${gap} D`,
        xs: gapReynolds,
        ys: gapReynolds.map((reynolds) => addedByGap(gap, reynolds).estimate),
        colour: "gap" as const,
      })),
      points: [signs(longPipe, "cross"), signs(fullest, "ring")],
      key: [
        { text: "computed here", colour: "gap", sign: "line" },
        { text: "finite elements, a long pipe’s profile", colour: "ink", sign: "cross" },
        { text: "a nearly flat one", colour: "ink", sign: "ring" },
      ],
    },
    frame,
  );
}

export const laminarGapTable: Table = {
  columns: ["gap ÷ bore", "Reynolds number", "profile m", "finite elements", "computed", "most"],
  rows: addedByElements.map(({ gapOverDiameter, reynolds, fullness, loss }) => {
    const { estimate, upper } = addedByGap(gapOverDiameter, reynolds);
    return [gapOverDiameter, reynolds, fullness, loss, estimate, upper];
  }),
};
