/**
 * Where a shank comes to rest in a receiver: the upper half in section. Lengths are true to scale along the bore; radii are
 * drawn many times as large, or no clearance would be seen. Walls are drawn plausibly and carry no number.
 */
import { scaleLinear } from "d3";
import { formatLength } from "../../units/formatLength.ts";
import type { LengthUnit } from "../../units/length.ts";
import { bothUnits } from "../../words/numbers.ts";
import {
  add,
  type Drawing,
  type Frame,
  type Point,
  type Scale,
  sheet,
  type Table,
  textWidth,
  typeSizes,
  write,
} from "../kit/drawing.ts";
import type { Figure } from "../kit/figure.ts";
import { writeWithin } from "../kit/labels/text.ts";
import { polyline } from "../kit/marks/line.ts";
import { inUnit } from "../kit/numbers.ts";
import { tableOf } from "../kit/table.ts";
import { dimension, outsideTail } from "./dimension.ts";
import { drawMetal } from "./metal.ts";

export interface SeatData {
  readonly shankEndDiameterMm: number;
  readonly shankTaper: number;
  readonly mouthDiameterMm: number;
  readonly receiverTaper: number;
  readonly depthMm: number;
  /** Undefined where the shank does not enter: it is drawn standing before the receiver. */
  readonly insertionMm: number | undefined;
  /** Where the walls touch, of a shank that seats. */
  readonly contact?: {
    readonly touches: "length" | "mouth" | "end";
    readonly contactLengthMm: number;
    readonly freeClearanceMm: number;
  };
  /** What is to be said of it. */
  readonly words: string;
}

const wallPx = 46;
const shankWallPx = 34;
const hatchSpacing = 7;
/** Radii that differ by less are drawn as if they differed by this, mm. */
const leastSpanMm = 0.02;

export function seatDrawing(data: SeatData, frame: Frame): Drawing {
  const { depthMm } = data;
  const { small, large } = typeSizes(frame);
  const insertionMm = data.insertionMm ?? 0;
  const beforeMm = 0.22 * depthMm;
  const x = scaleLinear([-beforeMm, 1.16 * depthMm], [0, frame.width]);
  const shankMm = (at: number) => (data.shankEndDiameterMm + data.shankTaper * (insertionMm - at)) / 2;
  const receiverMm = (at: number) => (data.mouthDiameterMm - data.receiverTaper * at) / 2;

  const rows = { gap: large + 12, insertion: large + 2 * small + 24, depth: large + 3 * small + 38 };
  const below = rows.depth + small + 30;
  const high = Math.max(shankMm(-beforeMm), receiverMm(0));
  const low = Math.min(shankMm(insertionMm), receiverMm(depthMm));
  const y = scaleLinear(
    [Math.min(low, high - leastSpanMm), high],
    [frame.height - below - shankWallPx, small + wallPx],
  );
  const plot = { left: 0, right: frame.width, top: small + 2, bottom: frame.height - below };

  const svg = sheet(frame, {
    name: "seat",
    title: "Where the shank seats in the receiver",
    description: data.words,
  });
  const metal = add(svg, "g", { "aria-hidden": "true" });
  const pipeWallPx = 0.6 * shankWallPx;
  const face = y(receiverMm(depthMm));
  section(metal, "receiver", 1, [
    [x(0), y(receiverMm(0))],
    [x(depthMm), face],
    [frame.width, face],
    [frame.width, plot.top],
    [x(0), plot.top],
  ]);
  section(metal, "leadpipe", -1, [
    [x(depthMm), face],
    [frame.width, face],
    [frame.width, face + pipeWallPx],
    [x(depthMm), face + pipeWallPx],
  ]);
  const shankInside = y(shankMm(insertionMm)) + 0.8 * shankWallPx;
  section(metal, "shank", -1, [
    [0, y(shankMm(-beforeMm))],
    [x(insertionMm), y(shankMm(insertionMm))],
    [x(insertionMm), shankInside],
    [0, shankInside],
  ]);

  const notes = add(svg, "g", { "aria-hidden": "true" });
  if (data.contact)
    drawContact(notes, data.contact, { insertionMm, shankMm, receiverMm }, x, y, frame, small);
  drawDimensions(notes, data, { end: shankInside, face: face + pipeWallPx }, x, plot.bottom, rows, frame);
  const times = (y(0) - y(1)) / (x(1) - x(0));
  write(
    notes,
    `radii drawn ${Number(times.toPrecision(2))} times as large as lengths; walls are not measured`,
    0,
    frame.height - 4,
    { size: small, fill: "muted" },
  );
  return { svg, x, y, plot };
}

function section(parent: Element, part: string, direction: 1 | -1, corners: readonly Point[]): void {
  drawMetal(add(parent, "g", { "data-part": part }), [corners], { direction, spacing: hatchSpacing });
}

interface Walls {
  readonly insertionMm: number;
  readonly shankMm: (at: number) => number;
  readonly receiverMm: (at: number) => number;
}

