/** The graphs of the notebook on resistance: the stream's pressure against flow and gap, and how well it is known. */
import type { Drawing, Frame, Table } from "../../src/charts/kit/drawing.ts";
import type { Resistance } from "../../src/study/blown/resistance.ts";
import { bothUnits, signed } from "../../src/words/numbers.ts";
import { mostGapMm } from "../paper/demo.ts";
import { plot } from "../paper/plot.ts";
import { flowRange, part } from "./stream.ts";

const pascals = (value: number): string => `${value < 10 ? value.toFixed(2) : value.toFixed(0)} Pa`;

/** Whole, cup and gap against the flow, all on logarithms: a straight line is a power of the flow. */
export function flowPlot(curve: readonly Resistance[], chosen: Resistance, frame: Frame): Drawing {
  const xs = curve.map(({ litresPerMinute }) => litresPerMinute);
  const line = (of: (one: Resistance) => number) => ({ xs, ys: curve.map(of) });
  return plot(
    {
      name: "drop-against-flow",
      title: "Pressure against flow",
      description: `At ${chosen.litresPerMinute} L/min ${pascals(chosen.dropPa.estimate)} from rim to room, ${pascals(chosen.gap.dropPa.estimate)} of it at the gap.`,
      x: { title: "flow, L/min", domain: flowRange, log: true, ticks: [5, 10, 20, 30, 40, 60] },
      y: {
        title: "pressure drop, Pa",
        domain: [0.001, 10000],
        log: true,
        ticks: [0.001, 0.01, 0.1, 1, 10, 100, 1000, 10000],
      },
      lines: [
        { name: "whole", ...line(({ dropPa }) => dropPa.estimate), colour: "ink", width: 2.5 },
        { name: "cup", ...line((one) => part(one, "cup").dropPa), colour: "muted" },
        { name: "backbore", ...line((one) => part(one, "backbore").dropPa), colour: "muted" },
        { name: "leadpipe", ...line((one) => part(one, "leadpipe").dropPa), colour: "muted" },
        { name: "gap", ...line(({ gap }) => gap.dropPa.estimate), colour: "gap", width: 2.5 },
        { name: "gap, most", ...line(({ gap }) => gap.dropPa.upper), colour: "gap", width: 1 },
        { name: "gap, least", ...line(({ gap }) => gap.dropPa.lower), colour: "gap", width: 1 },
      ],
      marks: [{ x: chosen.litresPerMinute, text: `${chosen.litresPerMinute} L/min` }],
    },
    frame,
  );
}

export const flowCurveTable = (curve: readonly Resistance[]): Table => ({
  columns: ["flow (L/min)", "whole (Pa)", "cup (Pa)", "gap, least (Pa)", "gap (Pa)", "gap, most (Pa)"],
  rows: curve.map((one) => [
    one.litresPerMinute,
    one.dropPa.estimate,
    part(one, "cup").dropPa,
    one.gap.dropPa.lower,
    one.gap.dropPa.estimate,
    one.gap.dropPa.upper,
  ]),
});

/** The gap's three figures against the gap. */
export function figuresPlot(sweep: readonly Resistance[], chosen: Resistance, frame: Frame): Drawing {
  const xs = sweep.map(({ gapMm }) => gapMm);
  const { lower, estimate, upper } = chosen.gap.dropPa;
  const most = Math.max(...sweep.map(({ gap }) => gap.dropPa.upper));
  return plot(
    {
      name: "gap-figures",
      title: "What the jet loses at the gap",
      description: `At ${bothUnits(chosen.gapMm, "mm")} and ${chosen.litresPerMinute} L/min: ${pascals(lower)} if all of the jet is caught, ${pascals(estimate)} as it spreads, ${pascals(upper)} if none is.`,
      x: { title: "gap, mm", domain: [0, mostGapMm] },
      y: { title: "pressure drop, Pa", domain: [0, 1.12 * most] },
      lines: [
        { name: "none caught", xs, ys: sweep.map(({ gap }) => gap.dropPa.upper), colour: "ink" },
        {
          name: "as it spreads",
          xs,
          ys: sweep.map(({ gap }) => gap.dropPa.estimate),
          colour: "gap",
          width: 2.5,
        },
        { name: "all caught", xs, ys: sweep.map(({ gap }) => gap.dropPa.lower), colour: "ink" },
      ],
      marks: [{ x: chosen.gapMm, text: bothUnits(chosen.gapMm, "mm") }],
      points: [{ xs: [chosen.gapMm], ys: [estimate], colour: "gap", shape: "dot" }],
    },
    frame,
  );
}

