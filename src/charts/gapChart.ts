/**
 * What a quantity of each resonance does as the gap changes: the frame that height, shift and spacing share. The band of
 * changes too small to feel is always within the scale, however little the lines move: that is the point of the drawing.
 */
import { bisector, extent, scaleLinear, ticks } from "d3";
import type { Thresholds } from "../setup/setup.ts";
import type { GapSweep } from "../study/gapSweep.ts";
import type { ChangedMode } from "../study/modeChanges.ts";
import { formatLength } from "../units/formatLength.ts";
import type { LengthUnit } from "../units/length.ts";
import { arrowhead, bottomAxis, bottomAxisRoom, leftAxis } from "./axes.ts";
import { corners, curvePath } from "./curve.ts";
import {
  add,
  type Box,
  clamp,
  type Drawing,
  type Frame,
  type Point,
  polygonPath,
  px,
  referenceDash,
  rule,
  type Scale,
  sheet,
  type Table,
  textWidth,
  typeSizes,
  write,
} from "./drawing.ts";
import { hatchPath } from "./hatch.ts";
import { bothUnits, inUnit, lengthTicks, signed, tickText } from "./numbers.ts";
import { spread } from "./spread.ts";
import { colour, resonanceColour } from "./tokens.ts";

/** What is drawn of a sweep: of resonances, or of notes, which no slide is drawn for. */
export interface Swept<Mode extends { readonly n: number } = ChangedMode> {
  readonly referenceGapMm: number;
  readonly retune: number | null;
  readonly reference: readonly { readonly n: number }[];
  readonly rows: readonly {
    readonly gapMm: number;
    readonly slideMm: number;
    readonly modes: readonly Mode[];
  }[];
}

export interface GapChartData<Mode extends { readonly n: number } = ChangedMode> {
  readonly sweep: Swept<Mode>;
  readonly chosenGapMm: number;
  readonly thresholds: Thresholds;
  /** Gaps on the axis; those of the sweep if absent. Give it while a sweep is still growing. */
  readonly domainMm?: readonly [low: number, high: number];
  /** Number of the resonance that stands out. */
  readonly highlight?: number;
  /** Gap of the read-out line. */
  readonly cursorGapMm?: number;
}

/** A drawing whose gaps can be put elsewhere while all else stays as it is: what a dragging hand asks for at every step. */
export interface GapDrawing extends Drawing {
  readonly move: (gaps: Gaps) => void;
}

type Gaps = Pick<GapChartData, "chosenGapMm" | "cursorGapMm">;

export interface Quantity<Mode extends { readonly n: number } = ChangedMode> {
  readonly name: string;
  /** What the lines are of. */
  readonly noun?: "resonance" | "note";
  readonly title: string;
  readonly axis: string;
  readonly unit: "dB" | "cents";
  readonly digits: number;
  readonly of: (mode: Mode) => number | null;
  readonly feltFrom: (thresholds: Thresholds) => number;
  /** What the rule of thumb says of it, and nothing more than which way it points. */
  readonly rule?: string;
  /** The finding's verb and its object, for the text alternative. */
  readonly inWords: string;
}

/** Resonances notes are played on, drawn and labelled; the others only when one of them is asked for. */
const played = [2, 10] as const;