/** The contact as a heavy line with its length; at the free end the clearance. */
function drawContact(
  parent: Element,
  { touches, contactLengthMm, freeClearanceMm }: NonNullable<SeatData["contact"]>,
  { insertionMm, shankMm, receiverMm }: Walls,
  x: Scale,
  y: Scale,
  { width, unit }: Frame,
  size: number,
): void {
  const from = touches === "end" ? insertionMm - contactLengthMm : 0;
  const to = touches === "mouth" ? contactLengthMm : insertionMm;
  add(parent, "path", {
    "data-part": "contact",
    d: polyline([from, to].map((at) => [x(at), y(shankMm(at))])),
    stroke: "ink",
    "stroke-width": 4,
    "stroke-linecap": "round",
  });
  const room = [x(0) + 8, width - 4] as const;
  const note = (text: string, at: number, row: number) =>
    writeWithin(parent, text, x(at), row, room, { size, halo: true });
  const rowPx = y(receiverMm(0)) - wallPx + size;
  note(`contact ${formatLength(contactLengthMm, unit, unit === "mm" ? 1 : 2)}`, (from + to) / 2, rowPx + 4);
  if (touches === "length") return;
  const free = touches === "mouth" ? insertionMm : 0;
  const open = touches === "mouth" ? "open to the gap" : "open to the room";
  note(
    `clearance ${formatLength(freeClearanceMm, unit, unit === "mm" ? 3 : 4)}, ${open}`,
    free,
    rowPx + size + 8,
  );
}

function drawDimensions(
  parent: Element,
  { depthMm, insertionMm }: SeatData,
  bottoms: { readonly end: number; readonly face: number },
  x: Scale,
  bottom: number,
  rows: Readonly<Record<"gap" | "insertion" | "depth", number>>,
  frame: Frame,
): void {
  const { small, large } = typeSizes(frame);
  const along = (text: string, [from, to]: readonly [number, number], row: number) =>
    write(parent, text, (from + to) / 2, row - 5, { size: small, anchor: "middle", halo: true });
  const [face, start] = [x(0), x(depthMm)];
  dimension(parent, [face, start], bottom + rows.depth, [bottom, bottoms.face + 3], "ink");
  along(`receiver depth ${formatLength(depthMm, frame.unit)}`, [face, start], bottom + rows.depth);
  if (insertionMm === undefined) return;
  const end = x(insertionMm);
  dimension(parent, [face, end], bottom + rows.insertion, [bottom, bottoms.end + 3], "ink");
  along(`insertion ${formatLength(insertionMm, frame.unit)}`, [face, end], bottom + rows.insertion);
  const gap = add(parent, "g", { "data-part": "gap" });
  dimension(gap, [end, start], bottom + rows.gap, [bottoms.end + 3, bottoms.face + 3], "gap", true, 2);
  const text = `gap ${bothUnits(Math.max(0, depthMm - insertionMm), frame.unit)}`;
  const room = textWidth(text, large);
  const at = Math.max(end - outsideTail - 18, Math.min(room, frame.width));
  write(gap, text, at, bottom + rows.gap + 0.36 * large, {
    size: large,
    anchor: "end",
    fill: "gap",
    weight: 650,
    halo: true,
  });
}

/** The drawing in numbers; what the pair has not is left empty. */
export function seatTable(data: SeatData, unit: LengthUnit): Table {
  const { contact, depthMm, insertionMm } = data;
  const rows: [name: string, mm: number | undefined, taper?: number][] = [
    ["shank end diameter", data.shankEndDiameterMm],
    ["receiver mouth diameter", data.mouthDiameterMm],
    ["receiver depth", depthMm],
    ["insertion", insertionMm],
    ["gap", insertionMm === undefined ? undefined : depthMm - insertionMm],
    ["contact length", contact?.contactLengthMm],
    ["clearance at the free end", contact?.freeClearanceMm],
    ["shank taper", undefined, data.shankTaper],
    ["receiver taper", undefined, data.receiverTaper],
  ];
  return tableOf(rows, [
    ["dimension", ([name]) => name],
    ["value", ([, mm, taper]) => taper ?? (mm === undefined ? "" : inUnit(mm, unit))],
    ["unit", ([, , taper]) => (taper === undefined ? unit : "")],
  ]);
}

export const seatFigure: Figure<SeatData> = {
  name: "seat",
  label: "Where the shank seats, in section",
  about:
    "The upper half of shank and receiver cut open along the axis. Lengths along the bore are true to scale; radii are " +
    "drawn many times as large, so that a clearance of a hundredth can be seen. The heavy line is where the walls touch " +
    "within the clearance that counts as touching. Wall thicknesses are not measured.",
  caption: () => "Shank in receiver, upper half.",
  height: (width) => (width < 560 ? 320 : 340),
  draw: seatDrawing,
  table: seatTable,
};
