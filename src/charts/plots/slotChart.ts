/**
 * Every note's slot at two gaps: the lip frequencies at which it is what begins, in cents about the middle of its slot at the
 * reference gap, so that a change of a few cents can be seen. Beside it, in a column of its own, what then sounds, which lies
 * above the lips and so outside the bar; and how that pitch follows the lips: the slope of a short line, level where the note locks.
 */
import { scaleLinear } from "d3";
import type { InstrumentKind } from "../../setup/instrumentKind.ts";
import type { GapSlots, NoteSlot } from "../../study/feel/slots.ts";
import type { LengthUnit } from "../../units/length.ts";
import { noteLabel, noteText } from "../../words/instruments.ts";
import { bothUnits, signed } from "../../words/numbers.ts";
import { bottomAxis } from "../kit/axes.ts";
import {
  add,
  type Box,
  type Drawing,
  type Frame,
  rule,
  sheet,
  type Table,
  textWidth,
  typeSizes,
} from "../kit/drawing.ts";
import type { Figure } from "../kit/figure.ts";
import { heading } from "../kit/labels/text.ts";
import { referenceDash, uprightLine } from "../kit/marks/line.ts";
import { bottomAxisRoom, label, type Panel, widthOf } from "../kit/panel.ts";
import { type Column, noteColumns, tableOf } from "../kit/table.ts";
import { marksIn, roundTicks, signedText } from "../kit/ticks.ts";

export interface SlotData {
  readonly reference: GapSlots;
  readonly chosen: GapSlots;
}

interface Row {
  readonly n: number;
  readonly reference: NoteSlot | undefined;
  readonly chosen: NoteSlot;
  /** Middle of the slot at the reference, Hz; of the chosen one where there is none. */
  readonly originHz: number | null;
}

const rowPx = 30;
const barPx = 12;
const markPx = 22;

export const slotHeight = ({ chosen }: SlotData, width: number): number => {
  const { small } = typeSizes({ width });
  return headRoom(small) + chosen.notes.length * rowPx + 6 + bottomAxisRoom(small);
};

const headRoom = (small: number): number => 2 * small + 22;

export function slotChart(data: SlotData, frame: Frame): Drawing {
  const { small, large } = typeSizes(frame);
  const rows = rowsOf(data);
  const isNarrow = frame.width < 520;
  const [pull, margin] = isNarrow ? [5.2 * small, 3.4 * small] : [6.5 * small, 5.5 * small];
  const sounds = isNarrow ? 3.6 * small : 6.2 * small;
  const svg = sheet(frame, {
    name: "slot-chart",
    title: "Slots of the notes at both gaps",
    description: describe(data, rows, frame),
  });
  const top = headRoom(small);
  const bottom = top + Math.max(1, rows.length) * rowPx;
  const plot: Box = { left: 3.6 * small + 6, right: frame.width - sounds - pull - margin, top, bottom };
  const x = scaleLinear(domainOf(rows), [plot.left, plot.right]);
  const y = scaleLinear([0, Math.max(1, rows.length)], [top, bottom]);
  const on: Panel = { parent: svg, x, y, plot, size: small };

  heading(svg, "Slots of the notes", large);
  const columns = {
    soundsRight: frame.width - margin - pull - 4,
    pullRight: frame.width - margin - 6,
    marginRight: frame.width - 2,
  };
  label(on, "note", 0, top - 8, { fill: "muted" });
  const soundsTitle = isNarrow ? "Hz" : "sounds, Hz";
  label(on, soundsTitle, columns.soundsRight, top - 8, { anchor: "end", fill: "muted" });
  label(on, "pull", columns.pullRight, top - 8, { anchor: "end", fill: "muted" });
  label(on, "margin", columns.marginRight, top - 8, { anchor: "end", fill: "muted" });
  uprightLine(on, 0, "hairline");

  rows.forEach((row, i) => {
    const middle = y(i + 0.5);
    if (i > 0) rule(svg, [0, y(i)], [frame.width, y(i)], "hairline", 0.5);
    label(on, noteLabel(row.n, frame.instrument), 0, middle + 0.36 * small, { weight: 600 });
    drawRow(on, row, middle, columns);
  });
  const title = isNarrow
    ? "lip frequency, cents"
    : "lip frequency, cents from the middle of the slot at the gap compared with";
  bottomAxis(on, roundTicks(x, marksIn(widthOf(plot), 60, 2, 9), signedText), title);
  return { svg, x, y, plot };
}

interface Columns {
  readonly soundsRight: number;
  readonly pullRight: number;
  readonly marginRight: number;
}