export function gapChart<Mode extends { readonly n: number }>(
  quantity: Quantity<Mode>,
  data: GapChartData<Mode>,
  frame: Frame,
): GapDrawing {
  const { sweep, highlight } = data;
  const { small, large } = typeSizes(frame);
  const band = quantity.feltFrom(data.thresholds);
  const series = seriesOf(quantity, sweep, highlight);
  const { noun = "resonance" } = quantity;
  const title = noun === "note" ? quantity.title : `${quantity.title}, ${viewOf(sweep)}`;
  const svg = sheet(frame, {
    name: quantity.name,
    title,
    description: describe(quantity, data, series, band, frame.unit),
    role: "group",
  });

  const rowAxis = large + small + 12;
  const rowGaps = rowAxis + small + 8;
  const plot: Box = {
    left: 3.4 * small,
    right: frame.width - 3.6 * small,
    top: rowGaps + 6,
    bottom: frame.height - bottomAxisRoom(small),
  };
  const x = scaleLinear(gapDomain(data), [plot.left, plot.right]);
  const y = scaleLinear(valueDomain(series, band), [plot.bottom, plot.top]);

  const ground = add(svg, "g", { "aria-hidden": "true" });
  // What a label should keep clear of. The chosen gap's line is left out: labels would jump as it is dragged.
  const referenceAt = x(sweep.referenceGapMm);
  const runs = series.map(({ samples }) =>
    corners(
      samples.map(({ gapMm }) => x(gapMm)),
      samples.map(({ value }) => (value === null ? Number.NaN : y(value))),
    ),
  );
  const lines: Point[][] = [
    ...runs.flat(),
    [
      [referenceAt, plot.top],
      [referenceAt, plot.bottom],
    ],
  ];
  drawBand(ground, plot, y, band, quantity.unit, small, lines);
  bottomAxis(
    ground,
    x,
    plot,
    lengthTicks(x, ticks, frame.unit, clamp(Math.floor((plot.right - plot.left) / 60), 2, 8)).map(
      ({ mm, text }) => ({
        value: mm,
        text,
      }),
    ),
    `gap, ${frame.unit}`,
    small,
  );
  const valueTicks = y.ticks(clamp(Math.floor((plot.bottom - plot.top) / 36), 2, 7));
  leftAxis(
    ground,
    y,
    plot,
    valueTicks.map((value) => ({ value, text: tickText(value, true) })),
    small,
  );
  rule(ground, [plot.left, y(0)], [plot.right, y(0)], colour("hairline"));
  write(ground, title, 0, large, { size: large, weight: 600 });
  write(ground, quantity.axis, 0, rowAxis, { size: small, fill: colour("muted") });
  write(ground, noun, frame.width - 2, rowAxis, { size: small, anchor: "end", fill: colour("muted") });
  if (quantity.rule) drawRule(ground, quantity.rule, plot, y, band, small, lines);

  const drawn = add(svg, "g", {
    "aria-hidden": "true",
    "stroke-linejoin": "round",
    "stroke-linecap": "round",
  });
  series.forEach(({ n }, i) => {
    add(drawn, "path", {
      "data-resonance": `${n}`,
      d: curvePath(runs[i]),
      stroke: resonanceColour(n),
      "stroke-width": n === highlight ? 3 : 1.5,
    });
  });
  labelEnds(drawn, series, x, y, plot, small, highlight);

  const still = svg.childElementCount;
  const mark = ({ chosenGapMm, cursorGapMm }: Gaps) => {
    drawGaps(svg, { ...data, chosenGapMm }, x, plot, rowGaps, small, frame.unit);
    for (const { n, samples } of series) {
      const value = valueAt(samples, chosenGapMm);
      if (value === null) continue;
      add(svg, "circle", {
        cx: x(chosenGapMm),
        cy: y(value),
        r: n === highlight ? 4.5 : 2.75,
        fill: n === highlight ? colour("gap") : colour("paper"),
        stroke: colour("gap"),
        "stroke-width": 1.5,
        "pointer-events": "none",
      });
    }
    if (cursorGapMm !== undefined)
      drawCursor(svg, quantity, series, cursorGapMm, highlight, x, y, plot, small, frame.unit);
  };
  mark(data);
  const move: GapDrawing["move"] = (gaps) => {
    while (svg.childElementCount > still) svg.lastElementChild!.remove();
    mark(gaps);
    svg.querySelector("desc")!.textContent = describe(
      quantity,
      { ...data, ...gaps },
      series,
      band,
      frame.unit,
    );
  };
  return { svg, x, y, plot, move };
}