export const figuresTable = (sweep: readonly Resistance[]): Table => ({
  columns: [
    "gap (mm)",
    "all caught (Pa)",
    "as it spreads (Pa)",
    "none caught (Pa)",
    "whole, rim to room (Pa)",
  ],
  rows: sweep.map(({ gapMm, gap, dropPa }) => [
    gapMm,
    gap.dropPa.lower,
    gap.dropPa.estimate,
    gap.dropPa.upper,
    dropPa.estimate,
  ]),
});

/** The whole over the gap with the gap's three figures, in the band that the throat's edge leaves it. */
export function doubtPlot(sweep: readonly Resistance[], chosen: Resistance, frame: Frame): Drawing {
  const xs = sweep.map(({ gapMm }) => gapMm);
  const { estimate } = chosen.dropPa;
  const { dropPa: edge } = chosen.throatEdge;
  const [from, to] = [estimate - edge.estimate + edge.lower, estimate - edge.estimate + edge.upper];
  const by = (figure: "lower" | "estimate" | "upper") =>
    sweep.map(({ dropPa, gap }) => dropPa.estimate - gap.dropPa.estimate + gap.dropPa[figure]);
  return plot(
    {
      name: "doubt",
      title: "The whole drop at every gap, and how well it is known",
      description: `From ${pascals(from)} with a well rounded edge at the throat to ${pascals(to)} with a sharp one; all gaps together move it by ${pascals(spanOf(sweep))}.`,
      x: { title: "gap, mm", domain: [0, mostGapMm] },
      y: { title: "rim to room, Pa", domain: [0, 1.1 * to] },
      bands: [{ from, to, text: "the throat’s edge, round to sharp" }],
      lines: [
        { name: "none caught", xs, ys: by("upper"), colour: "ink", width: 1 },
        { name: "as it spreads", xs, ys: by("estimate"), colour: "gap", width: 2.5 },
        { name: "all caught", xs, ys: by("lower"), colour: "ink", width: 1 },
      ],
      marks: [{ x: chosen.gapMm, text: bothUnits(chosen.gapMm, "mm") }],
    },
    frame,
  );
}

/** From the least to the most that any gap of the sweep loses, by any of the figures, Pa. */
export const spanOf = (sweep: readonly Resistance[]): number =>
  Math.max(...sweep.map(({ gap }) => gap.dropPa.upper)) -
  Math.min(...sweep.map(({ gap }) => gap.dropPa.lower));

/** Reynolds numbers down the bore, part by part, and what kind of stream they stand for. */
export function reynoldsPlot({ parts, litresPerMinute }: Resistance, frame: Frame): Drawing {
  const rows = parts.filter((one) => one.part !== "bell");
  return plot(
    {
      name: "reynolds",
      title: "Reynolds number, from rim to bell",
      description: `At ${litresPerMinute} L/min: ${rows.map((one) => `${one.part} ${one.reynolds.map((re) => re.toFixed(0)).join(" to ")}`).join(", ")}. Handbooks' losses are for 10 000 and more.`,
      x: {
        title: "Reynolds number",
        domain: [100, 40000],
        log: true,
        ticks: [100, 1000, 2300, 10000],
        text: (value) => value.toLocaleString("en").replaceAll(",", " "),
      },
      y: {
        title: "",
        domain: [rows.length - 0.5, -0.5],
        ticks: rows.map((_, i) => i),
        text: (i) => rows[i]?.part ?? "",
      },
      lines: rows.map((one, i) => ({
        xs:
          one.reynolds[0] === one.reynolds[1]
            ? [0.94 * one.reynolds[0], 1.06 * one.reynolds[1]]
            : one.reynolds,
        ys: [i, i],
        colour: one.part === "gap" ? "gap" : "ink",
        width: 7,
      })),
      marks: [
        { x: 2300, text: "laminar", colour: "muted" },
        { x: 10000, text: "handbook", colour: "reference" },
      ],
    },
    frame,
  );
}

/** A change with its sign and unit: small ones keep a digit that is not 0. */
export const changePa = (value: number): string => `${signed(value, Math.abs(value) < 1 ? 2 : 1)} Pa`;
