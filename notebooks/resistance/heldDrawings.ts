/** The graphs of what is held against something: a handbook's values, and the thresholds of two gaps. */
import type { Drawing, Frame, Table } from "../../src/charts/kit/drawing.ts";
import { bothUnits } from "../../src/words/numbers.ts";
import { note, noteMark } from "../paper/demo.ts";
import { plot } from "../paper/plot.ts";
import {
  contractionSeries,
  diffuserSeries,
  frictionLine,
  frictionSeries,
  type HeldSeries,
  worst,
} from "./handbook.ts";
import type { NoteThreshold } from "./threshold.ts";

const key = [
  { text: "computed here", colour: "gap", sign: "line" },
  { text: "from elsewhere", colour: "ink", sign: "cross" },
] as const;

const crosses = ({ rows }: HeldSeries) => ({
  xs: rows.map(({ at }) => at),
  ys: rows.map(({ printed }) => printed),
  colour: "ink" as const,
  shape: "cross" as const,
});

const ours = ({ name, rows }: HeldSeries) => ({
  name,
  xs: rows.map(({ at }) => at),
  ys: rows.map((row) => row.ours),
  colour: "gap" as const,
});

export const frictionPlot = (frame: Frame): Drawing =>
  plot(
    {
      name: "friction",
      title: "Friction factor",
      description: `Darcy's factor against Reynolds number for four roughnesses, at most ${(100 * worst.friction.off).toFixed(4)} % from the roots of Colebrook's equation.`,
      x: {
        title: "Reynolds number",
        domain: [640, 1.25e6],
        log: true,
        ticks: [1000, 1e4, 1e5, 1e6],
        text: power,
      },
      y: { title: "Darcy’s f", domain: [0.01, 0.12], log: true, ticks: [0.01, 0.02, 0.05, 0.1] },
      lines: frictionSeries.map((series, i) => ({
        name: series.name,
        ...frictionLine([0, 0.001, 0.01, 0.05][i]),
        colour: "gap",
      })),
      points: frictionSeries.map((series) => crosses(shown(series))),
      key,
    },
    frame,
  );

const shown = (series: HeldSeries): HeldSeries => ({
  ...series,
  rows: series.rows.filter(({ at }) => at <= 1e6),
});

const power = (value: number): string =>
  value >= 1000 ? value.toLocaleString("en").replaceAll(",", " ") : `${value}`;

export const diffuserPlot = (frame: Frame): Drawing =>
  plot(
    {
      name: "diffuser",
      title: "A bore that widens",
      description: `Loss over the dynamic pressure before, against the whole angle, for three area ratios; the largest distance from the handbook is ${worst.diffuser.off.toFixed(2)}, at ${worst.diffuser.of}.`,
      x: { title: "whole angle, degrees", domain: [0, 90], ticks: [0, 10, 20, 30, 40, 60, 90] },
      y: { title: "loss ÷ ½ρu² before", domain: [0, 1.25] },
      lines: diffuserSeries.map((series) => ours(upTo90(series))),
      points: diffuserSeries.map((series) => crosses(upTo90(series))),
      key,
    },
    frame,
  );

const upTo90 = (series: HeldSeries): HeldSeries => ({
  ...series,
  rows: series.rows.filter(({ at }) => at <= 90),
});

export const contractionPlot = (frame: Frame): Drawing =>
  plot(
    {
      name: "contraction",
      title: "A bore that narrows at once",
      description: `Loss over the dynamic pressure behind, against the ratio of the areas, within ${(100 * worst.contraction.off).toFixed(1)} % of the handbook.`,
      x: { title: "area behind ÷ area before", domain: [0, 1] },
      y: { title: "loss ÷ ½ρu² behind", domain: [0, 0.6] },
      lines: [{ ...ours(contractionSeries), name: "" }],
      points: [crosses(contractionSeries)],
      key,
    },
    frame,
  );

export const heldTable = (series: readonly HeldSeries[], at: string): Table => ({
  columns: ["", at, "printed", "computed"],
  rows: series.flatMap(({ name, rows }) => rows.map((row) => [name, row.at, row.printed, row.ours])),
});

/** Thresholds at both gaps, and under them what the bore takes of each. */
export function thresholdPlot(
  chosen: readonly NoteThreshold[],
  reference: readonly NoteThreshold[],
  gapsMm: { readonly chosen: number; readonly reference: number },
  frame: Frame,
): Drawing {
  const notes = chosen.map(({ n }) => n);
  const kilopascals = (all: readonly NoteThreshold[], of: (one: NoteThreshold) => number) => ({
    xs: all.map(({ n }) => n),
    ys: all.map((one) => of(one) / 1000),
  });
  return plot(
    {
      name: "thresholds",
      title: "Pressure in the mouth that starts each note",
      description: chosen
        .map(
          ({ n, mouthPa, borePa }) =>
            `${note(n)}: ${(mouthPa / 1000).toFixed(2)} kPa, the bore ${borePa.toFixed(0)} Pa`,
        )
        .join("; "),
      x: {
        title: "note",
        domain: [Math.min(...notes) - 0.5, Math.max(...notes) + 0.5],
        ticks: notes,
        text: noteMark,
      },
      y: { title: "kPa", domain: [0, 10] },
      lines: [
        { ...kilopascals(reference, ({ mouthPa }) => mouthPa), colour: "reference", dashed: true },
        { ...kilopascals(chosen, ({ mouthPa }) => mouthPa), colour: "gap" },
        { ...kilopascals(chosen, ({ borePa }) => borePa), colour: "muted" },
      ],
      points: [
        { ...kilopascals(chosen, ({ mouthPa }) => mouthPa), colour: "gap", shape: "dot" },
        { ...kilopascals(chosen, ({ borePa }) => borePa), colour: "muted", shape: "ring" },
      ],
      key: [
        { text: `starting pressure at ${bothUnits(gapsMm.chosen, "mm")}`, colour: "gap", sign: "dot" },
        { text: `at ${bothUnits(gapsMm.reference, "mm")}`, colour: "reference", sign: "dashes" },
        { text: "what the bore takes of it, as a steady stream", colour: "muted", sign: "ring" },
      ],
    },
    frame,
  );
}

export const thresholdTable = (
  chosen: readonly NoteThreshold[],
  reference: readonly NoteThreshold[],
): Table => ({
  columns: [
    "note",
    "starting pressure (Pa)",
    "at the gap compared with (Pa)",
    "flow through the lips (L/min)",
    "drop in the bore (Pa)",
  ],
  rows: chosen.map((note) => [
    note.n,
    note.mouthPa,
    reference.find(({ n }) => n === note.n)?.mouthPa ?? "",
    note.litresPerMinute,
    note.borePa,
  ]),
});
