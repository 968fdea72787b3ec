/**
 * What there is to play: the lips' own frequency across, mouth pressure upwards, and every note's slot as a tongue that
 * starts at its threshold and is as wide as its slot where that was computed; straight on above. What the lips do is a point.
 */

import { scaleLinear, scaleLog } from "d3";
import type { InstrumentKind } from "../../setup/instrumentKind.ts";
import { isSameGap } from "../../setup/setup.ts";
import type { GapSlots, NoteSlot } from "../../study/feel/slots.ts";
import type { LengthUnit } from "../../units/length.ts";
import { FAMILY, noteLabel, noteText, writtenPitch } from "../../words/instruments.ts";
import { bothUnits } from "../../words/numbers.ts";
import { bottomAxis, leftAxis } from "../kit/axes.ts";
import {
  add,
  clamp,
  type Drawing,
  type Frame,
  type Point,
  polygonPath,
  px,
  rule,
  type Scale,
  sheet,
  type Table,
  textWidth,
  typeSizes,
  write,
} from "../kit/drawing.ts";
import { referenceDash, uprightLine } from "../kit/marks/line.ts";
import { label, type Panel, plotBox, silent } from "../kit/panel.ts";
import { noteColumns, tableOf } from "../kit/table.ts";
import { roundTicks, type Tick } from "../kit/ticks.ts";
import { colour } from "../kit/tokens.ts";

export interface PlayPad {
  readonly rangeHz: readonly [low: number, high: number];
  /** Top of the pad, Pa. */
  readonly mostPressure: number;
  readonly chosenGapMm: number;
  readonly referenceGapMm: number;
  /** At the chosen gap, Hz. */
  readonly resonancesHz: readonly number[];
  /** Null while they are worked out. */
  readonly chosen: GapSlots | null;
  readonly reference: GapSlots | null;
}

/** What the lips do now. */
export interface PadPoint {
  readonly lipHz: number;
  readonly mouthPressure: number;
  readonly isSounding: boolean;
}

const semitone = 2 ** (1 / 12);

export function playPad(pad: PlayPad, frame: Frame): Drawing {
  const { small } = typeSizes(frame);
  const isSame = isSameGap(pad.chosenGapMm, pad.referenceGapMm);
  const svg = sheet(frame, {
    name: "play-pad",
    title: "What there is to play",
    description: describe(pad, frame),
  });
  const plot = plotBox(frame, { left: 2.6 * small, right: 8, top: 3.6 * small + 8 });
  const x = scaleLog([...pad.rangeHz], [plot.left, plot.right]);
  const y = scaleLinear([0, pad.mostPressure / 1000], [plot.bottom, plot.top]);
  const on: Panel = { parent: silent(svg), x, y, plot, size: small };
  const ground = on.parent;
  drawSigns(on, isSame, frame);
  label(on, "mouth pressure, kPa", 0, small, { fill: "muted" });

  const inside = (hz: number) => hz > pad.rangeHz[0] && hz < pad.rangeHz[1];
  if (!isSame)
    for (const slot of slotsIn(pad.reference))
      add(ground, "path", {
        "data-part": "reference-slot",
        d: polygonPath(tongue(on, slot)),
        stroke: "reference",
        "stroke-width": 1.5,
        "stroke-dasharray": referenceDash,
      });
  for (const slot of slotsIn(pad.chosen))
    add(ground, "path", {
      "data-part": "slot",
      d: polygonPath(tongue(on, slot)),
      fill: "metal",
      "fill-opacity": "0.75",
      stroke: "gap",
      "stroke-width": 1.5,
      "stroke-linejoin": "round",
    });
  for (const [i, hz] of pad.resonancesHz.entries())
    if (inside(hz)) {
      uprightLine(on, hz, "hairline");
      if (!pad.chosen) name(on, i + 1, x(hz), frame);
    }
  labelSlots(on, slotsIn(pad.chosen), frame);
  leftAxis(on, roundTicks(y, 5));
  bottomAxis(on, noteTicks(x, 2.6 * small, frame), "the lips’ own pitch; what sounds is higher");
  const here = add(svg, "g", { "data-part": "here", "aria-hidden": "true" });
  rule(here, [0, plot.top], [0, plot.bottom], "gap").setAttribute("data-line", "x");
  rule(here, [plot.left, 0], [plot.right, 0], "gap").setAttribute("data-line", "y");
  add(here, "circle", { r: 9, stroke: "gap", "stroke-width": 2.5, fill: "paper" });
  return { svg, x, y, plot };
}

/** Puts the point in its place; filled while it sounds. */
export function placePoint({ svg, x, y }: Drawing, { lipHz, mouthPressure, isSounding }: PadPoint): void {
  const here = svg.querySelector("[data-part=here]")!;
  const [at, up] = [`${px(x(lipHz))}`, `${px(y(mouthPressure / 1000))}`];
  const set = (mark: string, attributes: Record<string, string>) => {
    for (const [name, value] of Object.entries(attributes))
      here.querySelector(mark)!.setAttribute(name, value);
  };
  set("[data-line=x]", { x1: at, x2: at });
  set("[data-line=y]", { y1: up, y2: up });
  set("circle", { cx: at, cy: up, fill: colour(isSounding ? "gap" : "paper") });
}

