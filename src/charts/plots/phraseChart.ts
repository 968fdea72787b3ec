/**
 * One phrase at two gaps with the same movement of the lips: what the lips did, what sounded, and under it by how much the
 * two differ, held against what can be felt.
 */
import { scaleLinear, scaleLog } from "d3";
import { isNoticeable } from "../../study/change/judgement.ts";
import type { Performance } from "../../study/feel/phrase.ts";
import { cents } from "../../study/instrument/pitch.ts";
import { nearestNote } from "../../words/notes.ts";
import { bothUnits, signed } from "../../words/numbers.ts";
import { bottomAxis, bottomAxisRoom, leftAxis } from "../kit/axes.ts";
import { corners, curvePath } from "../kit/curve.ts";
import {
  add,
  type Box,
  type Drawing,
  type Frame,
  type Point,
  referenceDash,
  rule,
  type Scale,
  sheet,
  type Table,
  textWidth,
  typeSizes,
  write,
} from "../kit/drawing.ts";
import { type Figure, proportional } from "../kit/figure.ts";
import { hatchPath } from "../kit/hatch.ts";
import { tickText } from "../kit/numbers.ts";
import { colour } from "../kit/tokens.ts";

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
  const bottom = frame.height - bottomAxisRoom(small);
  const left = 3.4 * small;
  const plot: Box = {
    left,
    right: frame.width - 2.6 * small,
    top: 2 * small + 8,
    bottom: bottom - differenceRoom * frame.height - 2.4 * small,
  };
  const under: Box = { ...plot, top: plot.bottom + 2.4 * small, bottom };
  const last = chosen.track[chosen.track.length - 1];
  const x = scaleLinear([0, last.seconds], [plot.left, plot.right]);
  const heard = [...chosen.track, ...reference.track].flatMap(({ lipHz, frequencyHz }) => [
    lipHz,
    frequencyHz ?? lipHz,
  ]);
  const y = scaleLog([Math.min(...heard) / 1.04, Math.max(...heard) * 1.04], [plot.bottom, plot.top]);
  const ground = add(svg, "g", { "aria-hidden": "true" });
  leftAxis(ground, y, plot, notesHeard(reference), small, true);
  drawKey(ground, frame, small);

  const line = (track: Performance["track"], of: (one: Performance["track"][number]) => number | null) =>
    curvePath(
      corners(
        track.map(({ seconds }) => x(seconds)),
        track.map((one) => of(one) ?? Number.NaN),
      ),
    );
  add(svg, "path", {
    "data-part": "lips",
    d: line(chosen.track, ({ lipHz }) => y(lipHz)),
    stroke: colour("muted"),
    "stroke-width": 1.25,
  });
  const sounding = ({ frequencyHz }: Performance["track"][number]) => frequencyHz && y(frequencyHz);
  add(svg, "path", {
    "data-part": "reference",
    d: line(reference.track, sounding),
    stroke: colour("reference"),
    "stroke-width": 4,
    "stroke-dasharray": referenceDash,
    "stroke-opacity": "0.75",
  });
  add(svg, "path", {
    "data-part": "chosen",
    d: line(chosen.track, sounding),
    stroke: colour("gap"),
    "stroke-width": 2,
    "stroke-linejoin": "round",
  });
  for (const { note, askedAt, frequencyHz } of chosen.spoken)
    if (frequencyHz !== null)
      write(svg, `${note}`, x(askedAt + labelAfter), y(frequencyHz) - 8, {
        size: small,
        weight: 600,
        anchor: "middle",
        halo: true,
      });
  drawDifference(ground, differences(phrase), feltCents, x, under, small);
  bottomAxis(
    ground,
    x,
    under,
    x.ticks(6).map((value) => ({ value, text: tickText(value) })),
    "time, s",
    small,
  );
  return { svg, x, y, plot };
}

export function phraseTable({ chosen, reference }: PlayedPhrase): Table {
  return {
    columns: [
      "time (s)",
      "lips (Hz)",
      "chosen gap sounds (Hz)",
      "note",
      "reference gap sounds (Hz)",
      "note",
      "difference (cents)",
    ],
    rows: differences({ chosen, reference }).map(({ at, other, differs }) => [
      at.seconds,
      at.lipHz,
      at.frequencyHz ?? "",
      at.note ?? "",
      other.frequencyHz ?? "",
      other.note ?? "",
      differs ?? "",
    ]),
  };
}

