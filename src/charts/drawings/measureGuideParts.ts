/**
 * The parts that the drawn guide to measuring is put together from: receiver and leadpipe, the shank, the mark on it. In
 * section, true to scale; distances run from the receiver's face into the instrument, mm. Walls and shoulder are invented.
 */
import { scaleLinear } from "d3";
import { exitBoreMm } from "../../setup/geometry.ts";
import type { Setup } from "../../setup/setup.ts";
import { add, type Frame, type Point, polygonPath } from "../kit/drawing.ts";
import { invented } from "./inventedWalls.ts";
import { drawRing } from "./metal.ts";
import type { Outline } from "./profile.ts";
import {
  beadRadiusMm,
  cavityOf,
  centreLine,
  leadpipeOf,
  type Section,
  shankBoreOf,
  shankOutsideOf,
} from "./section.ts";

/** Shown before the face, and beyond the start of the leadpipe, mm. */
const shown = { before: 15, after: 8 };

/** Where the parts are drawn. */
export interface Bench extends Section {
  readonly setup: Setup;
  /** Radius of the receiver's bead, the largest of all, mm. */
  readonly outerMm: number;
  readonly cavityMm: (at: number) => number;
  /** Left and right end of what is shown, mm. */
  readonly fromMm: number;
  readonly toMm: number;
}

/** The same place and scale for every step, so that the eye finds the same part at the same place. */
export function bench(parent: Element, setup: Setup, frame: Frame, above: number, below: number): Bench {
  const outerMm = beadRadiusMm(setup);
  const [fromMm, toMm] = [-shown.before, setup.receiver.depthMm + shown.after];
  const room = frame.height - above - below;
  const pxPerMm = Math.min(frame.width / (toMm - fromMm), room / (2 * outerMm));
  const left = (frame.width - (toMm - fromMm) * pxPerMm) / 2;
  const axis = above + outerMm * pxPerMm;
  return {
    parent,
    setup,
    outerMm,
    cavityMm: cavityOf(setup),
    fromMm,
    toMm,
    x: scaleLinear([fromMm, toMm], [left, frame.width - left]),
    y: scaleLinear([-outerMm, outerMm], [axis + outerMm * pxPerMm, axis - outerMm * pxPerMm]),
  };
}

export const at = ({ x, y }: Bench, mm: number, radius: number): Point => [x(mm), y(radius)];

export const drawAxis = (on: Bench) => centreLine(on, [on.fromMm, on.toMm]);

/** Receiver and leadpipe, broken off where the sheet ends. */
export function drawReceiver(on: Bench): void {
  const { setup, outerMm, cavityMm, toMm } = on;
  const { depthMm } = setup.receiver;
  const { endMm, bore, outside: pipe } = leadpipeOf(setup, toMm);
  const wall = outerMm - invented.beadHeight;
  drawRing(on, { inside: bore, outside: pipe, direction: -1, spacing: 4, torn: "end" });
  const inside: Outline = [[0, cavityMm(0)], [depthMm, cavityMm(depthMm)], ...pipe];
  const outside: Outline = [
    [0, outerMm],
    [invented.beadLength, outerMm],
    [invented.beadLength, wall],
    [endMm, wall],
  ];
  drawRing(on, { inside, outside, direction: 1, spacing: 6, torn: "end" });
}

export interface DrawnShank {
  /** The shank's end, mm from the face. */
  readonly endMm: number;
  readonly shoulderMm: number;
  /** Outside radius where the face is when the shank is seated, mm. */
  readonly atFaceMm: number;
}

/** The shank as far in as it goes; `shorterMm` cuts its end off and leaves it seated where it was. */
export function shankOf({ setup }: Bench, shorterMm = 0): DrawnShank & { readonly outside: Outline } {
  const { insertionMm } = setup.mouthpiece;
  const { radius, shoulderMm, body, shoulder } = shankOutsideOf(setup, insertionMm);
  const endMm = insertionMm - shorterMm;
  const outside: Outline = [
    [-shown.before, body + invented.chamfer],
    ...shoulder,
    [0, radius(0)],
    [endMm, radius(endMm)],
  ];
  return { endMm, shoulderMm, atFaceMm: radius(0), outside };
}

/** `sides`: both halves of the section, the upper (1) or the lower (−1) alone. */
export function drawShank(on: Bench, shorterMm = 0, sides: readonly (1 | -1)[] = [1, -1]): DrawnShank {
  const shank = shankOf(on, shorterMm);
  // the bore stays where it is when the end is cut off
  const bore = shankBoreOf(on.setup, on.setup.mouthpiece.insertionMm, on.fromMm, shank.endMm);
  drawRing(on, { inside: bore, outside: shank.outside, direction: -1, spacing: 6, torn: "start", sides });
  return shank;
}

/** The ring and the stream between the shank's end and the leadpipe. */
export function drawGap(on: Bench, endMm: number, sides: readonly (1 | -1)[] = [1, -1]): void {
  const { setup, cavityMm, parent } = on;
  const { depthMm } = setup.receiver;
  const [shankBore, pipeBore] = [
    exitBoreMm(setup.mouthpiece.profileMm) / 2,
    setup.leadpipe.profileMm[0][1] / 2,
  ];
  for (const side of sides) {
    const points = (radii: readonly (readonly [number, number])[]) =>
      polygonPath(radii.map(([mm, radius]) => at(on, mm, side * radius)));
    const shank = Math.min(shankBore, cavityMm(endMm));
    const pipe = Math.min(pipeBore, cavityMm(depthMm));
    const ring = points([
      [endMm, shank],
      [endMm, cavityMm(endMm)],
      [depthMm, cavityMm(depthMm)],
      [depthMm, pipe],
    ]);
    const stream = points([
      [endMm, 0],
      [endMm, shank],
      [depthMm, pipe],
      [depthMm, 0],
    ]);
    add(parent, "path", { d: stream, fill: "gap", "fill-opacity": "0.2" });
    add(parent, "path", { d: ring, fill: "gap", stroke: "gap", "stroke-width": 1.5 });
  }
}

/** A tool is whole, not cut: paper inside an ink line. */
export function drawTool(on: Bench, points: readonly (readonly [mm: number, radius: number])[]): void {
  add(on.parent, "path", {
    d: polygonPath(points.map(([mm, radius]) => at(on, mm, radius))),
    fill: "paper",
    stroke: "ink",
    "stroke-width": 1.5,
    "stroke-linejoin": "round",
  });
}
