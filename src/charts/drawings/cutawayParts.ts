/** The parts of the section that a setup gives only in part: the shank's outside, and the gap itself. */
import { profileLengthMm } from "../../setup/geometry.ts";
import type { Setup } from "../../setup/setup.ts";
import { add, type Point, polygonPath } from "../kit/drawing.ts";
import type { Outline } from "./profile.ts";
import { type Section, shankOutsideOf } from "./section.ts";

/** How much of the mouthpiece before the receiver's face can be shown at any gap: up to where the cup begins. */
export function stemMm({ mouthpiece, receiver }: Setup): number {
  const length = profileLengthMm(mouthpiece.profileMm);
  return length - (mouthpiece.cupDepthMm ?? 0.3 * length) - receiver.depthMm - 3;
}

export function radiusOn(outline: Outline, at: number): number {
  const next = outline.findIndex(([x]) => x >= at);
  if (next === -1) return outline[outline.length - 1][1];
  if (next === 0) return outline[0][1];
  const [[x1, r1], [x2, r2]] = [outline[next - 1], outline[next]];
  return x2 === x1 ? r2 : r1 + ((at - x1) / (x2 - x1)) * (r2 - r1);
}

/** From where it is broken off to its end. */
export function outsideOfShank(setup: Setup, insertionMm: number, fromMm: number): Outline {
  const { radius, shoulderMm, body, shoulder } = shankOutsideOf(setup, insertionMm);
  const seat: Outline = [Math.min(0, insertionMm), insertionMm].map((at) => [at, radius(at)]);
  const whole: Outline = [[shoulderMm - 200, body + 2], ...shoulder, ...seat];
  return [[fromMm, radiusOn(whole, fromMm)], ...whole.filter(([at]) => at > fromMm)];
}

export const shoulderRadius = (outside: Outline): number => Math.max(...outside.map(([, radius]) => radius));

interface GapGeometry {
  readonly insertionMm: number;
  readonly depthMm: number;
  readonly shankBoreMm: number;
  readonly pipeMouthMm: number;
  readonly cavityMm: (at: number) => number;
}

export function drawGap({ parent, x, y }: Section, geometry: GapGeometry): void {
  const { insertionMm, depthMm, shankBoreMm, pipeMouthMm, cavityMm } = geometry;
  const point = (mm: number, radius: number): Point => [x(mm), y(radius)];
  const stream = [
    point(insertionMm, shankBoreMm),
    point(depthMm, pipeMouthMm),
    point(depthMm, -pipeMouthMm),
    point(insertionMm, -shankBoreMm),
  ];
  add(parent, "path", { d: polygonPath(stream), fill: "gap", "fill-opacity": "0.2" });
  const rings = [1, -1].map((side) => [
    point(insertionMm, side * Math.min(shankBoreMm, cavityMm(insertionMm))),
    point(insertionMm, side * cavityMm(insertionMm)),
    point(depthMm, side * cavityMm(depthMm)),
    point(depthMm, side * Math.min(pipeMouthMm, cavityMm(depthMm))),
  ]);
  // Outlined in its own colour, so that a closed gap still shows where it is.
  add(parent, "path", { d: rings.map(polygonPath).join(""), fill: "gap", stroke: "gap", "stroke-width": 2 });
}
