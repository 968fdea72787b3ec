/**
 * Every note's slot at two gaps: the lip frequencies at which it is what begins, in cents about the middle of its slot at the
 * reference gap, so that a change of a few cents can be seen. Beside it how the pitch that sounds follows the lips: the slope
 * of a short line, level where the note locks.
 */
import { scaleLinear, ticks } from "d3";
import type { GapSlots, NoteSlot } from "../../study/feel/slots.ts";
import { nearestNote } from "../../words/notes.ts";
import { bothUnits, signed } from "../../words/numbers.ts";
import { bottomAxis, bottomAxisRoom } from "../kit/axes.ts";
import {
  add,
  type Box,
  clamp,
  type Drawing,
  type Frame,
  referenceDash,
  rule,
  type Scale,
  sheet,
  type Table,
  textWidth,
  typeSizes,
  write,
} from "../kit/drawing.ts";
import type { Figure } from "../kit/figure.ts";
import { tickText } from "../kit/numbers.ts";
import { colour } from "../kit/tokens.ts";

export interface SlotData {
  readonly reference: GapSlots;
  readonly chosen: GapSlots;
}

interface Row {
  readonly n: number;
  readonly name: string;
  readonly reference: NoteSlot | undefined;
  readonly chosen: NoteSlot;
  /** Middle of the slot at the reference, Hz; of the chosen one where there is none. */
  readonly originHz: number | null;
}

const rowPx = 30;
const barPx = 12;
const markPx = 22;

export const slotHeight = ({ chosen }: SlotData, width: number): number => {
  const { small } = typeSizes({ width, height: 0, unit: "mm" });
  return headRoom(small) + chosen.notes.length * rowPx + 6 + bottomAxisRoom(small);
};

const headRoom = (small: number): number => 2 * small + 22;

export function slotChart(data: SlotData, frame: Frame): Drawing {
  const { small, large } = typeSizes(frame);
  const rows = rowsOf(data);
  const isNarrow = frame.width < 520;
  const columns = isNarrow
    ? { pull: 5.2 * small, margin: 3.4 * small }
    : { pull: 6.5 * small, margin: 5.5 * small };
  const svg = sheet(frame, {
    name: "slot-chart",
    title: "Slots of the notes at both gaps",
    description: describe(data, rows, frame),
  });
  const top = headRoom(small);
  const plot: Box = {
    left: 3.6 * small + 6,
    right: frame.width - columns.pull - columns.margin,
    top,
    bottom: top + Math.max(1, rows.length) * rowPx,
  };
  const x = scaleLinear(domainOf(rows), [plot.left, plot.right]);
  const y = scaleLinear([0, Math.max(1, rows.length)], [plot.top, plot.bottom]);

  write(svg, "Slots of the notes", 0, large, { size: large, weight: 600 });
  const heads = plot.top - 8;
  write(svg, "note", 0, heads, { size: small, fill: colour("muted") });
  write(svg, "pull", frame.width - columns.margin - 6, heads, {
    size: small,
    anchor: "end",
    fill: colour("muted"),
  });
  write(svg, "margin", frame.width - 2, heads, { size: small, anchor: "end", fill: colour("muted") });
  rule(svg, [x(0), plot.top], [x(0), plot.bottom], colour("hairline"));

  rows.forEach((row, i) => {
    const middle = y(i + 0.5);
    if (i > 0) rule(svg, [0, y(i)], [frame.width, y(i)], colour("hairline"), 0.5);
    write(svg, `${row.n}`, 0, middle + 0.36 * small, { size: small, weight: 600 });
    write(svg, row.name, 1.5 * small, middle + 0.36 * small, { size: small });
    drawRow(svg, row, x, middle, small, {
      pullRight: frame.width - columns.margin - 6,
      marginRight: frame.width - 2,
      hasMark: !isNarrow || columns.pull > 4 * small,
    });
  });
  bottomAxis(
    svg,
    x,
    plot,
    ticks(...domainOf(rows), clamp(Math.floor((plot.right - plot.left) / 60), 2, 9)).map((value) => ({
      value,
      text: tickText(value, true),
    })),
    isNarrow
      ? "lip frequency, cents"
      : "lip frequency, cents from the middle of the slot at the reference gap",
    small,
  );
  return { svg, x, y, plot };
}

interface Columns {
  readonly pullRight: number;
  readonly marginRight: number;
  readonly hasMark: boolean;
}