function drawRow(
  { parent, x, size }: Panel,
  { reference, chosen, originHz }: Row,
  middle: number,
  { soundsRight, pullRight, marginRight }: Columns,
): void {
  const on = { parent: add(parent, "g", { "data-note": `${chosen.n}` }), size };
  const at = (hz: number) => x(centsFrom(hz, originHz!));
  const row = middle + 0.36 * size;
  if (reference?.slot) {
    const [from, to] = reference.slot.lipHz.map(at);
    add(on.parent, "rect", {
      "data-part": "reference",
      x: from,
      y: middle - barPx / 2 - 3,
      width: to - from,
      height: barPx + 6,
      stroke: "reference",
      "stroke-width": 1.25,
      "stroke-dasharray": referenceDash,
    });
  }
  if (!chosen.slot) {
    const text = chosen.mouthPressure === null ? "cannot be started" : "never grows fastest";
    label(on, text, x.range()[0] + 8, row, { fill: "gap", halo: true });
    return;
  }
  const { lipHz, playingHz, pull, margin } = chosen.slot;
  const [from, to] = lipHz.map(at);
  add(on.parent, "rect", {
    "data-part": "slot",
    x: from,
    y: middle - barPx / 2,
    width: Math.max(1, to - from),
    height: barPx,
    fill: "gap",
  });
  label(on, playingHz.toFixed(1), soundsRight, row, { anchor: "end", part: "sounds" });
  label(on, pull.toFixed(2), pullRight, row, { anchor: "end" });
  const centre = pullRight - textWidth("0.00", size) - 6 - markPx / 2;
  const half = markPx / 2;
  rule(on.parent, [centre - half, middle], [centre + half, middle], "hairline");
  const [dx, dy] = [half / Math.hypot(1, pull), (half * pull) / Math.hypot(1, pull)];
  rule(on.parent, [centre - dx, middle + dy], [centre + dx, middle - dy], "ink", 1.75);
  label(on, margin === null ? "–" : margin.toFixed(2), marginRight, row, { anchor: "end" });
}

export function slotTable(
  { reference, chosen }: SlotData,
  _unit?: LengthUnit,
  instrument?: InstrumentKind,
): Table {
  const before = (n: number) => reference.notes.find((note) => note.n === n);
  const columns: Column<NoteSlot | undefined>[] = [
    ["lips from (Hz)", (note) => note?.slot?.lipHz[0]],
    ["lips to (Hz)", (note) => note?.slot?.lipHz[1]],
    ["sounds at (Hz)", (note) => note?.slot?.playingHz],
    ["slot width (cents)", (note) => note?.slot?.slotWidthCents],
    ["pull", (note) => note?.slot?.pull],
    ["margin", (note) => note?.slot?.margin],
    ["starting pressure (Pa)", (note) => note?.onset?.mouthPressure],
  ];
  return tableOf(chosen.notes, [
    ...noteColumns<NoteSlot>(({ n }) => n, instrument),
    ["blown with (Pa)", ({ mouthPressure }) => mouthPressure],
    ...columns.map(([name, of]): Column<NoteSlot> => [`what if: ${name}`, of]),
    ...columns.map(
      ([name, of]): Column<NoteSlot> => [`compared with: ${name}`, ({ n }, i) => of(before(n), i)],
    ),
  ]);
}

/** The highest note on top, as on a stave. */
const rowsOf = ({ reference, chosen }: SlotData): Row[] =>
  chosen.notes
    .map((note): Row => {
      const before = reference.notes.find(({ n }) => n === note.n);
      return {
        n: note.n,
        reference: before,
        chosen: note,
        originHz: before?.slot?.centreHz ?? note.slot?.centreHz ?? null,
      };
    })
    .reverse();

const centsFrom = (hz: number, originHz: number): number => 1200 * Math.log2(hz / originHz);

function domainOf(rows: readonly Row[]): [number, number] {
  const places = rows.flatMap(({ reference, chosen, originHz }) =>
    originHz === null
      ? []
      : [reference?.slot, chosen.slot].flatMap((slot) =>
          slot ? slot.lipHz.map((hz) => centsFrom(hz, originHz)) : [],
        ),
  );
  const [low, high] = [Math.min(-100, ...places), Math.max(100, ...places)];
  const room = 0.06 * (high - low);
  return [low - room, high + room];
}

function describe(
  { reference, chosen }: SlotData,
  rows: readonly Row[],
  { unit, instrument }: Frame,
): string {
  const gaps = `At a gap of ${bothUnits(chosen.gapMm, unit)}, compared with ${bothUnits(reference.gapMm, unit)}`;
  const said = [...rows].reverse().map(({ n, chosen: note, reference: before }) => {
    if (!note.slot) return `${noteText(n, instrument)} has no slot`;
    const change = before?.slot
      ? ` (${signed(note.slot.slotWidthCents - before.slot.slotWidthCents, 1)})`
      : "";
    return `${noteText(n, instrument)} has a slot ${note.slot.slotWidthCents.toFixed(0)} cents wide${change}, sounds ${note.slot.playingHz.toFixed(1)} Hz, pull ${note.slot.pull.toFixed(2)}`;
  });
  return `${gaps}: ${said.join("; ")}. In brackets the change of slot width, in cents.`;
}

export const slotFigure: Figure<SlotData> = {
  name: "slots",
  label: "Slots of the notes at both gaps",
  about:
    "A row a note. The solid bar is the lip frequencies that start this note at the what-if gap; the dashed frame " +
    "the same at the gap it is compared with. Its length is the slot width. In its own column what then sounds, with the lips in the middle of the " +
    "bar: outward lips play above themselves. Pull is how far that pitch follows the lips, the slope of the short line: 0 locks " +
    "hard, 1 not at all. Margin is how much more pressure the next note would need.",
  caption: () =>
    "Solid: lip frequencies that start the note, what if. Dashed: at the gap it is compared with. Beside it what then sounds.",
  height: (width, data) => (data ? slotHeight(data, width) : 360),
  draw: slotChart,
  table: slotTable,
};
