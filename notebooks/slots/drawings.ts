/** The graphs of lips on an air column: what it takes to begin, what begins where, how much the gap moves it. */
import type { Drawing, Frame, Table } from "../../src/charts/kit/drawing.ts";
import type { TokenName } from "../../src/charts/kit/tokens.ts";
import type { SlotChange } from "../../src/study/feel/slotChange.ts";
import { bothUnits, signed } from "../../src/words/numbers.ts";
import { HOLD_FINDING } from "../../src/words/verdicts/findings.ts";
import { note, noteMark, noteName } from "../paper/demo.ts";
import { plot } from "../paper/plot.ts";
import { type Beginning, lipRange, notes, type Stretch, type ThresholdCurve } from "./lipsOnColumn.ts";

const toneOf = (n: number): TokenName => `series-${Math.min(9, Math.max(1, n - 1))}`;
const lipTicks = [200, 300, 400, 500, 600, 800, 1000, 1200];

const lipAxis = { title: "lip frequency, Hz", domain: lipRange, log: true, ticks: lipTicks } as const;

/** Thresholds of all notes over the lips' frequency; on the line of the chosen pressure, what begins. */
export function mapPlot(
  curves: readonly ThresholdCurve[],
  stretches: readonly Stretch[],
  chosen: Beginning,
  mouthPressure: number,
  frame: Frame,
): Drawing {
  return plot(
    {
      name: "threshold-map",
      title: "What it takes to begin",
      description: `Easiest starts: ${curves
        .flatMap(({ n, easiest }) =>
          easiest
            ? [
                `${note(n)} at ${(easiest.mouthPressure / 1000).toFixed(2)} kPa, lips at ${easiest.lipHz.toFixed(0)} Hz`,
              ]
            : [],
        )
        .join(
          "; ",
        )}. At ${(mouthPressure / 1000).toFixed(1)} kPa these begin: ${stretches.map(({ n }) => note(n)).join(", ")}.`,
      x: lipAxis,
      y: { title: "pressure in the mouth, kPa", domain: [1.5, 20], log: true, ticks: [2, 3, 5, 10, 20] },
      lines: [
        ...curves.map(({ n, lipHz, pascals }) => ({
          xs: lipHz,
          ys: pascals.map((pa) => (pa <= 20e3 ? pa / 1000 : Number.NaN)),
          colour: toneOf(n),
        })),
        {
          xs: [...lipRange],
          ys: [mouthPressure / 1000, mouthPressure / 1000],
          colour: "hairline" as const,
        },
        ...stretches.map(({ beginnings }) => ({
          xs: [beginnings[0].lipHz, beginnings[beginnings.length - 1].lipHz],
          ys: [mouthPressure / 1000, mouthPressure / 1000],
          colour: "gap" as const,
          width: 7,
        })),
      ],
      labels: curves.flatMap(({ n, easiest }) =>
        easiest
          ? [
              {
                x: easiest.lipHz,
                y: (easiest.mouthPressure / 1000) * 0.83,
                text: noteMark(n),
                colour: toneOf(n),
              },
            ]
          : [],
      ),
      marks: [{ x: chosen.lipHz, text: `lips at ${chosen.lipHz.toFixed(0)} Hz` }],
    },
    frame,
  );
}

export const mapTable = (curves: readonly ThresholdCurve[]): Table => ({
  columns: ["partial", "note", "easiest start (kPa)", "with the lips at (Hz)", "it begins at (Hz)"],
  rows: curves.map(({ n, easiest }) =>
    easiest
      ? [n, noteName(n), easiest.mouthPressure / 1000, easiest.lipHz, easiest.frequencyHz]
      : [n, noteName(n), "", "", ""],
  ),
});

