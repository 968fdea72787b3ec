/**
 * The stream across the gap, from a computed field: half a section along the axis, shaded by speed, with streamlines, the air
 * that turns round in the gap, and the shear layer between.
 */
import { contours, scaleLinear } from "d3";
import {
  type ComputedGapStream,
  type GapStreamNumbers,
  streamlineRadii,
} from "../../../study/blown/gapStream.ts";
import { gapStreamCaption, gapStreamCase, gapStreamDescription } from "../../../words/blown/gapStream.ts";
import { drawMetal } from "../../drawings/metal.ts";
import {
  add,
  clamp,
  type Drawing,
  type Frame,
  type Point,
  polygonPath,
  rule,
  sheet,
  type Table,
  textWidth,
  typeSizes,
} from "../../kit/drawing.ts";
import { type Figure, proportional } from "../../kit/figure.ts";
import { firstFitting, heading } from "../../kit/labels/text.ts";
import { arrowhead } from "../../kit/marks/arrowhead.ts";
import { curvePath } from "../../kit/marks/curve.ts";
import { hatchPath } from "../../kit/marks/hatch.ts";
import { label, type Panel, silent } from "../../kit/panel.ts";
import { tableOf } from "../../kit/table.ts";

export interface GapStreamData {
  readonly drawn: ComputedGapStream;
  /** The instrument's own, which the drawn one is near to; null where it is nobody's. */
  readonly own: GapStreamNumbers | null;
}

const title = "The stream across the gap";
/** What is drawn of the field, radii: before and behind the gap, and from the axis; the middle of the stream is alike everywhere. */
const SHOWN = { before: 0.33, behind: 0.65, from: 0.55 };
/** Share of what passes inside each streamline. */
const SHARES = [0.5, 0.64, 0.76, 0.86, 0.93, 0.975];
/** Of what turns round, for its own streamlines. */
const TURNING = [0.12, 0.4, 0.75];
/** Of the bore's mean speed; each darkens what is faster. */
const SPEEDS = [0.05, 0.25, 0.5, 0.75, 1, 1.25];
const DARKENING = 0.13;
/** Of the receiver's wall, radii. */
const WALL = 0.12;

/** The part of the field about the gap. */
function aboutGap(whole: ComputedGapStream): Shown {
  const gap = 2 * whole.gapOverDiameter;
  const lines = SHARES.map((share) => streamlineRadii(whole, share));
  const isShown = (_: unknown, i: number): boolean =>
    whole.along[i] >= -SHOWN.before && whole.along[i] <= gap + SHOWN.behind;
  const outer = (values: readonly number[]) => values.filter((_, j) => whole.radii[j] >= SHOWN.from);
  return {
    ...whole,
    gap,
    along: whole.along.filter(isShown),
    radii: outer(whole.radii),
    speed: whole.speed.filter(isShown).map(outer),
    stream: whole.stream.filter(isShown).map(outer),
    lines: lines.map((radii) => radii.filter(isShown)),
  };
}

interface Shown extends ComputedGapStream {
  readonly gap: number;
  /** The radii of each streamline. */
  readonly lines: readonly (readonly number[])[];
}

export function streamChart({ drawn: whole }: GapStreamData, frame: Frame): Drawing {
  const { small, large } = typeSizes(frame);
  const svg = sheet(frame, {
    name: "gap-stream",
    title: `${title}: ${gapStreamCase(whole)}`,
    description: gapStreamDescription(whole),
  });
  const drawn = aboutGap(whole);
  const { along, cavityRadius, layer, gap } = drawn;
  const [start, end] = [along[0], along[along.length - 1]];
  const [inside, outside] = [drawn.radii[0], cavityRadius + WALL];
  const top = large + 2 * small + 12;
  const room = { width: frame.width - 2, height: frame.height - top - 3.6 * small - 22 };
  const scale = Math.min(room.width / (end - start), room.height / (outside - inside));
  const left = (frame.width - scale * (end - start)) / 2;
  const plot = { left, right: left + scale * (end - start), top, bottom: top + scale * (outside - inside) };
  const x = scaleLinear([start, end], [plot.left, plot.right]);
  const y = scaleLinear([inside, outside], [plot.bottom, plot.top]);
  const at = (point: readonly [number, number]): Point => [x(point[0]), y(point[1])];
  const parent = silent(svg);
  const on: Panel = { parent, x, y, plot, size: small };

  const headings = [`${title}: ${gapStreamCase(drawn)}`, title];
  heading(parent, firstFitting(headings, frame.width, large) ?? title, large);
  drawSpeed(on, drawn);
  drawLayer(on, drawn);
  const streamlines = add(parent, "g", { "data-part": "streamlines", stroke: "ink", "stroke-width": 0.9 });
  for (const radii of drawn.lines) {
    const points = along.map((place, i): Point => at([place, radii[i]]));
    add(streamlines, "path", { d: curvePath([points]) });
    const middle = points.findIndex(([px]) => px > x(start + 0.13));
    drawTip(parent, points[middle], 0);
  }
  drawTurning(on, drawn);
  const dividing = layer.map((place) => at([place.along, place.dividing]));
  add(parent, "path", {
    "data-part": "dividing",
    d: curvePath([dividing]),
    stroke: "gap",
    "stroke-width": 2,
  });

  const metal = (corners: readonly (readonly [number, number])[], direction: 1 | -1) =>
    drawMetal(parent, [corners.map(at)], { direction, spacing: 7 });
  const between = (from: number, to: number, low: number, high: number) =>
    [
      [from, low],
      [to, low],
      [to, high],
      [from, high],
    ] as const;
  metal(between(start, end, cavityRadius, outside), -1);
  metal(between(start, 0, 1, cavityRadius), 1);
  metal(between(gap, end, 1, cavityRadius), 1);
  drawNames(on, drawn);
  drawKey(on, frame);
  return { svg, x, y, plot };
}

