/** |Z| at the rim against frequency: the chosen gap's curve over the reference's. */
import { bisectLeft, max, min, scaleLinear, scaleLog } from "d3";
import type { AtGap, ScreenCurve } from "../../study/instrument/exploration.ts";
import { formatLength } from "../../units/formatLength.ts";
import type { LengthUnit } from "../../units/length.ts";
import { concertNote, noteLabel, noteText, writtenPitch } from "../../words/instruments.ts";
import { bothUnits, signed } from "../../words/numbers.ts";
import { bottomAxis, leftAxis } from "../kit/axes.ts";
import {
  add,
  type Box,
  clamp,
  type Drawing,
  type Frame,
  rule,
  type Scale,
  sheet,
  type Table,
  textWidth,
  typeSizes,
  write,
} from "../kit/drawing.ts";
import { drawKey, type KeyItem, keyWidth } from "../kit/labels/key.ts";
import { firstFitting, heading } from "../kit/labels/text.ts";
import { dot } from "../kit/marks/dot.ts";
import { curve, readOutLine, referenceDash } from "../kit/marks/line.ts";
import { heightOf, label, type Panel, plotBox, silent } from "../kit/panel.ts";
import { keep } from "../kit/redraw.ts";
import { type Column, tableOf } from "../kit/table.ts";
import { marksIn, roundTicks, type Tick, ticksAt } from "../kit/ticks.ts";

export interface ImpedanceData {
  readonly chosen: AtGap;
  readonly reference: AtGap;
  /** The chosen gap's in still air, where the others are blown. */
  readonly stillCurve?: ScreenCurve;
  /** Number of the resonance that stands out. */
  readonly highlight?: number;
  /** Frequency of the read-out line. */
  readonly cursorHz?: number;
}

export interface ImpedanceFrame extends Frame {
  /** Decibels are counted from 1 MPa·s/m³. */
  readonly magnitude?: "linear" | "dB";
}

const title = "Input impedance at the rim";
const unitPa = 1e6;
const unitName = "MPa·s/m³";
const frequencyTicks = [20, 50, 100, 200, 300, 500, 700, 1000, 1500, 2000, 3000, 5000];
/** A deep dip is not allowed to flatten the peaks. */
const dbShown = 50;

