/**
 * One phrase at two gaps with the same movement of the lips: what the lips did, what sounded, and under it by how much the
 * two differ, held against what can be felt.
 */

import { scaleLinear, scaleLog } from "d3";
import type { InstrumentKind } from "../../setup/instrumentKind.ts";
import { isNoticeable } from "../../study/change/judgement.ts";
import type { Performance } from "../../study/feel/phrase.ts";
import { cents } from "../../study/instrument/pitch.ts";
import type { LengthUnit } from "../../units/length.ts";
import { noteLabel, notesText, partialName, writtenPitch } from "../../words/instruments.ts";
import { bothUnits, signed } from "../../words/numbers.ts";
import { bottomAxis, leftAxis } from "../kit/axes.ts";
import {
  type Box,
  clamp,
  type Drawing,
  type Frame,
  sheet,
  type Table,
  typeSizes,
  write,
} from "../kit/drawing.ts";
import { type Figure, proportional } from "../kit/figure.ts";
import { drawKey, type KeyItem } from "../kit/labels/key.ts";
import { levelBand } from "../kit/marks/band.ts";
import { levelLine, line, referenceDash } from "../kit/marks/line.ts";
import { tickText } from "../kit/numbers.ts";
import { label, type Panel, plotBox, silent } from "../kit/panel.ts";
import { tableOf } from "../kit/table.ts";
import { roundTicks, signedText, type Tick, ticksAt } from "../kit/ticks.ts";

export interface PlayedPhrase {
  readonly chosen: Performance;
  readonly reference: Performance;
  /** Difference of pitch from which it counts as felt, cents. */
  readonly feltCents: number;
}

/** Part of the height that the difference has. */
const differenceRoom = 0.28;
/** As fine as frequencies are counted in time, s. */
const momentS = 0.05;
/** Where in its hold a note is labelled, s. */
const labelAfter = 0.45;

export function phraseChart(phrase: PlayedPhrase, frame: Frame): Drawing {
  const { chosen, reference, feltCents } = phrase;
  const { small } = typeSizes(frame);
  const svg = sheet(frame, {
    name: "phrase",
    title: "One phrase at two gaps, the lips moving the same way",
    description: describePhrase(phrase, frame),
  });
  const under = plotBox(frame, { left: 3.4 * small, right: 2.6 * small, top: 0 });
  const plot: Box = {
    ...under,
    top: 2 * small + 8,
    bottom: under.bottom - differenceRoom * frame.height - 2.4 * small,
  };
  const last = chosen.track[chosen.track.length - 1];
  const x = scaleLinear([0, last.seconds], [plot.left, plot.right]);
  const heard = [...chosen.track, ...reference.track].flatMap(({ lipHz, frequencyHz }) => [
    lipHz,
    frequencyHz ?? lipHz,
  ]);
  const y = scaleLog([Math.min(...heard) / 1.04, Math.max(...heard) * 1.04], [plot.bottom, plot.top]);
  const ground: Panel = { parent: silent(svg), x, y, plot, size: small };
  leftAxis(ground, notesHeard(reference, frame.instrument), true);
  drawKey(ground, keyOf(frame), 0, small, { sample: 24, apart: 16 });

  const at = ({ seconds }: Moment) => x(seconds);
  const sounding = ({ frequencyHz }: Moment) => frequencyHz && y(frequencyHz);
  const lips = ({ lipHz }: Moment) => y(lipHz);
  line(svg, chosen.track, at, lips, { "data-part": "lips", stroke: "muted", "stroke-width": 1.25 });
  line(svg, reference.track, at, sounding, {
    "data-part": "reference",
    stroke: "reference",
    "stroke-width": 4,
    "stroke-dasharray": referenceDash,
    "stroke-opacity": "0.75",
  });
  line(svg, chosen.track, at, sounding, {
    "data-part": "chosen",
    stroke: "gap",
    "stroke-width": 2,
    "stroke-linejoin": "round",
  });
  for (const { note, askedAt, frequencyHz } of chosen.spoken)
    if (frequencyHz !== null) {
      const style = { size: small, weight: 600, anchor: "middle", halo: true } as const;
      write(svg, noteLabel(note, frame.instrument), x(askedAt + labelAfter), y(frequencyHz) - 8, style);
    }
  const panel = { ...ground, plot: { ...under, top: plot.bottom + 2.4 * small } };
  drawDifference(panel, differences(phrase), feltCents);
  bottomAxis(panel, roundTicks(x, 6), "time, s");
  return { svg, x, y, plot };
}

export const phraseTable = (phrase: PlayedPhrase, _unit?: LengthUnit, instrument?: InstrumentKind): Table =>
  tableOf(differences(phrase), [
    ["time (s)", ({ at }) => at.seconds],
    ["lips (Hz)", ({ at }) => at.lipHz],
    ["what if sounds (Hz)", ({ at }) => at.frequencyHz],
    ["partial", ({ at }) => at.note],
    ["note", ({ at }) => named(at, instrument)],
    ["compared with sounds (Hz)", ({ other }) => other.frequencyHz],
    ["partial", ({ other }) => other.note],
    ["note", ({ other }) => named(other, instrument)],
    ["difference (cents)", ({ differs }) => differs],
  ]);

