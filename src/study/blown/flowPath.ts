/**
 * The way of the breath through one setup, part by part, as `flow` wants it: cones in metres, and one gas throughout, the air
 * at the gap. (A warm breath changes the density along the bore by a few per cent, less than the loss coefficients are known.)
 */

import { boreOf } from "../../acoustics/duct/bore.ts";
import type { Air } from "../../acoustics/medium/air.ts";
import type { GapShape } from "../../flow/gapLoss.ts";
import type { Cone } from "../../flow/pipe.ts";
import type { ThroatEdge } from "../../flow/throatEdge.ts";
import { splitProfileMm } from "../../setup/bore/boreDiameter.ts";
import { cavityDiameterMm, exitBoreMm } from "../../setup/geometry.ts";
import type { ProfileMm, Setup } from "../../setup/setup.ts";
import { withGap } from "../../setup/withGap.ts";

export const PIPES = ["cup", "throat", "backbore", "leadpipe", "body"] as const;
export type PipeName = (typeof PIPES)[number];

export interface FlowPath {
  readonly air: Air;
  /** A part without length (a mouthpiece without a backbore) has no cones. */
  readonly pipes: Readonly<Record<PipeName, readonly Cone[]>>;
  readonly throatEdge: ThroatEdge;
}

/** The throat is as far as the bore stays within this of its narrowest: a measured one is never quite a cylinder. */
const THROAT_WITHIN = 1.01;

/** The way of the stream as cones in SI, part by part, and the shape of the gap. */
export function flowPath(setup: Setup): FlowPath {
  const { mouthpiece, leadpipe, body } = setup;
  const [cupEndMm, throatEndMm] = throatMm(mouthpiece.profileMm, mouthpiece.cupDepthMm);
  const [cup, rest] = splitProfileMm(mouthpiece.profileMm, cupEndMm);
  const [throat, backbore] = splitProfileMm(rest, throatEndMm);
  const joint = step(exitBoreMm(leadpipe.profileMm), body.profileMm[0][1]);
  return {
    air: boreOf(setup).gapAir,
    pipes: {
      cup: conesOf(cup),
      throat: conesOf(throat),
      backbore: conesOf(backbore),
      leadpipe: conesOf(leadpipe.profileMm),
      body: [...joint, ...conesOf(body.profileMm)],
    },
    throatEdge: throatEdge(cup, mouthpiece.throatEdgeRadiusMm),
  };
}

/** The wall that the stream comes along is taken over half a throat's radius from the edge outward. */
const WALL_OVER = 1.5;

function throatEdge(cup: ProfileMm, radiusMm: number | undefined): ThroatEdge {
  const [edgeMm, diameterMm] = cup[cup.length - 1];
  const known = radiusMm === undefined ? null : radiusMm / 1000;
  const from = cup.findLastIndex(([, diameter]) => diameter >= WALL_OVER * diameterMm);
  const wall = { diameter: diameterMm / 1000, radius: known };
  if (from < 0) {
    const across = (cup[0][1] - diameterMm) / 2;
    return { ...wall, wallAngle: across > 0 ? Math.atan2(across, edgeMm - cup[0][0]) : 0 };
  }
  const [[x1, d1], [x2, d2]] = [cup[from], cup[from + 1]];
  const across = WALL_OVER * diameterMm;
  const fromMm = x1 + ((x2 - x1) * (d1 - across)) / (d1 - d2);
  return { ...wall, wallAngle: Math.atan2((across - diameterMm) / 2, edgeMm - fromMm) };
}

/** @throws SetupError on a gap the receiver cannot have */
export function gapShape(setup: Setup, gapMm: number): GapShape {
  const { mouthpiece, receiver, leadpipe } = withGap(setup, gapMm);
  const cavity = (fromMouthMm: number) =>
    cavityDiameterMm(receiver.mouthDiameterMm, receiver.taper, fromMouthMm) / 2000;
  return {
    shankExit: exitBoreMm(mouthpiece.profileMm) / 2000,
    cavityAtShank: cavity(mouthpiece.insertionMm),
    cavityAtLeadpipe: cavity(receiver.depthMm),
    leadpipe: leadpipe.profileMm[0][1] / 2000,
    gap: gapMm / 1000,
  };
}

function conesOf(profile: ProfileMm): Cone[] {
  return profile.slice(1).flatMap(([x, diameter], i) => {
    const [before, diameterBefore] = profile[i];
    return x === before
      ? step(diameterBefore, diameter)
      : [{ length: (x - before) / 1000, radiusIn: diameterBefore / 2000, radiusOut: diameter / 2000 }];
  });
}

const step = (before: number, after: number): Cone[] =>
  before === after ? [] : [{ length: 0, radiusIn: before / 2000, radiusOut: after / 2000 }];

/** Where the throat begins and ends, as the profile counts: the stated cup depth, if there is one, is where it begins. */
function throatMm(profile: ProfileMm, cupDepthMm: number | undefined): [fromMm: number, toMm: number] {
  const widest = THROAT_WITHIN * Math.min(...profile.map(([, diameter]) => diameter));
  const first = profile.findIndex(([, diameter]) => diameter <= widest);
  let last = first;
  while (last + 1 < profile.length && profile[last + 1][1] <= widest) last++;
  const endMm = profile[last][0];
  return [Math.min(cupDepthMm === undefined ? profile[first][0] : profile[0][0] + cupDepthMm, endMm), endMm];
}
