/**
 * How an instrument is swept, in two drawings of the setup's own parts, true to scale: the mouthpiece with the earphone sealed to its
 * rim and the microphone beside it in the cup, and the bell with the microphone in front of it, where the other place is.
 */
import { scaleLinear } from "d3";
import { boreDiameterMm } from "../../setup/bore/boreDiameter.ts";
import type { Setup } from "../../setup/setup.ts";
import { formatLength } from "../../units/formatLength.ts";
import {
  add,
  clamp,
  type Drawing,
  type Frame,
  type Point,
  polygonPath,
  resize,
  rule,
  sheet,
  type TextStyle,
  textWidth,
  write,
} from "../kit/drawing.ts";
import { hatchPath } from "../kit/marks/hatch.ts";
import { dimension } from "./dimension.ts";
import { drawRing } from "./metal.ts";
import { boreBetween, type Outline } from "./profile.ts";
import { centreLine, type Section } from "./section.ts";

export const SWEEP_PLACES = ["cup", "bell"] as const;
export type SweepPlace = (typeof SWEEP_PLACES)[number];

const size = 12;
/** Rows for what is written over and under the parts, px. */
const above = 24;
const below = 44;

/** Drawn, not measured, mm. */
const invented = {
  rim: 5,
  rimDepth: 4,
  wall: 2.6,
  earphone: { radius: 3.4, length: 9, nozzle: 2, nozzleLength: 4 },
  microphone: { radius: 2, length: 12, inCup: 3 },
  putty: 3.5,
  bellWall: 0.5,
};
/** Of the mouthpiece, from the rim; before it. */
const shownMm = { cup: 34, before: 20 };

export function sweepGuide(place: SweepPlace, setup: Setup, frame: Frame): Drawing {
  return place === "cup" ? cupDrawing(setup, frame) : bellDrawing(setup, frame);
}

function cupDrawing(setup: Setup, frame: Frame): Drawing {
  const { profileMm } = setup.mouthpiece;
  const [start, rimBore] = profileMm[0];
  const radius = rimBore / 2;
  const outer = radius + invented.rim;
  const svg = sheet(frame, {
    name: "sweep-guide",
    title: "At the mouthpiece",
    description:
      `The mouthpiece in section. A small earphone stands in the middle of its rim, ${formatLength(rimBore, frame.unit)} wide, and putty seals it all round; ` +
      "through the same putty the microphone reaches a little way into the cup.",
  });
  const on = section(svg, frame, [-shownMm.before, shownMm.cup], outer + 1.5);
  const endMm = Math.min(shownMm.cup, profileMm[profileMm.length - 1][0] - start);
  const bore = boreBetween(profileMm, start, start + endMm, -start);
  const behind = (at: number) => boreDiameterMm(profileMm, start + at) / 2 + invented.wall;
  const outside: Outline = [
    [0, outer],
    [invented.rimDepth, outer],
    ...[0.3, 0.5, 0.7, 1].map((share): [number, number] => {
      const at = invented.rimDepth + share * (endMm - invented.rimDepth);
      return [at, Math.min(outer, behind(at))];
    }),
  ];
  drawRing(on, { inside: bore, outside, direction: 1, spacing: 6, torn: "end" });
  centreLine(on, [-shownMm.before, endMm]);
  const { earphone, microphone } = invented;
  const micAt = microphone.radius + 0.6 - radius;
  putty(on, outer - 1, micAt);
  tool(on, [
    [-earphone.length - earphone.nozzleLength, earphone.radius],
    [-earphone.nozzleLength, earphone.radius],
    [-earphone.nozzleLength, earphone.nozzle],
    [0.5, earphone.nozzle],
    [0.5, -earphone.nozzle],
    [-earphone.nozzleLength, -earphone.nozzle],
    [-earphone.nozzleLength, -earphone.radius],
    [-earphone.length - earphone.nozzleLength, -earphone.radius],
  ]);
  tool(on, [
    [microphone.inCup - microphone.length, micAt + microphone.radius],
    [microphone.inCup, micAt + microphone.radius],
    [microphone.inCup, micAt - microphone.radius],
    [microphone.inCup - microphone.length, micAt - microphone.radius],
  ]);
  const left = on.x(-earphone.length - earphone.nozzleLength) - 6;
  label(on, "earphone", left, on.y(0) + 4, frame, { anchor: "end", fill: "measured", weight: 600 });
  label(on, "microphone", on.x(microphone.inCup - microphone.length) - 6, on.y(micAt) + 4, frame, {
    anchor: "end",
    fill: "measured",
    weight: 600,
  });
  const seal = on.y(outer) - 8;
  label(on, "putty, airtight all round", on.x(-1), seal, frame, { anchor: "middle" });
  rule(on.parent, [on.x(-2), seal + 3], [on.x(-2), on.y(0.75 * outer)], "ink", 0.8);
  const row = on.y(-outer) + 14;
  dimension(on.parent, [on.x(0), on.x(microphone.inCup)], row, [on.y(-outer) + 2, on.y(micAt) + 4], "ink");
  label(
    on,
    `${formatLength(microphone.inCup, frame.unit, frame.unit === "mm" ? 0 : 2)} into the cup`,
    on.x(0),
    row + size + 4,
    frame,
    {
      anchor: "start",
    },
  );
  return finished(svg, on, frame);
}

