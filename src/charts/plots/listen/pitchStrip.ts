/**
 * The pitch of a take over time, in cents about the note meant: with the ends of a slot as they are found, and where a slur or
 * an attack landed.
 */
import { scaleLinear } from "d3";
import type { InstrumentKind } from "../../../setup/instrumentKind.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { noteLabel, noteText } from "../../../words/instruments.ts";
import { signed } from "../../../words/numbers.ts";
import { bottomAxis, leftAxis } from "../../kit/axes.ts";
import { add, clamp, type Drawing, type Frame, sheet, type Table, typeSizes } from "../../kit/drawing.ts";
import { type Figure, proportional } from "../../kit/figure.ts";
import { diamond } from "../../kit/marks/diamond.ts";
import { levelLine, line } from "../../kit/marks/line.ts";
import { label, type Panel, plotBox, silent } from "../../kit/panel.ts";
import { tableOf } from "../../kit/table.ts";
import { roundTicks, signedText } from "../../kit/ticks.ts";

export interface StripPoint {
  readonly atS: number;
  /** About the note meant; null between notes. */
  readonly cents: number | null;
}

export interface StripMark {
  readonly atS: number;
  readonly cents: number;
  readonly isMissed: boolean;
}

export interface PitchStrip {
  readonly partial: number;
  /** Cents are about the resting pitch of this take, not about the note as written. */
  readonly isAboutRest: boolean;
  /** What lies further away is not drawn. */
  readonly reachCents: number;
  readonly points: readonly StripPoint[];
  readonly fromS: number;
  readonly toS: number;
  /** Ends of the slot so far; null where none was found yet. */
  readonly lowCents: number | null;
  readonly highCents: number | null;
  readonly marks: readonly StripMark[];
  /** Other notes that may sound. */
  readonly others: readonly { readonly partial: number; readonly cents: number }[];
}

/** Whatever sounds, so much is drawn to each side. */
const LEAST_CENTS = 90;
const ROUND_CENTS = 50;
/** A pitch that goes further between two points has jumped. */
const JUMP_CENTS = 110;

export function pitchStrip(strip: PitchStrip, frame: Frame): Drawing {
  const { small } = typeSizes(frame);
  const { fromS, toS, lowCents, highCents } = strip;
  const svg = sheet(frame, {
    name: "pitch-strip",
    title: "Pitch over time",
    description: describe(strip, frame.instrument),
  });
  const plot = plotBox(frame, { left: 3.6 * small, right: 4.6 * small, top: 2 * small });
  const x = scaleLinear([fromS, Math.max(toS, fromS + 1)], [plot.left, plot.right]);
  const [least, most] = rangeOf(strip);
  const y = scaleLinear([least, most], [plot.bottom, plot.top]);
  const on: Panel = { parent: silent(svg), x, y, plot, size: small };
  if (lowCents !== null && highCents !== null) slotBand(on, lowCents, highCents);
  leftAxis(on, roundTicks(y, 5, signedText), true);
  bottomAxis(on, roundTicks(x, 6), "time, s");
  label(
    on,
    strip.isAboutRest
      ? "cents about the resting pitch"
      : `cents about ${noteLabel(strip.partial, frame.instrument)}`,
    0,
    small,
    { fill: "muted" },
  );
  levelLine(on, 0, "ink", 1.25);
  for (const { partial, cents } of strip.others)
    if (cents > least && cents < most) {
      levelLine(on, cents, "muted", 1, "2 4");
      label(on, noteLabel(partial, frame.instrument), plot.right + 6, y(cents) + 0.36 * small, {
        fill: "muted",
      });
    }
  for (const [part, cents] of [
    ["low-end", lowCents],
    ["high-end", highCents],
  ] as const)
    if (cents !== null) {
      levelLine(on, cents, "measured", 1.75);
      label(on, signed(cents, 0), plot.right + 6, y(cents) + 0.36 * small, {
        fill: "measured",
        weight: 600,
        part,
      });
    }
  const within = ({ cents }: StripPoint) =>
    cents === null || cents < least || cents > most ? null : y(cents);
  line(on.parent, parted(strip.points), ({ atS }) => x(atS), within, {
    "data-part": "pitch",
    stroke: "measured",
    "stroke-width": 2,
    "stroke-linejoin": "round",
    "stroke-linecap": "round",
  });
  for (const { atS, cents, isMissed } of strip.marks) {
    const at = [x(atS), clamp(y(cents), plot.top, plot.bottom)] as const;
    diamond(on.parent, at, 5, isMissed ? "gap" : "measured", { "data-part": isMissed ? "missed" : "hit" });
    if (isMissed) label(on, "missed", at[0], at[1] - 9, { anchor: "middle", fill: "gap", halo: true });
  }
  return { svg, x, y, plot };
}