function drawRow(
  svg: SVGSVGElement,
  { reference, chosen, originHz }: Row,
  x: Scale,
  middle: number,
  size: number,
  { pullRight, marginRight, hasMark }: Columns,
): void {
  const group = add(svg, "g", { "data-note": `${chosen.n}` });
  const at = (hz: number) => x(centsFrom(hz, originHz!));
  if (reference?.slot) {
    const [from, to] = reference.slot.lipHz.map(at);
    add(group, "rect", {
      "data-part": "reference",
      x: from,
      y: middle - barPx / 2 - 3,
      width: to - from,
      height: barPx + 6,
      stroke: colour("reference"),
      "stroke-width": 1.25,
      "stroke-dasharray": referenceDash,
    });
  }
  if (!chosen.slot) {
    const text = chosen.mouthPressure === null ? "cannot be started" : "never grows fastest";
    write(group, text, x.range()[0] + 8, middle + 0.36 * size, { size, fill: colour("gap"), halo: true });
    return;
  }
  const { lipHz, playingHz, pull, margin } = chosen.slot;
  const [from, to] = lipHz.map(at);
  add(group, "rect", {
    "data-part": "slot",
    x: from,
    y: middle - barPx / 2,
    width: Math.max(1, to - from),
    height: barPx,
    fill: colour("gap"),
  });
  add(group, "circle", {
    "data-part": "sounds",
    cx: at(playingHz),
    cy: middle,
    r: 4,
    fill: colour("paper"),
    stroke: colour("ink"),
    "stroke-width": 1.5,
  });
  const pullText = pull.toFixed(2);
  write(group, pullText, pullRight, middle + 0.36 * size, { size, anchor: "end" });
  if (hasMark) {
    const centre = pullRight - textWidth("0.00", size) - 6 - markPx / 2;
    const half = markPx / 2;
    rule(group, [centre - half, middle], [centre + half, middle], colour("hairline"));
    const [dx, dy] = [half / Math.hypot(1, pull), (half * pull) / Math.hypot(1, pull)];
    rule(group, [centre - dx, middle + dy], [centre + dx, middle - dy], colour("ink"), 1.75);
  }
  write(group, margin === null ? "–" : margin.toFixed(2), marginRight, middle + 0.36 * size, {
    size,
    anchor: "end",
  });
}

export function slotTable({ reference, chosen }: SlotData): Table {
  const of = (note: NoteSlot | undefined) => [
    note?.slot?.lipHz[0] ?? "",
    note?.slot?.lipHz[1] ?? "",
    note?.slot?.playingHz ?? "",
    note?.slot?.slotWidthCents ?? "",
    note?.slot?.pull ?? "",
    note?.slot?.margin ?? "",
    note?.onset?.mouthPressure ?? "",
  ];
  const columns = [
    "lips from (Hz)",
    "lips to (Hz)",
    "sounds at (Hz)",
    "hold (cents)",
    "pull",
    "margin",
    "threshold (Pa)",
  ];
  return {
    columns: [
      "note",
      "blown with (Pa)",
      ...columns.map((name) => `chosen: ${name}`),
      ...columns.map((name) => `reference: ${name}`),
    ],
    rows: chosen.notes.map((note) => [
      note.n,
      note.mouthPressure ?? "",
      ...of(note),
      ...of(reference.notes.find(({ n }) => n === note.n)),
    ]),
  };
}

/** The highest note on top, as on a stave. */
const rowsOf = ({ reference, chosen }: SlotData): Row[] =>
  chosen.notes
    .map((note): Row => {
      const before = reference.notes.find(({ n }) => n === note.n);
      const shown = note.slot ?? before?.slot;
      return {
        n: note.n,
        name: shown ? nearestNote(shown.playingHz).name : "",
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
          slot ? [...slot.lipHz, slot.playingHz].map((hz) => centsFrom(hz, originHz)) : [],
        ),
  );
  const [low, high] = [Math.min(-100, ...places), Math.max(100, ...places)];
  const room = 0.06 * (high - low);
  return [low - room, high + room];
}

function describe({ reference, chosen }: SlotData, rows: readonly Row[], { unit }: Frame): string {
  const gaps = `At a gap of ${bothUnits(chosen.gapMm, unit)}, the reference ${bothUnits(reference.gapMm, unit)}`;
  const said = [...rows].reverse().map(({ n, chosen: note, reference: before }) => {
    if (!note.slot) return `note ${n} has no slot`;
    const change = before?.slot
      ? ` (${signed(note.slot.slotWidthCents - before.slot.slotWidthCents, 1)})`
      : "";
    return `note ${n} holds over ${note.slot.slotWidthCents.toFixed(0)} cents${change}, pull ${note.slot.pull.toFixed(2)}`;
  });
  return `${gaps}: ${said.join("; ")}. In brackets the change from the reference gap, in cents.`;
}

export const slotFigure: Figure<SlotData> = {
  name: "slots",
  label: "Slots of the notes at both gaps",
  about:
    "A row a note. The solid bar is the lip frequencies at which this note is what begins, at the chosen gap; the dashed frame " +
    "the same at the reference. Its width is the hold. The circle is the pitch that sounds with the lips in the middle of the " +
    "bar: outward lips play above themselves. Pull is how far that pitch follows the lips, the slope of the short line: 0 locks " +
    "hard, 1 not at all. Margin is how much more pressure the next note would need.",
  caption: () =>
    "Solid: lip frequencies that start the note at the chosen gap. Dashed: at the reference. Circle: what then sounds.",
  height: (width, data) => (data ? slotHeight(data, width) : 360),
  draw: slotChart,
  table: slotTable,
};