export function impedanceChart(data: ImpedanceData, frame: ImpedanceFrame): Drawing {
  const { chosen, reference, stillCurve, cursorHz, highlight } = data;
  const { small, large } = typeSizes(frame);
  const inDb = frame.magnitude === "dB";
  const svg = sheet(frame, {
    name: "impedance-chart",
    title,
    description: describe(data, frame),
  });

  const key: KeyItem[] = [
    {
      text: `what if ${formatLength(chosen.gapMm, frame.unit)}`,
      line: { stroke: "gap", "stroke-width": 2 },
      fill: "gap",
      weight: 600,
    },
    {
      text: `compared with ${formatLength(reference.gapMm, frame.unit)}`,
      line: { stroke: "reference", "stroke-width": 3, "stroke-dasharray": referenceDash },
      fill: "reference",
    },
    ...(stillCurve ? [{ text: "still air", line: STILL, fill: "muted" as const }] : []),
  ];
  const yTitle = inDb ? `|Z|, dB re 1 ${unitName}` : `|Z|, ${unitName}`;
  const keyRoom = keyWidth(key, keyStyle, small) - keyStyle.apart;
  const rowKey = large + small + 12;
  const rowAxis = textWidth(yTitle, small) + keyRoom + 12 < frame.width ? rowKey : rowKey + small + 6;
  const rowNotes = rowAxis + small + 10;
  const plot = plotBox(frame, { left: 3.4 * small, right: 8, top: rowNotes + 10 });
  const { frequencies } = chosen.curve;
  const x = scaleLog([frequencies[0], frequencies[frequencies.length - 1]], [plot.left, plot.right]);
  const scaled = inDb ? (pa: number) => 20 * Math.log10(pa / unitPa) : (pa: number) => pa / unitPa;
  // The scale is the reference's as long as the chosen curve fits: a scale that follows would hide what it should show.
  const tallest = scaled(max(reference.curve.magnitude)!);
  const chosenTallest = scaled(
    Math.max(max(chosen.curve.magnitude)!, (stillCurve && max(stillCurve.magnitude)) ?? 0),
  );
  const least = Math.max(scaled(min(reference.curve.magnitude)!) - 1, tallest - dbShown);
  const yDomain = inDb
    ? [least, Math.max(tallest + 4, chosenTallest + 2)]
    : [0, Math.max(1.12 * tallest, 1.06 * chosenTallest)];
  const y = scaleLinear(yDomain, [plot.bottom, plot.top]);
  const yOf = (pa: number) => y(scaled(pa));

  const placed = [frame.width, frame.height, inDb, ...x.domain(), ...y.domain()];
  const notes = notesOf(chosen, frame);
  keep(svg, [...placed, ...notes.map(({ name, hz }) => `${name} ${hz}`)], (parent) => {
    const ground: Panel = { parent, x, y, plot, size: small };
    leftAxis(ground, roundTicks(y, marksIn(heightOf(plot), 40, 2, 6)), true);
    bottomAxis(ground, spacedTicks(x, 3.2 * small), "frequency, Hz");
    heading(ground.parent, title, large);
    label(ground, yTitle, 0, rowAxis, { fill: "muted" });
    drawNotes(ground, notes, rowNotes);
  });
  const ground: Panel = { parent: silent(svg), x, y, plot, size: small };
  const inRow = keyRoom + 8 <= frame.width ? key : key.slice(0, 2);
  const drawnKey = (items: KeyItem[], row: number) =>
    drawKey(
      ground,
      items,
      frame.width - 8 - keyWidth(items, keyStyle, small) + keyStyle.apart,
      row,
      keyStyle,
    );
  drawnKey(inRow, rowKey);
  // a narrow sheet has the axis title's row for the rest
  if (inRow !== key) drawnKey(key.slice(2), rowAxis);

  const through = ({ frequencies, magnitude }: ScreenCurve) =>
    curve(
      alongAxis(frequencies, x),
      magnitude.map((pa) => clamp(yOf(pa), plot.top, plot.bottom)),
    );
  const curves = add(svg, "g", { "stroke-linejoin": "round" });
  keep(curves, [reference, ...placed], (parent) => {
    // Wider than the curve before it, so that dashes show on both sides where the two coincide.
    add(parent, "path", {
      "data-part": "reference-curve",
      d: through(reference.curve),
      stroke: "reference",
      "stroke-width": 4,
      "stroke-dasharray": referenceDash,
      "stroke-opacity": "0.75",
    });
  });
  if (stillCurve) add(curves, "path", { "data-part": "still-curve", d: through(stillCurve), ...STILL });
  const d = through(chosen.curve);
  add(curves, "path", { "data-part": "chosen-curve", d, stroke: "gap", "stroke-width": 1.75 });
  const on = { ...ground, parent: svg };
  labelPeaks(on, chosen, yOf, highlight, frame);
  if (cursorHz !== undefined) drawCursor(on, chosen, cursorHz, scaled, frame);
  return { svg, x, y, plot };
}

export function impedanceTable({ chosen, reference, stillCurve }: ImpedanceData, unit: LengthUnit): Table {
  const at = ({ gapMm }: AtGap) => `gap ${formatLength(gapMm, unit)}`;
  const still: Column<number>[] = stillCurve
    ? [
        [`|Z| what if, ${at(chosen)}, still air (Pa·s/m³)`, (_, i) => stillCurve.magnitude[i]],
        [`phase what if, ${at(chosen)}, still air (rad)`, (_, i) => stillCurve.phase[i]],
      ]
    : [];
  return tableOf(Array.from(chosen.curve.frequencies), [
    ["frequency (Hz)", (hz) => hz],
    [`|Z| what if, ${at(chosen)} (Pa·s/m³)`, (_, i) => chosen.curve.magnitude[i]],
    [`|Z| compared with, ${at(reference)} (Pa·s/m³)`, (_, i) => reference.curve.magnitude[i]],
    [`phase what if, ${at(chosen)} (rad)`, (_, i) => chosen.curve.phase[i]],
    [`phase compared with, ${at(reference)} (rad)`, (_, i) => reference.curve.phase[i]],
    ...still,
  ]);
}