/** What a person is to take from it: the largest difference of a held note, and notes that speak at another moment. */
export function phraseFinding(
  { chosen, reference, feltCents }: PlayedPhrase,
  instrument?: InstrumentKind,
): string {
  const pairs = chosen.spoken.map((one, i) => ({ one, other: reference.spoken[i] }));
  const list = (some: typeof pairs) =>
    notesText(
      some.map(({ one }) => one.note),
      instrument,
    );
  const missed = pairs.filter(({ one, other }) => (one.after === null) !== (other.after === null));
  const held = pairs.filter(({ one, other }) => one.frequencyHz !== null && other.frequencyHz !== null);
  if (held.length === 0) return "No note is held at both gaps: there is nothing to compare.";
  const shifts = held.map(({ one, other }) => cents(one.frequencyHz!, other.frequencyHz!));
  const furthest = shifts.reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a));
  const felt = isNoticeable(furthest, feltCents)
    ? `which can be heard (from ${tickText(feltCents)} cents on)`
    : `too small to hear (that is from ${tickText(feltCents)} cents on)`;
  const apart = held.filter(({ one, other }) => Math.abs(one.after! - other.after!) > momentS);
  const speaking = missed.length
    ? `Held at one gap only: ${list(missed)}.`
    : apart.length
      ? `Speaking at another moment: ${list(apart)}.`
      : `Every note speaks at the same moment, to ${momentS} s.`;
  return `Held notes differ by ${signed(furthest, 1)} cents at most, ${felt}. ${speaking}`;
}

type Moment = Performance["track"][number];

interface Difference {
  readonly at: Moment;
  readonly other: Moment;
  /** Cents; null where not both sound the same note. */
  readonly differs: number | null;
}

const differences = ({ chosen, reference }: Pick<PlayedPhrase, "chosen" | "reference">): Difference[] =>
  chosen.track.map((at, i) => {
    const other = reference.track[i];
    const both = at.frequencyHz !== null && other.frequencyHz !== null && at.note === other.note;
    return { at, other, differs: both ? cents(at.frequencyHz!, other.frequencyHz!) : null };
  });

const named = ({ note }: Moment, instrument: InstrumentKind | undefined): string =>
  note === null ? "" : partialName(note, instrument);

/** Equally tempered notes near those that are held, as written. */
function notesHeard({ spoken }: Performance, instrument: InstrumentKind | undefined): Tick[] {
  const notes = spoken.flatMap(({ frequencyHz }) =>
    frequencyHz === null ? [] : [writtenPitch(frequencyHz, instrument)],
  );
  return Array.from(new Map(notes.map(({ name, hz }) => [name, hz])), ([text, value]) => ({ value, text }));
}

function drawDifference(panel: Panel, all: readonly Difference[], felt: number): void {
  const { parent, plot, x } = panel;
  const y = scaleLinear([-3 * felt, 3 * felt], [plot.bottom, plot.top]);
  const on = { ...panel, y };
  levelBand(on, [-felt, felt], { part: "felt" });
  leftAxis(on, ticksAt([-2 * felt, -felt, 0, felt, 2 * felt], signedText));
  levelLine(on, 0, "hairline");
  const title = "what if less compared with, cents; hatched: too small to hear";
  label(on, title, 0, plot.top - 8, { fill: "muted" });
  const within = ({ differs }: Difference) =>
    differs === null ? null : clamp(y(differs), plot.top, plot.bottom);
  line(parent, all, ({ at }) => x(at.seconds), within, {
    "data-part": "difference",
    stroke: "gap",
    "stroke-width": 2,
    "stroke-linejoin": "round",
    "stroke-linecap": "round",
  });
}

const keyOf = ({ width }: Frame): KeyItem[] => [
  {
    text: width < 500 ? "lips" : "the lips’ own pitch",
    line: { stroke: "muted", "stroke-width": 1.25 },
    fill: "muted",
  },
  { text: "what if", line: { stroke: "gap", "stroke-width": 2 }, fill: "gap" },
  {
    text: "compared with",
    line: { stroke: "reference", "stroke-width": 3, "stroke-dasharray": referenceDash },
    fill: "reference",
  },
];

function describePhrase(phrase: PlayedPhrase, { unit, instrument }: Frame): string {
  const { chosen, reference } = phrase;
  const notes = chosen.spoken.map(({ note }) => noteLabel(note, instrument)).join(", ");
  return `Notes ${notes} at gaps of ${bothUnits(chosen.gapMm, unit)} and ${bothUnits(reference.gapMm, unit)}. ${phraseFinding(phrase, instrument)}`;
}

export const phraseFigure: Figure<PlayedPhrase> = {
  name: "phrase",
  label: "One phrase at two gaps",
  about:
    "The modelled lips move along the thin line, in the same way at both gaps, blown with 1.6 times each note's starting pressure at the " +
    "gap it is compared with. What sounds is counted on the lips every 0.04 s, so that moments are known to that. Lips move their aim in " +
    "0.05 s to 0.12 s and never miss; a person's do not.",
  caption: (data, _unit, instrument) => (data ? phraseFinding(data, instrument) : ""),
  height: proportional(0.6, 320, 420),
  draw: phraseChart,
  table: phraseTable,
};