export function playPadTable(
  { chosen, reference, chosenGapMm, referenceGapMm }: PlayPad,
  _unit?: LengthUnit,
  instrument?: InstrumentKind,
): Table {
  const of = (name: string, gapMm: number, slots: GapSlots | null) =>
    slotsIn(slots).map((note) => ({ name, gapMm, ...note }));
  return tableOf(
    [...of("what if", chosenGapMm, chosen), ...of("compared with", referenceGapMm, reference)],
    [
      ["gap", ({ name }) => name],
      ["gap (mm)", ({ gapMm }) => gapMm],
      ...noteColumns<WithSlot>(({ n }) => n, instrument),
      ["starting pressure (kPa)", ({ onset }) => onset.mouthPressure / 1000],
      ["blown with (kPa)", ({ slot }) => slot.mouthPressure / 1000],
      ["slot from (Hz)", ({ slot }) => slot.lipHz[0]],
      ["to (Hz)", ({ slot }) => slot.lipHz[1]],
      ["width (cents)", ({ slot }) => slot.slotWidthCents],
      ["starts at (Hz)", ({ slot }) => slot.playingHz],
    ],
  );
}

/** A note that starts somewhere and holds somewhere. */
type WithSlot = NoteSlot & {
  readonly onset: NonNullable<NoteSlot["onset"]>;
  readonly slot: NonNullable<NoteSlot["slot"]>;
};

const slotsIn = (slots: GapSlots | null): WithSlot[] =>
  slots?.notes.filter((note): note is WithSlot => note.onset !== null && note.slot !== null) ?? [];

function tongue({ x, y, plot: { left, right, top, bottom } }: Panel, { onset, slot }: WithSlot): Point[] {
  const at = (hz: number) => clamp(x(hz), left, right);
  const up = (pascals: number) => clamp(y(pascals / 1000), top, bottom);
  const [low, high] = [at(slot.lipHz[0]), at(slot.lipHz[1])];
  return [
    [at(onset.lipHz), up(onset.mouthPressure)],
    [low, up(slot.mouthPressure)],
    [low, top],
    [high, top],
    [high, up(slot.mouthPressure)],
  ];
}

/** Every note by name; a row higher every other one, where they would touch. */
function labelSlots(on: Panel, slots: readonly WithSlot[], frame: Frame): void {
  const places = slots.map(({ slot }) => on.x(slot.centreHz));
  const apart = textWidth("10 B♭", on.size) + 2;
  const isRoom = places.every((at, i) => i === 0 || at - places[i - 1] > apart);
  slots.forEach(({ n }, i) => {
    name(on, n, places[i], frame, !isRoom && i % 2 === 1);
  });
}

const name = (on: Panel, n: number, at: number, { instrument }: Frame, isHigh = false) =>
  label(on, noteLabel(n, instrument), at, on.plot.top - 6 - (isHigh ? on.size + 3 : 0), {
    anchor: "middle",
    weight: 600,
  });

/** Written C, E-flat, G-flat and A where there is room, or C alone. */
function noteTicks(x: Scale, apart: number, { instrument }: Frame): Tick[] {
  const [low, high] = x.domain();
  const every = [3, 6, 12].find((steps) => x(low * semitone ** steps) - x(low) > apart) ?? 24;
  const c = 440 * semitone ** (3 - (instrument ? FAMILY[instrument].writtenAbove : 0));
  const first = Math.ceil((12 * Math.log2(low / c)) / every);
  const last = Math.floor((12 * Math.log2(high / c)) / every);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => {
    const value = c * semitone ** (every * (first + i));
    return { value, text: writtenPitch(value, instrument).name };
  });
}

/** From the right end on, each sign before its words. */
function drawSigns({ parent, size }: Panel, isSame: boolean, { width }: Frame): void {
  const line = 0.67 * size;
  const chosen = width < 500 ? "what if" : "slots, what if";
  const text = isSame ? ["slots"] : [chosen, "compared with"];
  let at = width - 8;
  for (const [i, words] of [...text.entries()].reverse()) {
    const stroke = i === 0 ? "gap" : "reference";
    at -= textWidth(words, size);
    write(parent, words, at, size, { size, fill: stroke, weight: i === 0 ? 600 : 400 });
    rule(parent, [at - 28, line], [at - 6, line], stroke, 2, i === 0 ? undefined : referenceDash);
    at -= 44;
  }
}

function describe({ chosen, chosenGapMm, mostPressure }: PlayPad, { unit, instrument }: Frame): string {
  const slots = slotsIn(chosen).map(
    ({ n, onset, slot }) =>
      `${noteText(n, instrument)} from ${(onset.mouthPressure / 1000).toFixed(1)} kPa, ${Math.round(slot.slotWidthCents)} cents wide`,
  );
  const notes = slots.length ? `Slots: ${slots.join("; ")}.` : "The slots are still being worked out.";
  return `Lip frequency across, mouth pressure from 0 to ${mostPressure / 1000} kPa upwards, at a gap of ${bothUnits(chosenGapMm, unit)}. ${notes}`;
}