/** From a place counted in the lattice's steps, as contours come, to one in radii. */
function inRadii({ along, radii }: ComputedGapStream): (place: readonly number[]) => [number, number] {
  const within = (places: readonly number[], step: number): number => {
    // values stand in the middle of their cells
    const inside = clamp(step - 0.5, 0, places.length - 1);
    const k = Math.min(places.length - 2, Math.floor(inside));
    return places[k] + (inside - k) * (places[k + 1] - places[k]);
  };
  return ([i, j]) => [within(along, i), within(radii, j)];
}

/** Rings around what is above each level. */
function rings(
  drawn: ComputedGapStream,
  field: ComputedGapStream["speed"],
  levels: readonly number[],
): [number, number][][][] {
  const { along, radii } = drawn;
  const values = radii.flatMap((_, j) => along.map((__, i) => field[i][j]));
  const place = inRadii(drawn);
  return contours()
    .size([along.length, radii.length])
    .thresholds([...levels])(values)
    .map(({ coordinates }) => coordinates.flat().map((ring) => ring.map(place)));
}

function drawSpeed({ parent, x, y }: Panel, drawn: ComputedGapStream): void {
  const group = add(parent, "g", { "data-part": "speed", fill: "series-6", "fill-opacity": `${DARKENING}` });
  for (const level of rings(drawn, drawn.speed, SPEEDS))
    add(group, "path", {
      d: level.map((ring) => polygonPath(ring.map(([a, r]): Point => [x(a), y(r)]))).join(""),
      "fill-rule": "evenodd",
    });
}

function drawLayer({ parent, x, y }: Panel, { layer }: ComputedGapStream): void {
  const band: Point[] = [
    ...layer.map(({ along, half }): Point => [x(along), y(half)]),
    ...layer.map(({ along, tenth }): Point => [x(along), y(tenth)]).reverse(),
  ];
  const group = add(parent, "g", { "data-part": "shear-layer" });
  add(group, "path", { d: polygonPath(band), fill: "gap", "fill-opacity": "0.18" });
  add(group, "path", { d: hatchPath(band, 4, -1), stroke: "gap", "stroke-width": 0.8 });
}

/** Its own streamlines closed on themselves, and which way they go. */
function drawTurning({ parent, x, y }: Panel, drawn: ComputedGapStream): void {
  const levels = TURNING.map((share) => 1 + share * drawn.turning);
  const group = add(parent, "g", { "data-part": "turning", stroke: "ink", "stroke-width": 0.9 });
  const closed = rings(drawn, drawn.stream, levels);
  for (const level of closed)
    for (const ring of level)
      add(group, "path", { d: polygonPath(ring.map(([a, r]): Point => [x(a), y(r)])) });
  const outermost = closed[0].flat();
  if (outermost.length === 0) return;
  const [a, r] = outermost.reduce((best, one) => (one[1] > best[1] ? one : best));
  drawTip(parent, [x(a), y(r)], Math.PI);
}

const drawTip = (parent: Element, tip: Point, angle: number) =>
  add(parent, "path", { d: polygonPath(arrowhead(tip, angle, 7, 2.4)), fill: "ink" });