/** Still air beside a breath: thin, and solid. */
const STILL = { stroke: "ink", "stroke-width": 0.9 } as const;

const keyStyle = { sample: 28, apart: 16 };

function spacedTicks(x: Scale, apart: number): Tick[] {
  const [low, high] = x.domain();
  const inside = frequencyTicks.filter((hz) => hz >= low && hz <= high);
  // Round numbers first, then what still finds room.
  const kept: number[] = [];
  for (const hz of [...inside].sort((a, b) => rank(a) - rank(b) || a - b))
    if (kept.every((other) => Math.abs(x(other) - x(hz)) >= apart)) kept.push(hz);
  return ticksAt(kept.sort((a, b) => a - b));
}

const rank = (hz: number): number =>
  ["1", "5", "2", "3", "7"].indexOf(`${hz}`[0]) + (hz % 500 === 0 || hz < 1000 ? 0 : 9);

interface Along {
  readonly ends: readonly number[];
  readonly places: Float64Array;
}

const along = new WeakMap<Float64Array, Along>();

/** Where frequencies stand, px: at a hand's every step these are the same. */
function alongAxis(frequencies: Float64Array, x: Scale): Float64Array {
  const ends = [...x.domain(), ...x.range()];
  const known = along.get(frequencies);
  if (known?.ends.every((end, i) => end === ends[i])) return known.places;
  const places = frequencies.map((hz) => x(hz));
  along.set(frequencies, { ends, places });
  return places;
}

/** The notes that the peaks are played for, at concert pitch, the lowest one's octaves first. */
const notesOf = ({ modes }: AtGap, { instrument }: Frame) =>
  modes
    .filter(({ n }) => n > 1)
    .map(({ n, frequencyHz }) => ({ n, ...concertNote(frequencyHz, n, instrument) }))
    .sort((a, b) => oddPart(a.n) - oddPart(b.n) || a.n - b.n);

/** Where the notes lie along the top, each where there is room for it. */
function drawNotes(on: Panel, notes: ReturnType<typeof notesOf>, row: number): void {
  const { parent, x, plot, size } = on;
  rule(parent, [plot.left, plot.top], [plot.right, plot.top], "hairline");
  const [low, high] = x.domain();
  const taken: [number, number][] = [];
  for (const { name, hz } of notes) {
    if (hz < low || hz > high) continue;
    const at = x(hz);
    const half = textWidth(name, size) / 2 + 3;
    if (at + half > plot.right + 8 || taken.some(([from, to]) => at + half > from && at - half < to))
      continue;
    taken.push([at - half, at + half]);
    rule(parent, [at, plot.top - 5], [at, plot.top], "ink");
    label(on, name, at, row, { anchor: "middle", fill: "muted" });
  }
  const free = Math.min(plot.right, ...taken.map(([from]) => from));
  const text = firstFitting(["notes at concert pitch", "concert pitch", "concert"], free - 8, size);
  if (text) label(on, text, 0, row, { fill: "muted" });
}

const oddPart = (n: number): number => (n % 2 === 0 ? oddPart(n / 2) : n);