export function gapTable<Mode extends { readonly n: number }>(
  quantity: Quantity<Mode>,
  { sweep }: Pick<GapChartData<Mode>, "sweep">,
  unit: LengthUnit,
): Table {
  const numbers = sweep.reference.map(({ n }) => n);
  const { noun = "resonance" } = quantity;
  const hasSlide = noun === "resonance";
  return {
    columns: [
      `gap (${unit})`,
      ...(hasSlide ? [`slide drawn (${unit})`] : []),
      ...numbers.map((n) => `${noun} ${n}: ${quantity.axis.replace(/, .*$/, "")} (${quantity.unit})`),
    ],
    rows: sweep.rows.map((row) => [
      inUnit(row.gapMm, unit),
      ...(hasSlide ? [inUnit(row.slideMm, unit)] : []),
      ...numbers.map((n) => quantityOf(quantity, row, n) ?? ""),
    ]),
  };
}

interface Sample {
  readonly gapMm: number;
  readonly value: number | null;
}

interface Series {
  readonly n: number;
  readonly samples: readonly Sample[];
}

function quantityOf<Mode extends { readonly n: number }>(
  quantity: Quantity<Mode>,
  { modes }: { readonly modes: readonly Mode[] },
  n: number,
): number | null {
  const mode = modes.find((candidate) => candidate.n === n);
  const value = mode ? quantity.of(mode) : null;
  return value !== null && Number.isFinite(value) ? value : null;
}

const viewOf = ({ retune }: Pick<GapSweep, "retune">): string =>
  retune === null ? "slide as it is" : `slide retuned on resonance ${retune}`;

function seriesOf<Mode extends { readonly n: number }>(
  quantity: Quantity<Mode>,
  { reference, rows }: Swept<Mode>,
  highlight?: number,
): Series[] {
  const ordered = [...rows].sort((a, b) => a.gapMm - b.gapMm);
  return reference
    .filter(({ n }) => (n >= played[0] && n <= played[1]) || n === highlight)
    .map(({ n }) => ({
      n,
      samples: ordered.map((row) => ({ gapMm: row.gapMm, value: quantityOf(quantity, row, n) })),
    }))
    .filter(({ samples }) => samples.some(({ value }) => value !== null));
}

const byGap = bisector(({ gapMm }: { gapMm: number }) => gapMm);

/** Between neighbouring gaps of the sweep by straight lines, as drawn; null beyond its ends and beside a missing value. */
function valueAt(samples: readonly Sample[], gapMm: number): number | null {
  const i = byGap.left(samples, gapMm);
  const next = samples[i];
  if (next === undefined) return null;
  if (next.gapMm === gapMm) return next.value;
  const before = samples[i - 1];
  if (before === undefined || before.value === null || next.value === null) return null;
  return before.value + ((gapMm - before.gapMm) / (next.gapMm - before.gapMm)) * (next.value - before.value);
}

function gapDomain<Mode extends { readonly n: number }>({
  sweep,
  chosenGapMm,
  domainMm,
}: GapChartData<Mode>): [number, number] {
  const [low, high] =
    domainMm ??
    (extent([...sweep.rows.map(({ gapMm }) => gapMm), sweep.referenceGapMm, chosenGapMm]) as [
      number,
      number,
    ]);
  return low < high ? [low, high] : [low, low + 1];
}

function valueDomain(series: readonly Series[], band: number): [number, number] {
  const values = series.flatMap(({ samples }) => samples.map(({ value }) => value ?? 0));
  const [low, high] = [Math.min(0, ...values), Math.max(0, ...values)];
  const room = 0.06 * (high - low);
  return [Math.min(-1.45 * band, low - room), Math.max(1.45 * band, high + room)];
}

