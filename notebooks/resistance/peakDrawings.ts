/** The graphs of the peaks under breath: what breath does to them, and what a gap does to them still and blown. */
import type { Drawing, Frame, Table } from "../../src/charts/kit/drawing.ts";
import type { BreathEffect } from "../../src/study/blown/breathEffect.ts";
import { bothUnits, signed } from "../../src/words/numbers.ts";
import { demo, note, noteMark } from "../paper/demo.ts";
import { type Plot, plot } from "../paper/plot.ts";
import { playedPeaks } from "./peaks.ts";

const noticed = demo.thresholds.decibels;

const notesAxis = (notes: readonly number[]): Plot["x"] => ({
  title: "note",
  domain: [notes[0] - 0.6, notes[notes.length - 1] + 0.6],
  ticks: notes,
  text: noteMark,
});

const decibelText = (value: number): string => signed(value, 1);

/** From still air to the breath at one gap, each note between its bounds. */
export function breathPlot(effect: BreathEffect, frame: Frame): Drawing {
  const peaks = playedPeaks(effect);
  const notes = peaks.map(({ n }) => n);
  const all = peaks.flatMap(({ breathDb }) => Object.values(breathDb));
  return plot(
    {
      name: "breath-on-peaks",
      title: `What ${effect.litresPerMinute} L/min does to the peaks`,
      description: peaks
        .map(
          ({ n, breathDb: { lower, estimate, upper } }) =>
            `${note(n)}: ${signed(estimate, 2)} dB, between ${signed(upper, 2)} and ${signed(lower, 2)}`,
        )
        .join("; "),
      x: notesAxis(notes),
      y: {
        title: "change of peak height from still air, dB",
        domain: [Math.min(-1.25 * noticed, ...all) - 0.15, Math.max(1.25 * noticed, ...all) + 0.15],
        text: decibelText,
      },
      bands: [{ from: -noticed, to: noticed, text: "too small to notice" }],
      lines: peaks.map(({ n, breathDb: { lower, upper } }) => ({
        xs: [n, n],
        ys: [lower, upper],
        colour: "gap" as const,
        width: 2,
      })),
      points: [
        { xs: notes, ys: peaks.map(({ breathDb }) => breathDb.estimate), colour: "gap", shape: "dot" },
      ],
      key: [
        { text: "estimate", colour: "gap", sign: "dot" },
        { text: "from the least to the most", colour: "gap", sign: "line" },
      ],
    },
    frame,
  );
}

/** From no gap to this one: in still air, and blown between its bounds. */
export function gapEffectPlot(effect: BreathEffect, frame: Frame): Drawing {
  const peaks = playedPeaks(effect);
  const notes = peaks.map(({ n }) => n);
  const all = peaks.flatMap(({ gapStillDb, gapBlownDb }) => [gapStillDb, ...Object.values(gapBlownDb)]);
  const reach = Math.max(1.25 * noticed, ...all.map(Math.abs)) + 0.1;
  return plot(
    {
      name: "gap-still-and-blown",
      title: `From no gap to ${bothUnits(effect.gapMm, "mm")}`,
      description: peaks
        .map(
          ({ n, gapStillDb, gapBlownDb: { estimate } }) =>
            `${note(n)}: ${signed(gapStillDb, 2)} dB in still air, ${signed(estimate, 2)} blown`,
        )
        .join("; "),
      x: notesAxis(notes),
      y: { title: "change of peak height, dB", domain: [-reach, reach], text: decibelText },
      bands: [{ from: -noticed, to: noticed, text: "too small to notice" }],
      lines: peaks.map(({ n, gapBlownDb }) => {
        const values = Object.values(gapBlownDb);
        return {
          xs: [n + 0.12, n + 0.12],
          ys: [Math.min(...values), Math.max(...values)],
          colour: "gap" as const,
          width: 2,
        };
      }),
      points: [
        {
          xs: notes.map((n) => n - 0.12),
          ys: peaks.map(({ gapStillDb }) => gapStillDb),
          colour: "ink",
          shape: "ring",
        },
        {
          xs: notes.map((n) => n + 0.12),
          ys: peaks.map(({ gapBlownDb }) => gapBlownDb.estimate),
          colour: "gap",
          shape: "dot",
        },
      ],
      key: [
        { text: "in still air", colour: "ink", sign: "ring" },
        { text: `blown, ${effect.litresPerMinute} L/min, with its bounds`, colour: "gap", sign: "dot" },
      ],
    },
    frame,
  );
}

export const peakTable = (effect: BreathEffect): Table => ({
  columns: [
    "note",
    "breath, least (dB)",
    "breath (dB)",
    "breath, most (dB)",
    "gap, still (dB)",
    "gap, blown by the least (dB)",
    "gap, blown (dB)",
    "gap, blown by the most (dB)",
  ],
  rows: playedPeaks(effect).map(({ n, breathDb, gapStillDb, gapBlownDb }) => [
    note(n),
    breathDb.lower,
    breathDb.estimate,
    breathDb.upper,
    gapStillDb,
    gapBlownDb.lower,
    gapBlownDb.estimate,
    gapBlownDb.upper,
  ]),
});
