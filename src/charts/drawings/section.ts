/**
 * Receiver, leadpipe and shank in section, as far as a setup gives them, for every drawing that shows them true to scale.
 * Distances run from the receiver's face into the instrument, mm; the axis of the bore is at radius 0.
 */
import { cavityDiameterMm, profileLengthMm } from "../../setup/geometry.ts";
import type { Setup } from "../../setup/setup.ts";
import { rule, type Scale } from "../kit/drawing.ts";
import { invented } from "./inventedWalls.ts";
import { boreBetween, type Outline } from "./profile.ts";

/** Where the parts are drawn. */
export interface Section {
  readonly parent: Element;
  readonly x: Scale;
  readonly y: Scale;
}

/** Bore of the receiver at a distance from its face, as a radius, mm. */
export const cavityOf =
  ({ receiver: { mouthDiameterMm, taper } }: Setup) =>
  (at: number): number =>
    cavityDiameterMm(mouthDiameterMm, taper, at) / 2;

/** Radius of the receiver's bead, the largest of all, mm. */
export const beadRadiusMm = ({ receiver }: Setup): number =>
  receiver.mouthDiameterMm / 2 + invented.receiverWall + invented.beadHeight;

/** The leadpipe from its start, at most up to a place. */
export function leadpipeOf({ receiver: { depthMm }, leadpipe: { profileMm } }: Setup, toMm: number) {
  const start = profileMm[0][0];
  const endMm = Math.min(toMm, depthMm + profileLengthMm(profileMm));
  const bore = boreBetween(profileMm, start, start + endMm - depthMm, depthMm - start);
  const outside: Outline = bore.map(([at, radius]) => [at, radius + invented.leadpipeWall]);
  return { endMm, bore, outside };
}

/** The bore of a shank seated so far in, between two places. */
export function shankBoreOf({ mouthpiece }: Setup, seatedMm: number, fromMm: number, toMm: number): Outline {
  const { profileMm } = mouthpiece;
  const offset = seatedMm - profileMm[profileMm.length - 1][0];
  return boreBetween(profileMm, fromMm - offset, toMm - offset, offset);
}

/**
 * Outside of a shank seated so far in: its taper up to the shoulder, as given, or fitting the receiver where nothing is
 * given; then a body nobody has measured. A shank that would cut into the receiver is drawn touching it.
 */
export function shankOutsideOf(setup: Setup, seatedMm: number) {
  const { mouthpiece, receiver } = setup;
  const cavityMm = cavityOf(setup);
  const given = mouthpiece.shankEndDiameterMm;
  const endMm = given === undefined ? cavityMm(seatedMm) : given / 2;
  const slope = (mouthpiece.shankTaper ?? receiver.taper) / 2;
  const radius = (at: number) => Math.min(endMm + slope * (seatedMm - at), at >= 0 ? cavityMm(at) : Infinity);
  const shoulderMm = seatedMm - receiver.depthMm - invented.shoulderClear;
  const body = radius(shoulderMm) + invented.shoulderHeight;
  const shoulder: Outline = [
    [shoulderMm - invented.chamfer, body],
    [shoulderMm, body - invented.chamfer],
    [shoulderMm, radius(shoulderMm)],
  ];
  return { radius, shoulderMm, body, shoulder };
}

export const centreLine = ({ parent, x, y }: Section, [from, to]: readonly [fromMm: number, toMm: number]) =>
  rule(parent, [x(from), y(0)], [x(to), y(0)], "ink", 0.8, "18 4 3 4");
