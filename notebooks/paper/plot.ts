/** A plain graph in the drawing office's manner: lines named at their ends, points, a band, a mark. For what has no drawing of its own. */
import { scaleLinear, scaleLog } from "d3";
import { bottomAxis, leftAxis } from "../../src/charts/kit/axes.ts";
import {
  add,
  type Box,
  clamp,
  type Drawing,
  type Frame,
  type Point,
  px,
  rule,
  type Scale,
  sheet,
  textWidth,
  typeSizes,
  write,
} from "../../src/charts/kit/drawing.ts";
import { spread } from "../../src/charts/kit/labels/spread.ts";
import { corners, curvePath } from "../../src/charts/kit/marks/curve.ts";
import { hatchPath } from "../../src/charts/kit/marks/hatch.ts";
import { referenceDash } from "../../src/charts/kit/marks/line.ts";
import { tickText } from "../../src/charts/kit/numbers.ts";
import { bottomAxisRoom } from "../../src/charts/kit/panel.ts";
import type { Tick } from "../../src/charts/kit/ticks.ts";
import { colour, type TokenName } from "../../src/charts/kit/tokens.ts";

export interface Axis {
  /** With its unit. */
  readonly title: string;
  readonly domain: readonly [low: number, high: number];
  readonly log?: boolean;
  /** Where the marks stand; round numbers where left out. */
  readonly ticks?: readonly number[];
  readonly text?: (value: number) => string;
}

export interface PlotLine {
  /** Written at the line's end; a line without one is told by the key or the caption. */
  readonly name?: string;
  readonly xs: ArrayLike<number>;
  /** What is not finite leaves a hole. */
  readonly ys: ArrayLike<number>;
  readonly colour: TokenName;
  /** As a reference is drawn. */
  readonly dashed?: boolean;
  readonly width?: number;
}

export interface PlotPoints {
  readonly xs: ArrayLike<number>;
  readonly ys: ArrayLike<number>;
  readonly colour: TokenName;
  /** `ring` for the model's own, `cross` for values from elsewhere. */
  readonly shape: "dot" | "ring" | "cross";
  readonly size?: number;
}

/** A stretch of the y axis under a light hatch, with its name. */
export interface PlotBand {
  readonly from: number;
  readonly to: number;
  readonly text?: string;
}

/** A value of x that the reader has chosen. */
export interface PlotMark {
  readonly x: number;
  readonly text?: string;
  readonly colour?: TokenName;
}

/** A few letters on the sheet, their middle above a place in it. */
export interface PlotLabel {
  readonly x: number;
  readonly y: number;
  readonly text: string;
  readonly colour?: TokenName;
}

export interface PlotKey {
  readonly text: string;
  readonly colour: TokenName;
  readonly sign: "line" | "dashes" | "dot" | "ring" | "cross";
}

export interface Plot {
  readonly name: string;
  readonly title: string;
  /** The finding in words and numbers, for who cannot see the drawing. */
  readonly description: string;
  readonly x: Axis;
  readonly y: Axis;
  readonly lines?: readonly PlotLine[];
  readonly points?: readonly PlotPoints[];
  readonly bands?: readonly PlotBand[];
  readonly marks?: readonly PlotMark[];
  readonly labels?: readonly PlotLabel[];
  readonly key?: readonly PlotKey[];
}

export function plot(data: Plot, frame: Frame): Drawing {
  const { lines = [], points = [], bands = [], marks = [], labels = [], key = [] } = data;
  const { small, large } = typeSizes(frame);
  const svg = sheet(frame, data);
  const yText = data.y.text ?? tickText;
  const endNames = lines.flatMap(({ name }) => (name ? [textWidth(name, small)] : []));
  const rows = keyRows(key, frame.width, small);
  const rowAxis = large + 8 + rows.length * (small + 6) + small;
  const plotBox: Box = {
    left: Math.max(2.4, ...ticksOf(data.y).map((tick) => 0.62 * yText(tick).length + 1.2)) * small,
    right: frame.width - Math.max(1.4 * small, ...endNames.map((width) => width + 10)),
    top: rowAxis + (marks.some(({ text }) => text) ? small + 14 : 10),
    bottom: frame.height - bottomAxisRoom(small),
  };
  const x = scaleOf(data.x, [plotBox.left, plotBox.right]);
  const y = scaleOf(data.y, [plotBox.bottom, plotBox.top]);

  const ground = add(svg, "g", { "aria-hidden": "true" });
  for (const band of bands) drawBand(ground, band, plotBox, y, small);
  const on = { parent: ground, x, y, plot: plotBox, size: small };
  leftAxis(on, tickMarks(data.y, y, 40), true);
  bottomAxis(on, tickMarks(data.x, x, 64), data.x.title);
  write(ground, data.title, 0, large, { size: large, weight: 600 });
  rows.forEach((row, i) => {
    for (const [entry, at] of row) drawKey(ground, entry, at, large + 8 + (i + 0.75) * (small + 6), small);
  });
  write(ground, data.y.title, 0, rowAxis, { size: small, fill: colour("muted") });

  const drawn = add(svg, "g", {
    "aria-hidden": "true",
    "stroke-linejoin": "round",
    "stroke-linecap": "round",
  });
  for (const mark of marks) drawMark(drawn, mark, x, plotBox, small);
  const inside = (at: number) => clamp(at, plotBox.top, plotBox.bottom);
  for (const line of lines) {
    const at = (values: ArrayLike<number>, scale: Scale) =>
      Float64Array.from(values, (value) => scale(value));
    const ys = at(line.ys, y).map((value) => (Number.isFinite(value) ? inside(value) : value));
    add(drawn, "path", {
      d: curvePath(corners(at(line.xs, x), ys)),
      stroke: colour(line.colour),
      "stroke-width": line.width ?? (line.dashed ? 2.5 : 1.75),
      "stroke-dasharray": line.dashed ? referenceDash : undefined,
    });
  }
  nameEnds(drawn, lines, y, plotBox, small);
  for (const { xs, ys, colour: name, shape, size = 4 } of points)
    for (let i = 0; i < xs.length; i++)
      if (Number.isFinite(ys[i])) drawSign(drawn, shape, [x(xs[i]), inside(y(ys[i]))], name, size);
  for (const { x: at, y: over, text, colour: name = "ink" } of labels)
    write(drawn, text, x(at), inside(y(over)) - 7, {
      size: small,
      anchor: "middle",
      weight: 600,
      fill: colour(name),
      halo: true,
    });
  return { svg, x, y, plot: plotBox };
}

