/** |Z| at the rim against frequency: the chosen gap's curve over the reference's. */
import { bisectLeft, max, min, scaleLinear, scaleLog } from "d3";
import type { AtGap, ScreenCurve } from "../../study/instrument/exploration.ts";
import { formatLength } from "../../units/formatLength.ts";
import type { LengthUnit } from "../../units/length.ts";
import { nearestNote } from "../../words/notes.ts";
import { bothUnits, signed } from "../../words/numbers.ts";
import { bottomAxis, bottomAxisRoom, leftAxis } from "../kit/axes.ts";
import { corners, curvePath } from "../kit/curve.ts";
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
import { tickText } from "../kit/numbers.ts";
import { colour } from "../kit/tokens.ts";

export interface ImpedanceData {
  readonly chosen: AtGap;
  readonly reference: AtGap;
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
  const { chosen, reference, cursorHz, highlight } = data;
  const { small, large } = typeSizes(frame);
  const inDb = frame.magnitude === "dB";
  const svg = sheet(frame, {
    name: "impedance-chart",
    title,
    description: describe(data, frame.unit),
  });

  const chosenText = `chosen ${formatLength(chosen.gapMm, frame.unit)}`;
  const referenceText = `reference ${formatLength(reference.gapMm, frame.unit)}`;
  const yTitle = inDb ? `|Z|, dB re 1 ${unitName}` : `|Z|, ${unitName}`;
  const keyWidth = textWidth(chosenText + referenceText, small) + 2 * (keySample + 6) + 16;
  const rowKey = large + small + 12;
  const rowAxis = textWidth(yTitle, small) + keyWidth + 12 < frame.width ? rowKey : rowKey + small + 6;
  const rowNotes = rowAxis + small + 10;
  const plot: Box = {
    left: 3.4 * small,
    right: frame.width - 8,
    top: rowNotes + 10,
    bottom: frame.height - bottomAxisRoom(small),
  };
  const { frequencies } = chosen.curve;
  const x = scaleLog([frequencies[0], frequencies[frequencies.length - 1]], [plot.left, plot.right]);
  const scaled = inDb ? (pa: number) => 20 * Math.log10(pa / unitPa) : (pa: number) => pa / unitPa;
  // The scale is the reference's as long as the chosen curve fits: a scale that follows would hide what it should show.
  const tallest = scaled(max(reference.curve.magnitude)!);
  const chosenTallest = scaled(max(chosen.curve.magnitude)!);
  const yDomain = inDb
    ? [
        Math.max(scaled(min(reference.curve.magnitude)!) - 1, tallest - dbShown),
        Math.max(tallest + 4, chosenTallest + 2),
      ]
    : [0, Math.max(1.12 * tallest, 1.06 * chosenTallest)];
  const y = scaleLinear(yDomain, [plot.bottom, plot.top]);

  const ground = add(svg, "g", { "aria-hidden": "true" });
  const yTicks = y.ticks(clamp(Math.floor((plot.bottom - plot.top) / 40), 2, 6));
  leftAxis(
    ground,
    y,
    plot,
    yTicks.map((value) => ({ value, text: tickText(value) })),
    small,
    true,
  );
  bottomAxis(ground, x, plot, spacedTicks(x, 3.2 * small), "frequency, Hz", small);
  write(ground, title, 0, large, { size: large, weight: 600 });
  write(ground, yTitle, 0, rowAxis, { size: small, fill: colour("muted") });
  drawKey(ground, chosenText, referenceText, frame.width - 8 - keyWidth, rowKey, small);
  drawNotes(ground, chosen, x, plot, rowNotes, small);

  const xs = Float64Array.from(frequencies, (hz) => x(hz));
  const curve = ({ magnitude }: ScreenCurve) => {
    const ys = magnitude.map((pa) => clamp(y(scaled(pa)), plot.top, plot.bottom));
    return curvePath(corners(xs, ys));
  };
  const curves = add(svg, "g", { "stroke-linejoin": "round" });
  // Wider than the curve before it, so that dashes show on both sides where the two coincide.
  add(curves, "path", {
    "data-part": "reference-curve",
    d: curve(reference.curve),
    stroke: colour("reference"),
    "stroke-width": 4,
    "stroke-dasharray": referenceDash,
    "stroke-opacity": "0.75",
  });
  add(curves, "path", {
    "data-part": "chosen-curve",
    d: curve(chosen.curve),
    stroke: colour("gap"),
    "stroke-width": 1.75,
  });
  labelPeaks(svg, chosen, x, (pa) => y(scaled(pa)), plot, small, highlight);
  if (cursorHz !== undefined) drawCursor(svg, chosen, cursorHz, scaled, x, y, plot, small, frame);
  return { svg, x, y, plot };
}