function labelPeaks(
  { parent, x, plot, size }: Panel,
  { modes }: AtGap,
  yOf: (pa: number) => number,
  highlight: number | undefined,
  { instrument }: Frame,
): void {
  const group = add(parent, "g", { "aria-hidden": "true", "pointer-events": "none" });
  const [low, high] = x.domain();
  const taken: Box[] = [];
  const first = (n: number) => (n === highlight ? 0 : 1);
  const ordered = [...modes].sort((a, b) => first(a.n) - first(b.n) || a.n - b.n);
  for (const { n, peakHz, peakImpedance } of ordered) {
    if (peakHz === null || peakImpedance === null || peakHz < low || peakHz > high) continue;
    const [at, top] = [x(peakHz), Math.max(plot.top + size, yOf(peakImpedance) - 6)];
    const name = noteLabel(n, instrument);
    const half = textWidth(name, size) / 2;
    const box = { left: at - half, right: at + half, top: top - size, bottom: top };
    if (taken.some((other) => overlaps(box, other))) continue;
    taken.push(box);
    const isHighlight = n === highlight;
    if (isHighlight)
      add(group, "circle", { cx: at, cy: yOf(peakImpedance), r: 4, fill: "gap", stroke: "paper" });
    // on whole pixels: type that moves by a tenth of one is laid out again at every step of a hand
    write(group, name, Math.round(at), Math.round(top) - (isHighlight ? 2 : 0), {
      size,
      anchor: "middle",
      weight: isHighlight ? 700 : 500,
      halo: true,
      class: "peak-label",
    });
  }
}

const overlaps = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

function drawCursor(
  { parent, x, y, plot, size }: Panel,
  { curve: { frequencies, magnitude } }: AtGap,
  hz: number,
  scaled: (pa: number) => number,
  frame: ImpedanceFrame,
): void {
  const [low, high] = x.domain();
  const f = clamp(hz, low, high);
  const i = clamp(bisectLeft(frequencies, f), 1, frequencies.length - 1);
  const share = (f - frequencies[i - 1]) / (frequencies[i] - frequencies[i - 1]);
  const value = scaled(magnitude[i - 1] + share * (magnitude[i] - magnitude[i - 1]));
  const note = writtenPitch(f, frame.instrument);
  const unit = frame.magnitude === "dB" ? "dB" : unitName;
  const text = `${f.toFixed(1)} Hz · ${note.name} ${signed(note.cents, 0)} cents · ${value.toFixed(1)} ${unit}`;
  const group = readOutLine({ parent, x, plot }, f);
  dot(group, [x(f), clamp(y(value), plot.top, plot.bottom)], 4, "ink");
  const width = textWidth(text, size);
  // Beside the title, where it hides nothing, if there is room.
  const { large } = typeSizes(frame);
  if (textWidth(title, large) + width + 24 < frame.width) {
    write(group, text, plot.right, large, { size, anchor: "end" });
    return;
  }
  // Else in place of the axis title.
  const row = frame.height - 4;
  add(group, "rect", { x: 0, y: row - size - 1, width: frame.width, height: size + 5, fill: "paper" });
  write(group, text, Math.max(0, plot.right - width), row, { size });
}

function describe({ chosen, reference, stillCurve }: ImpedanceData, { unit, instrument }: Frame): string {
  const peaks = chosen.modes.filter(({ peakHz }) => peakHz !== null);
  if (peaks.length === 0) return `At a gap of ${bothUnits(chosen.gapMm, unit)} the impedance has no peak.`;
  const tallest = peaks.reduce((best, mode) => (mode.peakImpedance! > best.peakImpedance! ? mode : best));
  const same = reference.modes.find(({ n }) => n === tallest.n);
  const now = `that of ${noteText(tallest.n, instrument)} at ${tallest.peakHz!.toFixed(1)} Hz with ${(tallest.peakImpedance! / unitPa).toFixed(1)} ${unitName}`;
  const before =
    same?.peakHz != null && same.peakImpedance !== null
      ? ` At ${bothUnits(reference.gapMm, unit)}, the gap compared with, it stands at ${same.peakHz.toFixed(1)} Hz with ${(same.peakImpedance / unitPa).toFixed(1)} ${unitName}.`
      : "";
  const beside = stillCurve
    ? ` All of this is blown; in still air the highest impedance at this gap is ${(max(stillCurve.magnitude)! / unitPa).toFixed(1)} ${unitName}.`
    : "";
  return `At a gap of ${bothUnits(chosen.gapMm, unit)} there are ${peaks.length} peaks between ${peaks[0].peakHz!.toFixed(1)} and ${peaks[peaks.length - 1].peakHz!.toFixed(1)} Hz; the tallest is ${now}.${before}${beside}`;
}