/** Over the rim, round the earphone and the microphone. */
function putty(on: Section, outer: number, micAt: number): void {
  const thick = invented.putty;
  const outline: Point[] = (
    [
      [0, outer],
      [-1.2, outer],
      [-thick, 0.6 * outer],
      [-thick - 0.6, 0],
      [-thick, Math.min(-0.6 * outer, micAt - 3)],
      [-1.2, -outer],
      [0, -outer],
    ] as const
  ).map(([mm, radius]) => [on.x(mm), on.y(radius)]);
  add(on.parent, "path", {
    d: polygonPath(outline),
    fill: "feel",
    stroke: "ink",
    "stroke-width": 1.5,
    "stroke-linejoin": "round",
  });
  add(on.parent, "path", { d: hatchPath(outline, 4, -1), stroke: "muted", "stroke-width": 0.6 });
}

function bellDrawing(setup: Setup, frame: Frame): Drawing {
  const { profileMm } = setup.body;
  const [endAt, bore] = profileMm[profileMm.length - 1];
  const radius = bore / 2;
  const length = Math.min(1.4 * radius, endAt - profileMm[0][0]);
  const svg = sheet(frame, {
    name: "sweep-guide",
    title: "Or at the bell",
    description: `The bell in section, ${formatLength(bore, frame.unit)} wide. The microphone stands on its axis, one bell radius in front of it: ${formatLength(radius, frame.unit)}.`,
  });
  const on = section(svg, frame, [-length, 2.1 * radius], radius + 2);
  const inside = boreBetween(profileMm, endAt - length, endAt, -endAt);
  const outside: Outline = inside.map(([at, r]) => [at, r + Math.max(invented.bellWall, 0.012 * radius)]);
  drawRing(on, { inside, outside, direction: 1, spacing: 6, torn: "start" });
  centreLine(on, [-length, radius]);
  const capsule = 0.05 * radius;
  tool(on, [
    [radius, capsule],
    [1.45 * radius, capsule],
    [1.45 * radius, -capsule],
    [radius, -capsule],
  ]);
  label(on, "microphone", on.x(1.25 * radius), on.y(capsule) - 7, frame, { fill: "measured", weight: 600 });
  const row = on.y(-radius) + 12;
  dimension(on.parent, [on.x(0), on.x(radius)], row, [on.y(-radius) + 2, on.y(0) + 6], "ink");
  label(
    on,
    `one bell radius, ${formatLength(radius, frame.unit, frame.unit === "mm" ? 0 : 1)}`,
    (on.x(0) + on.x(radius)) / 2,
    row + size + 5,
    frame,
  );
  label(on, "bell", on.x(0.02 * radius), on.y(radius) - 7, frame, { anchor: "middle" });
  return finished(svg, on, frame);
}

interface Sheet extends Section {
  readonly outerMm: number;
}

function section(
  svg: SVGSVGElement,
  frame: Frame,
  [fromMm, toMm]: readonly [number, number],
  outerMm: number,
): Sheet {
  const room = frame.height - above - below;
  const pxPerMm = Math.min(frame.width / (toMm - fromMm), room / (2 * outerMm));
  const left = (frame.width - (toMm - fromMm) * pxPerMm) / 2;
  const axis = above + outerMm * pxPerMm;
  return {
    parent: add(svg, "g", { "aria-hidden": "true" }),
    outerMm,
    x: scaleLinear([fromMm, toMm], [left, frame.width - left]),
    y: scaleLinear([-outerMm, outerMm], [axis + outerMm * pxPerMm, axis - outerMm * pxPerMm]),
  };
}

function finished(svg: SVGSVGElement, { x, y, outerMm }: Sheet, frame: Frame): Drawing {
  const plot = { left: 0, right: frame.width, top: y(outerMm), bottom: y(-outerMm) };
  resize(svg, frame.width, plot.bottom + below);
  return { svg, x, y, plot };
}

/** Earphone and microphone are whole, not cut. */
function tool(on: Section, points: readonly (readonly [mm: number, radius: number])[]): void {
  add(on.parent, "path", {
    d: polygonPath(points.map(([mm, radius]) => [on.x(mm), on.y(radius)])),
    fill: "paper",
    stroke: "measured",
    "stroke-width": 1.75,
    "stroke-linejoin": "round",
  });
}

/** Text that keeps on the sheet. */
function label(
  on: Section,
  text: string,
  wanted: number,
  row: number,
  { width }: Frame,
  style: Partial<TextStyle> = {},
): void {
  const { anchor = "middle" } = style;
  const room = textWidth(text, size);
  const [left, right] = { start: [0, room], middle: [room / 2, room / 2], end: [room, 0] }[anchor];
  write(on.parent, text, clamp(wanted, left, width - right), row, { size, halo: true, ...style, anchor });
}
