/** The graphs of the notebook: inertance between its limits, its error, the steps apart and together. */
import type { Drawing, Frame, Table } from "../../src/charts/kit/drawing.ts";
import { partOf, type Sample } from "../how-far-to-trust-this/check.ts";
import { plot } from "../paper/plot.ts";
import { curveGapsMm, excessAt, finiteElements, oneStep, stepsAt, twoSteps } from "./limits.ts";

const gapAxis = {
  title: "gap, mm",
  domain: [0.01, 20],
  log: true,
  ticks: [0.01, 0.03, 0.1, 0.3, 1, 3, 10],
} as const;

/** What the two steps add to the plane flow's inertance, from one step to two. */
export const limitsPlot = (gapMm: number, frame: Frame): Drawing =>
  plot(
    {
      name: "limits",
      title: "What the steps add, between one step and two",
      description: `The steps' inertance over density rises from ${oneStep.toFixed(2)} per metre with the gap closed to ${twoSteps.toFixed(2)} where the steps are far apart; at ${gapMm} mm it is ${excessAt(gapMm).toFixed(2)}. Finite elements lie on the curve.`,
      x: gapAxis,
      y: { title: "inertance over density beyond the plane flow's, 1/m", domain: [0, 6] },
      lines: [
        { xs: gapAxis.domain, ys: [oneStep, oneStep], colour: "reference", dashed: true },
        { xs: gapAxis.domain, ys: [twoSteps, twoSteps], colour: "reference", dashed: true },
        { xs: curveGapsMm, ys: curveGapsMm.map(excessAt), colour: "gap", width: 2 },
      ],
      points: [
        {
          xs: finiteElements.map((point) => point.gapMm),
          ys: finiteElements.map(({ excess }) => excess),
          colour: "ink",
          shape: "cross",
          size: 5,
        },
        { xs: [gapMm], ys: [excessAt(gapMm)], colour: "gap", shape: "dot", size: 5 },
      ],
      key: [
        { text: "mode matching", colour: "gap", sign: "line" },
        { text: "finite elements", colour: "ink", sign: "cross" },
        { text: "one step; two separate steps", colour: "reference", sign: "dashes" },
      ],
    },
    frame,
  );

export const limitsTable = (): Table => ({
  columns: ["gap (mm)", "by finite elements (1/m)", "by mode matching (1/m)"],
  rows: finiteElements.map(({ gapMm, excess }) => [gapMm, excess, excessAt(gapMm)]),
});

/** Each step's own inertance, and what they take from one another. */
export function stepsPlot(frame: Frame): Drawing {
  const gaps = curveGapsMm.filter((gapMm) => gapMm >= 0.2);
  const steps = gaps.map(stepsAt);
  return plot(
    {
      name: "steps",
      title: "The two steps, and what they take from one another",
      description:
        "The steps' own inertances level off beyond two millimetres; their mutual part is negative and dies away.",
      x: { ...gapAxis, domain: [0.2, 20], ticks: [0.2, 0.5, 1, 2, 5, 10, 20] },
      y: { title: "inertance over density, 1/m", domain: [-5, 7] },
      lines: [
        { name: "M₁₁, at the shank", xs: gaps, ys: steps.map(({ atShank }) => atShank), colour: "series-9" },
        {
          name: "M₂₂, at the leadpipe",
          xs: gaps,
          ys: steps.map(({ atLeadpipe }) => atLeadpipe),
          colour: "series-4",
        },
        { name: "M₁₂, between them", xs: gaps, ys: steps.map(({ mutual }) => mutual), colour: "gap" },
        { xs: [0.2, 20], ys: [0, 0], colour: "hairline" },
      ],
    },
    frame,
  );
}

export interface ErrorSeries {
  readonly name: string;
  readonly gapsMm: readonly number[];
  readonly samples: readonly Sample[];
}

/** How far the model is from finite elements, with its sign, per cent. */
export const errorPlot = (series: readonly ErrorSeries[], frame: Frame): Drawing =>
  plot(
    {
      name: "gap-error",
      title: "Model less finite elements",
      description: series
        .map(
          ({ name, samples }) =>
            `${name}: ${samples.length} shapes, the worst uses ${Math.round(100 * Math.max(...samples.map(partOf)))} % of what is asked.`,
        )
        .join(" "),
      x: { title: "gap, mm", domain: [0.03, 16], log: true, ticks: [0.05, 0.1, 0.25, 0.5, 1, 2.5, 6, 12] },
      y: { title: "deviation of the region's inertance, %", domain: [-0.2, 0.2] },
      bands: [{ from: -0.1, to: 0.1, text: "0.1 %, the aim" }],
      lines: [{ xs: [0.03, 16], ys: [0, 0], colour: "hairline" }],
      points: series.map(({ gapsMm, samples }, i) => ({
        xs: gapsMm,
        ys: samples.map(({ ours, theirs }) => 100 * (ours / theirs - 1)),
        colour: (["gap", "ink", "reference"] as const)[i],
        shape: (["ring", "cross", "dot"] as const)[i],
      })),
      key: series.map(({ name }, i) => ({
        text: name,
        colour: (["gap", "ink", "reference"] as const)[i],
        sign: (["ring", "cross", "dot"] as const)[i],
      })),
    },
    frame,
  );