/** What sounds against what the lips want: a staircase, whose treads are the slots. */
export function staircasePlot(stretches: readonly Stretch[], chosen: Beginning, frame: Frame): Drawing {
  return plot(
    {
      name: "staircase",
      title: "What begins to sound",
      description: stretches
        .map(({ n, beginnings }) => {
          const [first, last] = [beginnings[0], beginnings[beginnings.length - 1]];
          return `${note(n)} from lips at ${first.lipHz.toFixed(0)} to ${last.lipHz.toFixed(0)} Hz, sounding ${first.soundsHz.toFixed(0)} to ${last.soundsHz.toFixed(0)} Hz`;
        })
        .join("; "),
      x: lipAxis,
      y: {
        title: "sounds at, Hz",
        domain: [200, 1400],
        log: true,
        ticks: [200, 300, 400, 500, 600, 800, 1000, 1200],
      },
      lines: [
        { xs: lipRange, ys: lipRange, colour: "muted", width: 1 },
        ...stretches.map(({ n, beginnings }) => ({
          xs: beginnings.map(({ lipHz }) => lipHz),
          ys: beginnings.map(({ soundsHz }) => soundsHz),
          colour: toneOf(n),
          width: 4,
        })),
      ],
      labels: [
        ...stretches.map(({ n, beginnings }) => {
          const middle = beginnings[Math.floor(beginnings.length / 2)];
          return { x: middle.lipHz, y: middle.soundsHz, text: noteMark(n), colour: toneOf(n) };
        }),
      ],
      points:
        chosen.n === null
          ? []
          : [
              {
                xs: [chosen.lipHz],
                ys: [chosen.soundsHz],
                colour: "gap" as const,
                shape: "dot" as const,
                size: 5,
              },
            ],
      marks: [{ x: chosen.lipHz, text: `lips at ${chosen.lipHz.toFixed(0)} Hz` }],
      key: [
        { text: "the note that grows fastest", colour: "series-5", sign: "line" },
        { text: "as the lips alone would", colour: "muted", sign: "line" },
      ],
    },
    frame,
  );
}

/** Change of hold by the gap, note by note: with the usual lips, and between all lips tried. */
export function lipsPlot(
  { notes: changes, chosenGapMm, referenceGapMm, noticedCents }: SlotChange,
  frame: Frame,
): Drawing {
  const held = changes.flatMap(({ n, slotWidthCents }) => (slotWidthCents ? [{ n, ...slotWidthCents }] : []));
  const most = Math.max(2 * noticedCents, ...held.flatMap(({ range }) => range.map(Math.abs)));
  return plot(
    {
      name: "hold-over-lips",
      title: "Change of slot width",
      description: `From ${bothUnits(referenceGapMm, "mm")} to ${bothUnits(chosenGapMm, "mm")}: ${held
        .map(
          ({ n, change, range }) =>
            `${note(n)} ${signed(change, 1)} cents, ${range.map((end) => signed(end, 1)).join(" to ")} over all lips tried`,
        )
        .join("; ")}.`,
      x: {
        title: "note",
        domain: [notes[0] - 0.5, notes[notes.length - 1] + 0.5],
        ticks: notes,
        text: noteMark,
      },
      y: { title: "cents", domain: [-1.15 * most, 1.15 * most] },
      bands: [{ from: -noticedCents, to: noticedCents }],
      lines: [
        { xs: [notes[0] - 0.5, notes[notes.length - 1] + 0.5], ys: [0, 0], colour: "hairline", width: 1 },
        ...held.map(({ n, range }) => ({ xs: [n, n], ys: range, colour: "ink" as const, width: 2.5 })),
      ],
      points: [
        {
          xs: held.map(({ n }) => n),
          ys: held.map(({ change }) => change),
          colour: "gap",
          shape: "dot",
          size: 5,
        },
      ],
      key: [
        { text: "with the usual lips", colour: "gap", sign: "dot" },
        { text: "from least to most over all lips tried", colour: "ink", sign: "line" },
        { text: "hatched: too small to notice", colour: "feel", sign: "line" },
      ],
    },
    frame,
  );
}

export const lipsTable = ({ notes: changes }: SlotChange): Table => ({
  columns: ["partial", "note", "change of slot width (cents)", "least", "most", "finding"],
  rows: changes.map(({ n, slotWidthCents, finding }) => [
    n,
    noteName(n),
    slotWidthCents?.change ?? "",
    slotWidthCents?.range[0] ?? "",
    slotWidthCents?.range[1] ?? "",
    finding ? HOLD_FINDING[finding] : "",
  ]),
});