export function impedanceTable({ chosen, reference }: ImpedanceData, unit: LengthUnit): Table {
  const at = ({ gapMm }: AtGap) => `gap ${formatLength(gapMm, unit)}`;
  return {
    columns: [
      "frequency (Hz)",
      `|Z| chosen, ${at(chosen)} (Pa·s/m³)`,
      `|Z| reference, ${at(reference)} (Pa·s/m³)`,
      `phase chosen, ${at(chosen)} (rad)`,
      `phase reference, ${at(reference)} (rad)`,
    ],
    rows: Array.from(chosen.curve.frequencies, (frequency, i) => [
      frequency,
      chosen.curve.magnitude[i],
      reference.curve.magnitude[i],
      chosen.curve.phase[i],
      reference.curve.phase[i],
    ]),
  };
}

const keySample = 28;

function drawKey(
  parent: Element,
  chosen: string,
  reference: string,
  x: number,
  row: number,
  size: number,
): void {
  const line = row - 0.33 * size;
  const second = x + keySample + 6 + textWidth(chosen, size) + 16;
  rule(parent, [x, line], [x + keySample, line], colour("gap"), 2);
  write(parent, chosen, x + keySample + 6, row, { size, fill: colour("gap"), weight: 600 });
  rule(parent, [second, line], [second + keySample, line], colour("reference"), 3, referenceDash);
  write(parent, reference, second + keySample + 6, row, { size, fill: colour("reference") });
}

function spacedTicks(x: Scale, apart: number): { value: number; text: string }[] {
  const [low, high] = x.domain();
  const inside = frequencyTicks.filter((hz) => hz >= low && hz <= high);
  // Round numbers first, then what still finds room.
  const kept: number[] = [];
  for (const hz of [...inside].sort((a, b) => rank(a) - rank(b) || a - b))
    if (kept.every((other) => Math.abs(x(other) - x(hz)) >= apart)) kept.push(hz);
  return kept.sort((a, b) => a - b).map((value) => ({ value, text: `${value}` }));
}

const rank = (hz: number): number =>
  ["1", "5", "2", "3", "7"].indexOf(`${hz}`[0]) + (hz % 500 === 0 || hz < 1000 ? 0 : 9);

/** The notes the resonances stand for, in place along the top: octaves of the lowest first, the others where there is room. */
function drawNotes(parent: Element, { modes }: AtGap, x: Scale, plot: Box, row: number, size: number): void {
  rule(parent, [plot.left, plot.top], [plot.right, plot.top], colour("hairline"));
  const [low, high] = x.domain();
  const notes = modes
    .filter(({ n }) => n > 1)
    .map((mode) => ({ n: mode.n, ...nearestNote(mode.frequencyHz) }))
    .filter(({ hz }) => hz >= low && hz <= high)
    .sort((a, b) => oddPart(a.n) - oddPart(b.n) || a.n - b.n);
  const taken: [number, number][] = [];
  for (const { name, hz } of notes) {
    const at = x(hz);
    const half = textWidth(name, size) / 2 + 3;
    if (at + half > plot.right + 8 || taken.some(([from, to]) => at + half > from && at - half < to))
      continue;
    taken.push([at - half, at + half]);
    rule(parent, [at, plot.top - 5], [at, plot.top], colour("ink"));
    write(parent, name, at, row, { size, anchor: "middle", fill: colour("muted") });
  }
  const free = Math.min(plot.right, ...taken.map(([from]) => from));
  const heading = ["notes at concert pitch", "concert pitch", "notes"].find(
    (text) => textWidth(text, size) < free - 8,
  );
  if (heading) write(parent, heading, 0, row, { size, fill: colour("muted") });
}

const oddPart = (n: number): number => (n % 2 === 0 ? oddPart(n / 2) : n);

