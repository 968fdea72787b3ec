/** The graphs of the layer across the gap: where the notes lie in St, and κ along it. */
import type { Drawing, Frame, Table } from "../../src/charts/kit/drawing.ts";
import { FULLEST, LONGEST_PIPE } from "../../src/flow/gapShear.ts";
import { GAPS_OVER_DIAMETER, REYNOLDS } from "../../src/flow/gapShearTable.ts";
import { bothUnits, signed } from "../../src/words/numbers.ts";
import { note, noteMark, referenceGapMm } from "../paper/demo.ts";
import { type PlotLine, plot } from "../paper/plot.ts";
import {
  givingRange,
  kappaAlong,
  kappaBetween,
  type LayerStream,
  mayGive,
  mostStrouhal,
  type NoteHz,
  PUBLISHED,
  strouhal,
  strouhals,
} from "./layer.ts";

/** One stream across one gap. */
export interface Blown {
  readonly gapMm: number;
  readonly litresPerMinute: number;
  readonly stream: LayerStream;
  readonly notes: readonly NoteHz[];
}

export const strouhalsOf = ({ gapMm, stream, notes }: Blown): readonly number[] =>
  notes.map(({ frequencyHz }) => strouhal(frequencyHz, gapMm, stream.speed));

/** St of every note: the chosen gap and breath, and others of the one or the other beside it. */
export function strouhalPlot(
  chosen: Blown,
  others: readonly Blown[],
  by: "gap" | "breath",
  frame: Frame,
): Drawing {
  const name = ({ gapMm, litresPerMinute }: Blown) =>
    by === "gap" ? `${Number(gapMm.toFixed(2))} mm` : `${litresPerMinute} L`;
  const xs = chosen.notes.map(({ n }) => n);
  // without a gap St is 0, which no logarithm shows
  const isOpen = chosen.gapMm > 0;
  const giving = isOpen ? mayGive(chosen.stream) : null;
  const own = strouhalsOf(chosen);
  const held = by === "gap" ? `${chosen.litresPerMinute} L/min` : bothUnits(chosen.gapMm, "mm");
  const first = xs[0] - 0.5;
  return plot(
    {
      name: `strouhal-by-${by}`,
      title: by === "gap" ? `St of every note at ${held}` : `St of every note over ${held}`,
      description: `${chosen.notes.map(({ n }, i) => `${note(n)} ${own[i].toFixed(2)}`).join(", ")} at ${bothUnits(chosen.gapMm, "mm")} and ${chosen.litresPerMinute} L/min. ${giving ? `The layer may give from St ${giving.from.toFixed(2)} to ${giving.to.toFixed(2)} and takes below.` : "The layer takes everywhere."}`,
      x: { title: "note", domain: [first, xs[xs.length - 1] + 0.5], ticks: xs, text: noteMark },
      y: {
        title: "St = f · gap ÷ U",
        domain: [0.02, 5],
        log: true,
        ticks: [0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5],
      },
      bands: giving ? [{ from: giving.from, to: giving.to, text: "the layer may give" }] : [],
      lines: [
        ...others.map(
          (other): PlotLine => ({
            name: name(other),
            xs,
            ys: strouhalsOf(other),
            colour: by === "gap" && other.gapMm === referenceGapMm ? "reference" : "muted",
            dashed: by === "gap" && other.gapMm === referenceGapMm,
          }),
        ),
        ...(isOpen ? [{ name: name(chosen), xs, ys: own, colour: "gap", width: 2.5 } as const] : []),
      ],
      points: isOpen ? [{ xs, ys: own, colour: "gap", shape: "dot" }] : [],
    },
    frame,
  );
}

export const strouhalTable = (all: readonly Blown[]): Table => ({
  columns: ["gap (mm)", "breath (L/min)", ...all[0].notes.map(({ n }) => note(n))],
  rows: all.map((one) => [one.gapMm, one.litresPerMinute, ...strouhalsOf(one)]),
});

/** κ under the chosen stream, between its thickest and its thinnest layer, with the notes on it. */
export function kappaPlot(chosen: Blown, frame: Frame): Drawing {
  const { stream, notes } = chosen;
  const kappas = kappaAlong(stream);
  const { least, most } = kappaBetween(stream);
  const [low, high] = [Math.min(-0.02, ...least), Math.max(0.05, ...most)];
  const room = 0.22 * (high - low);
  const published = low - 0.62 * room;
  const at = strouhalsOf(chosen);
  const inside = notes.flatMap((one, i) => (at[i] <= mostStrouhal ? [{ ...one, at: at[i] }] : []));
  const on = (x: number): number => kappas[Math.round((x / mostStrouhal) * (kappas.length - 1))];
  const { whistlesFrom, whistlesTo } = PUBLISHED;
  return plot(
    {
      name: "kappa",
      title: "What the layer takes and gives",
      description: `κ at ${bothUnits(chosen.gapMm, "mm")} and ${chosen.litresPerMinute} L/min: at most ${signed(Math.max(...most), 2)}, at least ${signed(Math.min(...least), 2)}. ${inside.map(({ n, at: x }) => `${note(n)} at St ${x.toFixed(2)}: ${signed(on(x), 3)}`).join(", ")}.`,
      x: { title: "St = f · gap ÷ U", domain: [0, mostStrouhal] },
      y: {
        title: "κ: above 0 takes, below 0 gives",
        domain: [low - room, high + 0.5 * room],
        text: (value) => signed(value, 2),
      },
      lines: [
        { xs: [0, mostStrouhal], ys: [0, 0], colour: "hairline", width: 1 },
        { xs: strouhals, ys: most, colour: "ink", width: 1 },
        { xs: strouhals, ys: least, colour: "ink", width: 1 },
        { xs: strouhals, ys: kappas, colour: "gap", width: 2.5 },
        { xs: [whistlesFrom, whistlesTo], ys: [published, published], colour: "reference", width: 6 },
      ],
      points: [
        { xs: inside.map((one) => one.at), ys: inside.map((one) => on(one.at)), colour: "gap", shape: "dot" },
      ],
      labels: [
        ...inside
          .filter(({ at: x }, i) => i === 0 || x - inside[i - 1].at > 0.055)
          .map(({ n, at: x }) => ({ x, y: on(x), text: noteMark(n), colour: "gap" as const })),
        {
          x: (whistlesFrom + whistlesTo) / 2,
          y: published,
          text: "published: pipes whistle",
          colour: "reference" as const,
        },
      ],
      key: [
        { text: "as the layer is estimated, with the notes", colour: "gap", sign: "line" },
        { text: "least and most of all layers, thick to thin", colour: "ink", sign: "line" },
      ],
    },
    frame,
  );
}