function drawBand(
  parent: Element,
  { left, right }: Box,
  y: Scale,
  band: number,
  unit: string,
  size: number,
  lines: readonly Point[][],
): void {
  const [top, bottom] = [y(band), y(-band)];
  const corners: Point[] = [
    [left, top],
    [right, top],
    [right, bottom],
    [left, bottom],
  ];
  add(parent, "path", { d: hatchPath(corners, 7, -1), stroke: colour("feel") });
  for (const edge of [top, bottom]) rule(parent, [left, edge], [right, edge], colour("hairline"));
  const full = `too small to feel: under ${tickText(band)} ${unit}`;
  const label = textWidth(full, size) < right - left - 16 ? full : "too small to feel";
  const width = textWidth(label, size);
  const place = clearest(
    [bottom - size - 9, top + 5].flatMap((at) =>
      startsFrom(left + 8, right - 8 - width).map((from) => ({
        left: from,
        right: from + width,
        top: at,
        bottom: at + size + 4,
      })),
    ),
    lines,
  );
  write(parent, label, place.left, place.top + size, { size, fill: colour("muted"), halo: true });
}

/** Slanted up for "more", beyond the band where there is room; its slope means nothing. */
function drawRule(
  parent: Element,
  text: string,
  { left, right, top }: Box,
  y: Scale,
  band: number,
  size: number,
  lines: readonly Point[][],
): void {
  const room = y(band) - top;
  const rise = clamp(room - 10, 8, 26);
  const run = clamp(0.1 * (right - left), 26, 56);
  const full = `rule of thumb: ${text}`;
  const label = run + textWidth(full, size) + 34 < right - left ? full : text;
  const width = run + 10 + textWidth(label, size);
  const height = Math.max(rise, size + 4);
  const upper = top + Math.max(2, (room - height) / 2);
  const place = clearest(
    startsFrom(left + 12, right - 8 - width).map((from) => ({
      left: from,
      right: from + width,
      top: upper,
      bottom: upper + height,
    })),
    lines,
  );
  const middle = (place.top + place.bottom) / 2;
  const foot: Point = [place.left, middle + rise / 2];
  const tip: Point = [foot[0] + run, middle - rise / 2];
  const angle = Math.atan2(tip[1] - foot[1], tip[0] - foot[0]);
  rule(parent, foot, [tip[0] - 6 * Math.cos(angle), tip[1] - 6 * Math.sin(angle)], colour("ink"), 1.5);
  add(parent, "path", { d: polygonPath(arrowhead(tip, angle, 11, 3.6)), fill: colour("ink") });
  write(parent, label, tip[0] + 10, middle + 0.36 * size, { size, halo: true });
}

/** Where a label may start: at either end, else between. */
const startsFrom = (first: number, last: number): number[] =>
  [0, 1, 0.25, 0.5, 0.75].map((share) => first + share * (last - first));

/** The place that fewest lines run through; the first of equals. */
function clearest(places: readonly Box[], lines: readonly Point[][]): Box {
  const crossed = ({ left, right, top, bottom }: Box) =>
    lines.filter((points) =>
      points.some(([x1, y1], i) => {
        const [x2, y2] = points[Math.min(i + 1, points.length - 1)];
        return (
          Math.max(x1, x2) >= left &&
          Math.min(x1, x2) <= right &&
          Math.max(y1, y2) >= top &&
          Math.min(y1, y2) <= bottom
        );
      }),
    ).length;
  const counts = places.map(crossed);
  return places[counts.indexOf(Math.min(...counts))];
}

/** The number of each resonance where its line ends; where they would crowd, the labels step apart and leaders follow. */
function labelEnds(
  parent: Element,
  series: readonly Series[],
  x: Scale,
  y: Scale,
  plot: Box,
  size: number,
  highlight?: number,
): void {
  const ends = series
    .map(({ n, samples }) => ({ n, last: samples.findLast(({ value }) => value !== null)! }))
    .sort((a, b) => y(a.last.value!) - y(b.last.value!));
  const apart = size + 1;
  const room = Math.max(1, Math.floor((plot.bottom - plot.top) / apart) + 1);
  const shown = thinned(ends, room, highlight);
  const places = spread(
    shown.map(({ last }) => y(last.value!)),
    apart,
    [plot.top, plot.bottom],
  );
  shown.forEach(({ n, last }, i) => {
    const stroke = resonanceColour(n);
    const elbow = plot.right + 0.9 * size;
    add(parent, "path", {
      d: `M${px(x(last.gapMm))},${px(y(last.value!))}L${px(elbow)},${px(places[i])}h4`,
      stroke,
      "stroke-width": 0.75,
    });
    write(parent, `${n}`, elbow + 7, places[i] + 0.36 * size, {
      size,
      weight: n === highlight ? 700 : 500,
    }).setAttribute("class", "end-label");
  });
}