/** A tint: hatched is what is too small to notice. */
function slotBand({ parent, y, plot: { left, right } }: Panel, lowCents: number, highCents: number): void {
  const place = { x: left, y: y(highCents), width: right - left, height: y(lowCents) - y(highCents) };
  add(parent, "rect", { "data-part": "slot", ...place, fill: "measured", "fill-opacity": 0.1 });
}

/** With a hole where the pitch jumps: nobody sounded what lies between. */
function parted(points: readonly StripPoint[]): StripPoint[] {
  return points.flatMap((point, i) => {
    const before = points[i - 1]?.cents ?? null;
    const hasJumped = before !== null && point.cents !== null && Math.abs(point.cents - before) > JUMP_CENTS;
    return hasJumped ? [{ atS: point.atS, cents: null }, point] : [point];
  });
}

function rangeOf({ points, fromS, lowCents, highCents, marks, reachCents }: PitchStrip): [number, number] {
  const seen = [
    ...points.flatMap(({ atS, cents }) => (cents === null || atS < fromS ? [] : cents)),
    ...marks.map(({ cents }) => cents),
    ...[lowCents, highCents].filter((cents) => cents !== null),
  ].filter((cents) => Math.abs(cents) <= reachCents);
  const round = (cents: number) => ROUND_CENTS * Math.ceil((cents + 10) / ROUND_CENTS);
  return [
    -round(Math.max(LEAST_CENTS, ...seen.map((cents) => -cents))),
    round(Math.max(LEAST_CENTS, ...seen)),
  ];
}

function describe({ partial, lowCents, highCents, points }: PitchStrip, instrument?: InstrumentKind): string {
  const sounding = points.filter(({ cents }) => cents !== null).length;
  const ends = [
    lowCents === null ? "" : ` Low end of the slot at ${signed(lowCents, 0)} cents.`,
    highCents === null ? "" : ` High end at ${signed(highCents, 0)} cents.`,
  ].join("");
  return sounding === 0
    ? "Nothing has been heard yet."
    : `Pitch about ${noteText(partial, instrument)}.${ends}`;
}

export const pitchStripTable = ({ points }: PitchStrip, _unit?: LengthUnit): Table =>
  tableOf(points, [
    ["time (s)", ({ atS }) => atS],
    ["pitch (cents)", ({ cents }) => cents],
  ]);

export const pitchStripFigure: Figure<PitchStrip> = {
  name: "pitch-strip",
  label: "Pitch over time",
  about:
    "The pitch that is heard, some hundred times a second, in cents about the note meant (equal temperament, A 440). It has holes " +
    "where nothing sounds, where the pitch jumps and where it is another note. The ends of a slot are read off a straight line through the last 0.2 s of each " +
    "bend, carried on to where it breaks or stops, and are the mean of all bends to that side.",
  caption: (data, _unit, instrument) =>
    data ? describe(data, instrument) : "The pitch appears here while you play.",
  height: proportional(0.3, 220, 320),
  draw: pitchStrip,
  table: pitchStripTable,
};