export const kappaTable = ({ stream }: Blown): Table => {
  const { least, most } = kappaBetween(stream);
  const kappas = kappaAlong(stream);
  return {
    columns: ["St", "least", "estimate", "most"],
    rows: strouhals.flatMap((at, i) => (i % 5 === 0 ? [[at, least[i], kappas[i], most[i]]] : [])),
  };
};

export const COMPARED = [
  ["layer", "thick and thin layers"],
  ["gap", "gaps"],
  ["reynolds", "Reynolds numbers"],
] as const;
export type Compared = (typeof COMPARED)[number][0];

/** The chosen stream as it would be with another layer, gap or Reynolds number. */
export function variantsOf(
  stream: LayerStream,
  by: Compared,
): readonly { readonly name: string; readonly stream: LayerStream }[] {
  if (by === "layer")
    return [LONGEST_PIPE, 6, FULLEST].map((fullness) => ({
      name: `m ${fullness}`,
      stream: { ...stream, fullness },
    }));
  if (by === "gap")
    return GAPS_OVER_DIAMETER.map((gapOverDiameter) => ({
      name: `${gapOverDiameter} D`,
      stream: { ...stream, gapOverDiameter },
    }));
  return REYNOLDS.map((reynolds) => ({ name: `Re ${reynolds}`, stream: { ...stream, reynolds } }));
}

/** κ of the variants, one shade of a hue each, and where published pipes whistle. */
export function variantsPlot(stream: LayerStream, by: Compared, frame: Frame): Drawing {
  const all = variantsOf(stream, by).map(({ name, stream: one }) => ({ name, ys: kappaAlong(one) }));
  const values = all.flatMap(({ ys }) => ys);
  const [low, high] = [Math.min(-0.02, ...values), Math.max(0.05, ...values)];
  const room = 0.22 * (high - low);
  const published = low - 0.62 * room;
  const { whistlesFrom, whistlesTo } = PUBLISHED;
  return plot(
    {
      name: "kappa-variants",
      title: `κ of ${COMPARED.find(([name]) => name === by)![1]}`,
      description: all
        .map(({ name, ys }) => {
          const giving = givingRange(ys);
          return `${name}: at most ${signed(Math.max(...ys), 2)}, ${giving ? `gives from St ${giving.from.toFixed(2)} to ${giving.to.toFixed(2)}` : "gives nowhere"}`;
        })
        .join("; "),
      x: { title: "St = f · gap ÷ U", domain: [0, mostStrouhal] },
      y: {
        title: "κ: above 0 takes, below 0 gives",
        domain: [low - room, high + 0.2 * room],
        text: (value) => signed(value, 2),
      },
      lines: [
        { xs: [0, mostStrouhal], ys: [0, 0], colour: "hairline", width: 1 },
        ...all.map(({ name, ys }, i) => ({
          name,
          xs: strouhals,
          ys,
          colour: `series-${Math.round(1 + (8 * i) / (all.length - 1))}` as const,
          width: 2.25,
        })),
        { xs: [whistlesFrom, whistlesTo], ys: [published, published], colour: "reference", width: 6 },
      ],
      labels: [
        {
          x: (whistlesFrom + whistlesTo) / 2,
          y: published,
          text: "published: pipes whistle",
          colour: "reference",
        },
      ],
    },
    frame,
  );
}

/** Where each variant takes most and where it gives, beside what is published. */
export const variantsTable = (stream: LayerStream, by: Compared): Table => ({
  columns: ["", "takes most at St", "κ there", "gives from St", "to St", "κ at least"],
  rows: [
    ...variantsOf(stream, by).map(({ name, stream: one }) => {
      const ys = kappaAlong(one);
      const highest = Math.max(...ys);
      const giving = givingRange(ys);
      return [
        name,
        strouhals[ys.indexOf(highest)].toFixed(2),
        signed(highest, 3),
        giving ? giving.from.toFixed(2) : "nowhere",
        giving ? giving.to.toFixed(2) : "–",
        signed(Math.min(...ys), 3),
      ];
    }),
    [
      "published (from memory)",
      "below",
      "–",
      PUBLISHED.whistlesFrom.toFixed(2),
      PUBLISHED.whistlesTo.toFixed(2),
      "–",
    ],
  ],
});