/** At most `room` of them, evenly through their order, the highlighted one always. */
function thinned<T extends { readonly n: number }>(
  items: readonly T[],
  room: number,
  highlight?: number,
): T[] {
  if (items.length <= room) return [...items];
  const kept = new Set(Array.from({ length: room }, (_, i) => Math.floor(((i + 0.5) * items.length) / room)));
  const wanted = items.findIndex(({ n }) => n === highlight);
  if (wanted >= 0 && !kept.has(wanted)) {
    const nearest = [...kept].reduce((a, b) => (Math.abs(a - wanted) <= Math.abs(b - wanted) ? a : b));
    kept.delete(nearest);
    kept.add(wanted);
  }
  return items.filter((_, i) => kept.has(i));
}

function drawGaps(
  svg: SVGSVGElement,
  { sweep, chosenGapMm }: { readonly sweep: Slid; readonly chosenGapMm: number },
  x: Scale,
  plot: Box,
  row: number,
  size: number,
  unit: LengthUnit,
): void {
  const at = x(chosenGapMm);
  const referenceAt = x(sweep.referenceGapMm);
  const chosenText = formatLength(chosenGapMm, unit) + slideText(sweep, chosenGapMm, unit);
  const referenceText = `reference ${formatLength(sweep.referenceGapMm, unit)}`;
  const [width, referenceWidth] = [textWidth(chosenText, size), textWidth(referenceText, size)];
  const edge = plot.right + 3.6 * size;
  let middle = clamp(at, width / 2, edge - width / 2);
  let referenceMiddle = clamp(referenceAt, referenceWidth / 2, edge - referenceWidth / 2);
  const apart = (width + referenceWidth) / 2 + 8;
  const side = referenceAt <= at ? -1 : 1;
  if (side * (referenceMiddle - middle) < apart) {
    referenceMiddle = middle + side * apart;
    const beyond =
      Math.min(0, referenceMiddle - referenceWidth / 2) +
      Math.max(0, referenceMiddle + referenceWidth / 2 - edge);
    referenceMiddle -= beyond;
    middle -= beyond;
  }
  const reference = add(svg, "g", { "data-part": "reference-line", "aria-hidden": "true" });
  rule(
    reference,
    [referenceAt, plot.top - 4],
    [referenceAt, plot.bottom],
    colour("reference"),
    1.5,
    referenceDash,
  );
  write(reference, referenceText, referenceMiddle, row, {
    size,
    anchor: "middle",
    fill: colour("reference"),
  });

  const chosen = add(svg, "g", { class: "gap-line", "data-part": "gap-line", cursor: "ew-resize" });
  rule(chosen, [at, plot.top - 4], [at, plot.bottom], colour("gap"), 2);
  add(chosen, "path", {
    d: polygonPath([
      [at, plot.bottom],
      [at - 5, plot.bottom + 8],
      [at + 5, plot.bottom + 8],
    ]),
    fill: colour("gap"),
  });
  write(chosen, chosenText, middle, row, { size, anchor: "middle", fill: colour("gap"), weight: 600 });
  add(chosen, "rect", {
    class: "hit",
    x: at - 14,
    y: plot.top - 8,
    width: 28,
    height: plot.bottom - plot.top + 24,
    fill: "transparent",
    "pointer-events": "all",
  });
}

type Slid = Swept<{ readonly n: number }>;

