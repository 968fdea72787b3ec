/** The graphs of the notebook: a stage's impedance with the stage before it dashed, and where its resonances lie. */
import type { Drawing, Frame, Table } from "../../src/charts/kit/drawing.ts";
import { signed } from "../../src/words/numbers.ts";
import { noteMark } from "../paper/demo.ts";
import { plot } from "../paper/plot.ts";
import { fromSeries, type Stage, shownHz } from "./stages.ts";

const megaohm = 1e6;

export interface Compared {
  readonly stage: Stage;
  readonly name: string;
  readonly before?: Stage;
  readonly beforeName?: string;
  /** Top of the scale, MPa·s/m³: kept while the reader moves things. */
  readonly most: number;
}

export const impedancePlot = ({ stage, name, before, beforeName, most }: Compared, frame: Frame): Drawing =>
  plot(
    {
      name: "stage-impedance",
      title: "Input impedance at the lips",
      description: `${name}: resonances at ${stage.modes.map(({ frequencyHz }) => frequencyHz.toFixed(0)).join(", ")} Hz.`,
      x: { title: "frequency, Hz", domain: shownHz },
      y: { title: "|Z|, MPa·s/m³", domain: [0, most] },
      lines: [
        ...(before
          ? [
              {
                xs: before.frequencies,
                ys: before.magnitude.map((pa) => pa / megaohm),
                colour: "reference" as const,
                dashed: true,
              },
            ]
          : []),
        { xs: stage.frequencies, ys: stage.magnitude.map((pa) => pa / megaohm), colour: "gap" },
      ],
      key: [
        { text: name, colour: "gap", sign: "line" },
        ...(before
          ? [{ text: beforeName ?? "", colour: "reference" as const, sign: "dashes" as const }]
          : []),
      ],
    },
    frame,
  );

export interface Placed {
  readonly stage: Stage;
  readonly name: string;
}

/** Distance of each resonance from the harmonic series: the notes of a bugle call lie on zero. */
export const seriesPlot = (chosen: Placed, before: readonly Placed[], frame: Frame): Drawing => {
  // the first resonance is far below its place, and no note is blown on it
  const xs = chosen.stage.modes.map(({ n }) => n).slice(1);
  const placesOf = ({ stage }: Placed) => fromSeries(stage.modes).slice(1);
  return plot(
    {
      name: "series",
      title: "How far each resonance lies from a harmonic series",
      description: `${chosen.name}: ${fromSeries(chosen.stage.modes)
        .map((value, i) => `resonance ${i + 1} ${signed(value, 0)}`)
        .join(", ")} cents from the series.`,
      x: { title: "note, as written", domain: [1.8, 10.2], ticks: xs, text: noteMark },
      y: { title: "cents; 100 are a semitone", domain: [-150, 100] },
      lines: [
        { xs: [1.8, 10.2], ys: [0, 0], colour: "hairline" },
        ...before.map((one) => ({ xs, ys: placesOf(one), colour: "reference" as const, dashed: true })),
        { xs, ys: placesOf(chosen), colour: "gap" },
      ],
      points: [{ xs, ys: placesOf(chosen), colour: "gap", shape: "dot" }],
      key: [
        { text: chosen.name, colour: "gap", sign: "dot" },
        ...before.map(({ name }) => ({ text: name, colour: "reference" as const, sign: "dashes" as const })),
      ],
    },
    frame,
  );
};

/** The resonances of stages side by side. */
export const modesTable = (placed: readonly Placed[]): Table => ({
  columns: ["resonance", ...placed.flatMap(({ name }) => [`${name}: Hz`, `${name}: cents from the series`])],
  rows: placed[0].stage.modes.map(({ n }, i) => [
    n,
    ...placed.flatMap(({ stage }) => [
      stage.modes[i].frequencyHz.toFixed(1),
      signed(fromSeries(stage.modes)[i], 0),
    ]),
  ]),
});