const scaleOf = ({ domain, log }: Axis, range: [number, number]) =>
  log ? scaleLog([...domain], range) : scaleLinear([...domain], range);

const ticksOf = ({ domain, log, ticks }: Axis, count = 5): readonly number[] =>
  ticks ?? (log ? scaleLog([...domain], [0, 1]).ticks(count) : scaleLinear([...domain], [0, 1]).ticks(count));

function tickMarks(axis: Axis, scale: Scale, apart: number): Tick[] {
  const [from, to] = scale.range();
  const count = clamp(Math.floor(Math.abs(to - from) / apart), 2, 9);
  const text = axis.text ?? tickText;
  return ticksOf(axis, count).map((value) => ({ value, text: text(value) }));
}

function drawBand(parent: Element, { from, to, text }: PlotBand, box: Box, y: Scale, size: number): void {
  const at = (value: number) => clamp(y(value), box.top, box.bottom);
  const [top, bottom] = [at(Math.max(from, to)), at(Math.min(from, to))];
  const area: Point[] = [
    [box.left, top],
    [box.right, top],
    [box.right, bottom],
    [box.left, bottom],
  ];
  add(parent, "path", { d: hatchPath(area, 7, -1), stroke: colour("feel") });
  for (const edge of [top, bottom]) rule(parent, [box.left, edge], [box.right, edge], colour("hairline"));
  if (text)
    write(parent, text, box.right - 6, bottom - 6, {
      size,
      anchor: "end",
      fill: colour("muted"),
      halo: true,
    });
}

function drawMark(
  parent: Element,
  { x: value, text, colour: name = "gap" }: PlotMark,
  x: Scale,
  box: Box,
  size: number,
) {
  const at = x(value);
  rule(
    parent,
    [at, box.top],
    [at, box.bottom],
    colour(name),
    1.5,
    name === "reference" ? referenceDash : undefined,
  );
  if (!text) return;
  const half = textWidth(text, size) / 2;
  write(parent, text, clamp(at, box.left + half, box.right - half), box.top - 5, {
    size,
    anchor: "middle",
    fill: colour(name),
    weight: 600,
  });
}

/** Names beside where the lines end, moved apart where they would meet. */
function nameEnds(parent: Element, lines: readonly PlotLine[], y: Scale, box: Box, size: number): void {
  const within = [box.top + size / 2, box.bottom] as const;
  const ends = lines
    .flatMap(({ name, ys, colour }) =>
      name ? [{ name, colour, at: clamp(y(ys[ys.length - 1]), ...within) }] : [],
    )
    .sort((a, b) => a.at - b.at);
  const places = spread(
    ends.map(({ at }) => at),
    size + 2,
    within,
  );
  ends.forEach(({ name, colour: token }, i) => {
    write(parent, name, box.right + 6, places[i] + 0.36 * size, { size, fill: colour(token) });
  });
}

/** Signs of values: what is filled, open or crossed is told apart without its colour. */
function drawSign(
  parent: Element,
  shape: PlotPoints["shape"],
  [cx, cy]: Point,
  name: TokenName,
  size: number,
): void {
  const stroke = colour(name);
  if (shape === "cross") {
    const [x, y] = [px(cx), px(cy)];
    add(parent, "path", {
      d: `M${x - size},${y - size}l${2 * size},${2 * size}m0,${-2 * size}l${-2 * size},${2 * size}`,
      stroke,
      "stroke-width": 1.5,
    });
  } else
    add(parent, "circle", {
      cx,
      cy,
      r: size,
      fill: shape === "dot" ? stroke : colour("paper"),
      stroke,
      "stroke-width": 1.5,
    });
}

const keySign = 26;

/** Entries with their places, in as many rows as the width asks for. */
function keyRows(key: readonly PlotKey[], width: number, size: number): [PlotKey, number][][] {
  const rows: [PlotKey, number][][] = [];
  let at = Number.POSITIVE_INFINITY;
  for (const entry of key) {
    const wide = keySign + 6 + textWidth(entry.text, size) + 18;
    if (at + wide > width) {
      rows.push([]);
      at = 0;
    }
    rows[rows.length - 1].push([entry, at]);
    at += wide;
  }
  return rows;
}

function drawKey(
  parent: Element,
  { text, colour: name, sign }: PlotKey,
  at: number,
  row: number,
  size: number,
) {
  const line = row - 0.33 * size;
  if (sign === "line" || sign === "dashes")
    rule(
      parent,
      [at, line],
      [at + keySign, line],
      colour(name),
      2.5,
      sign === "dashes" ? referenceDash : undefined,
    );
  else drawSign(parent, sign, [at + keySign / 2, line], name, 4);
  write(parent, text, at + keySign + 6, row, { size, fill: colour(name === "feel" ? "muted" : name) });
}