/** What the player's hand on the slide has to do, when the drawing shows the retuned instrument. */
function slideText({ retune, rows }: Slid, gapMm: number, unit: LengthUnit): string {
  if (retune === null) return "";
  const slides = [...rows]
    .sort((a, b) => a.gapMm - b.gapMm)
    .map((row) => ({ gapMm: row.gapMm, value: row.slideMm }));
  const slideMm = valueAt(slides, gapMm);
  if (slideMm === null) return "";
  const size = formatLength(Math.abs(slideMm), unit, unit === "mm" ? 1 : 2);
  return Number.parseFloat(size) === 0 ? ", slide stays" : `, slide ${slideMm < 0 ? "in" : "out"} ${size}`;
}

function drawCursor(
  svg: SVGSVGElement,
  { digits, unit: valueUnit, noun = "resonance" }: Pick<Quantity, "digits" | "unit" | "noun">,
  series: readonly Series[],
  gapMm: number,
  highlight: number | undefined,
  x: Scale,
  y: Scale,
  plot: Box,
  size: number,
  unit: LengthUnit,
): void {
  const at = x(gapMm);
  const group = add(svg, "g", { class: "cursor", "data-part": "cursor", "pointer-events": "none" });
  rule(group, [at, plot.top], [at, plot.bottom], colour("ink"));
  const shown = series.find(({ n }) => n === highlight);
  const value = shown ? valueAt(shown.samples, gapMm) : null;
  let text = formatLength(gapMm, unit);
  if (value !== null) {
    text += `: ${noun} ${highlight} ${signed(value, digits)} ${valueUnit}`;
    add(group, "circle", { cx: at, cy: y(value), r: 4, fill: colour("ink") });
  }
  const toRight = at + 8 + textWidth(text, size) < plot.right;
  const leftmost = plot.left + 4 + textWidth(text, size);
  write(group, text, toRight ? at + 8 : Math.max(at - 8, leftmost), plot.bottom - 8, {
    size,
    anchor: toRight ? "start" : "end",
    halo: true,
  });
}

function describe(
  quantity: Omit<Quantity, "of">,
  { sweep, chosenGapMm }: { readonly sweep: Slid; readonly chosenGapMm: number },
  series: readonly Series[],
  band: number,
  unit: LengthUnit,
): string {
  const { noun = "resonance" } = quantity;
  const found = series
    .filter(({ n }) => n >= played[0] && n <= played[1])
    .map(({ n, samples }) => ({ n, value: valueAt(samples, chosenGapMm) }))
    .filter((one): one is { n: number; value: number } => one.value !== null)
    .sort((a, b) => a.value - b.value);
  const gaps = `At a gap of ${bothUnits(chosenGapMm, unit)} against the reference of ${bothUnits(sweep.referenceGapMm, unit)}`;
  const view =
    noun === "note"
      ? ""
      : ` With the ${viewOf(sweep).replace("slide ", "tuning slide ")}${slideText(sweep, chosenGapMm, unit).replace(/^, slide/, ":")}.`;
  const ruleText = quantity.rule
    ? `The rule of thumb says: ${quantity.rule.replace("→", "means")}.`
    : "The rule of thumb says nothing of it.";
  if (found.length === 0) return `${gaps} there is nothing to compare yet. ${ruleText}`;
  const [lowest, highest] = [found[0], found[found.length - 1]];
  const one = ({ n, value }: { n: number; value: number }) =>
    `${signed(value, quantity.digits)} ${quantity.unit} (${noun} ${n})`;
  const felt = found.filter(({ value }) => Math.abs(value) >= band).map(({ n }) => n);
  const finding =
    felt.length === 0
      ? `All are within ±${tickText(band)} ${quantity.unit}: too small to feel.`
      : `Beyond ±${tickText(band)} ${quantity.unit}, where it can be felt: ${noun} ${felt.sort((a, b) => a - b).join(", ")}.`;
  return `${gaps}, ${quantity.inWords} by ${one(lowest)} to ${one(highest)}. ${finding}${view} ${ruleText}`;
}