function labelPeaks(
  parent: Element,
  { modes }: AtGap,
  x: Scale,
  yOf: (pa: number) => number,
  plot: Box,
  size: number,
  highlight?: number,
): void {
  const group = add(parent, "g", { "aria-hidden": "true", "pointer-events": "none" });
  const [low, high] = x.domain();
  const taken: Box[] = [];
  const first = (n: number) => (n === highlight ? 0 : 1);
  for (const { n, peakHz, peakImpedance } of [...modes].sort(
    (a, b) => first(a.n) - first(b.n) || a.n - b.n,
  )) {
    if (peakHz === null || peakImpedance === null || peakHz < low || peakHz > high) continue;
    const [at, top] = [x(peakHz), Math.max(plot.top + size, yOf(peakImpedance) - 6)];
    const half = textWidth(`${n}`, size) / 2;
    const box = { left: at - half, right: at + half, top: top - size, bottom: top };
    if (taken.some((other) => overlaps(box, other))) continue;
    taken.push(box);
    if (n === highlight)
      add(group, "circle", {
        cx: at,
        cy: yOf(peakImpedance),
        r: 4,
        fill: colour("gap"),
        stroke: colour("paper"),
      });
    write(group, `${n}`, at, top - (n === highlight ? 2 : 0), {
      size,
      anchor: "middle",
      weight: n === highlight ? 700 : 500,
      halo: true,
    }).setAttribute("class", "peak-label");
  }
}

const overlaps = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

function drawCursor(
  svg: SVGSVGElement,
  { curve: { frequencies, magnitude } }: AtGap,
  hz: number,
  scaled: (pa: number) => number,
  x: Scale,
  y: Scale,
  plot: Box,
  size: number,
  frame: ImpedanceFrame,
): void {
  const [low, high] = x.domain();
  const f = clamp(hz, low, high);
  const i = clamp(bisectLeft(frequencies, f), 1, frequencies.length - 1);
  const share = (f - frequencies[i - 1]) / (frequencies[i] - frequencies[i - 1]);
  const pa = magnitude[i - 1] + share * (magnitude[i] - magnitude[i - 1]);
  const note = nearestNote(f);
  const value =
    frame.magnitude === "dB" ? `${scaled(pa).toFixed(1)} dB` : `${scaled(pa).toFixed(1)} ${unitName}`;
  const text = `${f.toFixed(1)} Hz · ${note.name} ${signed(note.cents, 0)} cents · ${value}`;
  const group = add(svg, "g", { class: "cursor", "data-part": "cursor", "pointer-events": "none" });
  const at = x(f);
  rule(group, [at, plot.top], [at, plot.bottom], colour("ink"));
  add(group, "circle", {
    cx: at,
    cy: clamp(y(scaled(pa)), plot.top, plot.bottom),
    r: 4,
    fill: colour("ink"),
  });
  const width = textWidth(text, size);
  // Beside the title, where it hides nothing, if there is room.
  const { large } = typeSizes(frame);
  if (textWidth(title, large) + width + 24 < frame.width) {
    write(group, text, plot.right, large, { size, anchor: "end" });
    return;
  }
  // Else in place of the axis title.
  const row = frame.height - 4;
  add(group, "rect", {
    x: 0,
    y: row - size - 1,
    width: frame.width,
    height: size + 5,
    fill: colour("paper"),
  });
  write(group, text, Math.max(0, plot.right - width), row, { size });
}

function describe({ chosen, reference }: ImpedanceData, unit: LengthUnit): string {
  const peaks = chosen.modes.filter(({ peakHz }) => peakHz !== null);
  if (peaks.length === 0) return `At a gap of ${bothUnits(chosen.gapMm, unit)} the impedance has no peak.`;
  const tallest = peaks.reduce((best, mode) => (mode.peakImpedance! > best.peakImpedance! ? mode : best));
  const same = reference.modes.find(({ n }) => n === tallest.n);
  const now = `resonance ${tallest.n} at ${tallest.peakHz!.toFixed(1)} Hz with ${(tallest.peakImpedance! / unitPa).toFixed(1)} ${unitName}`;
  const before =
    same?.peakHz != null && same.peakImpedance !== null
      ? ` At the reference gap of ${bothUnits(reference.gapMm, unit)} it stands at ${same.peakHz.toFixed(1)} Hz with ${(same.peakImpedance / unitPa).toFixed(1)} ${unitName}.`
      : "";
  return `At a gap of ${bothUnits(chosen.gapMm, unit)} there are ${peaks.length} peaks between ${peaks[0].peakHz!.toFixed(1)} and ${peaks[peaks.length - 1].peakHz!.toFixed(1)} Hz; the tallest is ${now}.${before}`;
}