/** What a person is to take from it: the largest difference of a held note, and notes that speak at another moment. */
export function phraseFinding({ chosen, reference, feltCents }: PlayedPhrase): string {
  const pairs = chosen.spoken.map((one, i) => ({ one, other: reference.spoken[i] }));
  const list = (some: typeof pairs) => some.map(({ one }) => one.note).join(", ");
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
    ? `Held at one gap only: note ${list(missed)}.`
    : apart.length
      ? `Speaking at another moment: note ${list(apart)}.`
      : `Every note speaks at the same moment, to ${momentS} s.`;
  return `Held notes differ by ${signed(furthest, 1)} cents at most, ${felt}. ${speaking}`;
}

interface Difference {
  readonly at: Performance["track"][number];
  readonly other: Performance["track"][number];
  /** Cents; null where not both sound the same note. */
  readonly differs: number | null;
}

const differences = ({ chosen, reference }: Pick<PlayedPhrase, "chosen" | "reference">): Difference[] =>
  chosen.track.map((at, i) => {
    const other = reference.track[i];
    const both = at.frequencyHz !== null && other.frequencyHz !== null && at.note === other.note;
    return { at, other, differs: both ? cents(at.frequencyHz!, other.frequencyHz!) : null };
  });

/** Equally tempered notes near those that are held. */
function notesHeard({ spoken }: Performance): { value: number; text: string }[] {
  const notes = spoken.flatMap(({ frequencyHz }) => (frequencyHz === null ? [] : [nearestNote(frequencyHz)]));
  return Array.from(new Map(notes.map(({ name, hz }) => [name, hz])), ([text, value]) => ({ value, text }));
}

function drawDifference(
  parent: Element,
  all: readonly Difference[],
  felt: number,
  x: Scale,
  plot: Box,
  size: number,
): void {
  const reach = 3 * felt;
  const y = scaleLinear([-reach, reach], [plot.bottom, plot.top]);
  const band: Point[] = [
    [plot.left, y(felt)],
    [plot.right, y(felt)],
    [plot.right, y(-felt)],
    [plot.left, y(-felt)],
  ];
  add(parent, "path", { "data-part": "felt", d: hatchPath(band, 6, -1), stroke: colour("feel") });
  leftAxis(
    parent,
    y,
    plot,
    [-2 * felt, -felt, 0, felt, 2 * felt].map((value) => ({ value, text: tickText(value, true) })),
    size,
  );
  rule(parent, [plot.left, y(0)], [plot.right, y(0)], colour("hairline"));
  write(parent, "chosen less reference, cents; hatched: too small to hear", 0, plot.top - 8, {
    size,
    fill: colour("muted"),
  });
  const ys = all.map(({ differs }) =>
    differs === null ? Number.NaN : Math.min(plot.bottom, Math.max(plot.top, y(differs))),
  );
  add(parent, "path", {
    "data-part": "difference",
    d: curvePath(
      corners(
        all.map(({ at }) => x(at.seconds)),
        ys,
      ),
    ),
    stroke: colour("gap"),
    "stroke-width": 2,
    "stroke-linejoin": "round",
    "stroke-linecap": "round",
  });
}

function drawKey(parent: Element, { width }: Frame, size: number): void {
  const line = 0.67 * size;
  const items = [
    {
      text: width < 500 ? "lips" : "the lips’ own pitch",
      stroke: colour("muted"),
      weight: 1.25,
      dash: undefined,
    },
    { text: "chosen gap", stroke: colour("gap"), weight: 2, dash: undefined },
    { text: "reference", stroke: colour("reference"), weight: 3, dash: referenceDash },
  ];
  let at = 0;
  for (const { text, stroke, weight, dash } of items) {
    rule(parent, [at, line], [at + 24, line], stroke, weight, dash);
    write(parent, text, at + 30, size, { size, fill: stroke });
    at += 46 + textWidth(text, size);
  }
}

function describePhrase(phrase: PlayedPhrase, { unit }: Frame): string {
  const { chosen, reference } = phrase;
  const notes = chosen.spoken.map(({ note }) => note).join(", ");
  return `Notes ${notes} at gaps of ${bothUnits(chosen.gapMm, unit)} and ${bothUnits(reference.gapMm, unit)}. ${phraseFinding(phrase)}`;
}

export const phraseFigure: Figure<PlayedPhrase> = {
  name: "phrase",
  label: "One phrase at two gaps",
  about:
    "The modelled lips move along the thin line, in the same way at both gaps, blown with 1.6 times each note's threshold at the " +
    "reference gap. What sounds is counted on the lips every 0.04 s, so that moments are known to that. Lips move their aim in " +
    "0.05 s to 0.12 s and never miss; a person's do not.",
  caption: (data) => (data ? phraseFinding(data) : ""),
  height: proportional(0.6, 320, 420),
  draw: phraseChart,
  table: phraseTable,
};