function drawNames(on: Panel, drawn: Shown): void {
  const { parent, x, y, plot, size } = on;
  const { along, cavityRadius, layer, stream, radii, gap } = drawn;
  const inMetal = y((1 + cavityRadius) / 2) + 0.36 * size;
  label(on, "shank", (plot.left + x(0)) / 2, inMetal, { anchor: "middle", halo: true });
  label(on, "leadpipe", (x(gap) + plot.right) / 2, inMetal, { anchor: "middle", halo: true });

  // where it turns round, by the greatest of the stream function
  const all = stream.flatMap((values, i) => values.map((value, j) => ({ value, a: along[i], r: radii[j] })));
  const centre = all.reduce((best, one) => (one.value > best.value ? one : best));
  const row = plot.top - 8;
  const words = "air turning round in the gap";
  const leader = (to: Point, from: Point) => {
    rule(parent, from, to, "paper", 3.5);
    rule(parent, from, to, "ink", 0.9);
    add(parent, "circle", { cx: to[0], cy: to[1], r: 2, fill: "ink" });
  };
  leader([x(centre.a), y(centre.r)], [x(centre.a), row + 3]);
  const half = textWidth(words, size) / 2;
  label(on, words, clamp(x(centre.a), plot.left + half, plot.right - half), row, { anchor: "middle" });

  const middle = layer[Math.floor(layer.length / 2)];
  const foot: Point = [x(gap) + 0.18 * (plot.right - x(gap)), y(0.72)];
  leader([x(middle.along), y((middle.half + middle.tenth) / 2)], foot);
  label(on, "shear layer", foot[0] + 5, foot[1] + 0.36 * size, { fill: "gap", weight: 600, halo: true });

  const below = plot.bottom + 9;
  rule(parent, [x(0), below], [x(gap), below], "gap", 1.5);
  for (const end of [0, gap]) rule(parent, [x(end), below - 5], [x(end), below + 5], "gap", 1.5);
  label(on, "gap", (x(0) + x(gap)) / 2, below + size + 3, { anchor: "middle", fill: "gap", weight: 600 });
  label(on, "axis further down", plot.right, below + size - 2, { anchor: "end", fill: "muted" });
}

/** What the shades stand for. */
function drawKey(on: Panel, frame: Frame): void {
  const { parent, size, plot } = on;
  const row = plot.bottom + 2.2 * size + 22;
  const texts = ["speed, over the bore’s mean:", "speed / mean:"];
  const cell = 3 * size;
  const text = firstFitting(texts, frame.width - SPEEDS.length * cell - 8, size) ?? texts[1];
  const left = textWidth(text, size) + 4;
  label(on, text, 0, row, { fill: "muted" });
  SPEEDS.forEach((speed, i) => {
    const box = { x: left + i * cell, y: row - size, width: cell, height: 1.25 * size };
    // as dark as the levels below it make it together
    add(parent, "rect", { ...box, fill: "series-6", "fill-opacity": `${1 - (1 - DARKENING) ** (i + 1)}` });
    label(on, `${speed}`, left + (i + 0.5) * cell, row, { anchor: "middle", halo: true });
  });
}

export const gapStreamFigure: Figure<GapStreamData> = {
  name: "gap-stream",
  label: "The stream across the gap, computed",
  about:
    "Half a section along the axis, its middle left out; the stream comes from the shank on the left and enters the leadpipe on the right. Darker is faster. The " +
    "heavy line parts what goes on from what turns round; the hatched band under it is the shear layer, where the speed falls from half of that in " +
    "the middle to a tenth. Swept by a tone the layer rolls up, and reaches the leadpipe’s edge some part of a period later: that takes energy from the " +
    "tone or gives it some. The field comes from the Navier–Stokes equations in finite elements, axisymmetric and laminar.",
  followsHand: false,
  caption: (data) => (data ? gapStreamCaption(data.drawn, data.own) : ""),
  height: proportional(0.56, 260, 440),
  draw: streamChart,
  table: fieldTable,
  readable: ({ drawn: { layer } }) =>
    tableOf(layer, [
      ["from the shank’s end (bore radii)", ({ along }) => along],
      ["parting line, from the axis (bore radii)", ({ dividing }) => dividing],
      ["half the speed in the middle", ({ half }) => half],
      ["a tenth of it", ({ tenth }) => tenth],
    ]),
};

function fieldTable({ drawn: { along, radii, speed, stream } }: GapStreamData): Table {
  const places = along.flatMap((a, i) => radii.map((r, j) => ({ a, r, i, j })));
  return tableOf(places, [
    ["from the shank’s end (bore radii)", ({ a }) => a],
    ["from the axis (bore radii)", ({ r }) => r],
    ["speed over the bore’s mean", ({ i, j }) => speed[i][j]],
    ["stream function over the wall’s", ({ i, j }) => stream[i][j]],
  ]);
}
