/** Which gaps the shank can be given in a receiver, and which of them the charts show. */

import { withoutRoundingNoise } from "../units/roundingNoise.ts";
import { cavityDiameterMm, exitBoreMm } from "./geometry.ts";
import { gapMm, type Setup } from "./setup.ts";

export interface GapLimits {
  readonly leastMm: number;
  readonly mostMm: number;
}

/** A gap wider than this is no setting anyone makes; it is shown only where the setup itself has it. */
const WIDEST_SHOWN_MM = 8;
const STEP_MM = 0.25;
/** More than any receiver asks for that can be. */
const MOST_STEPS = 1000;
/** The search below halves the receiver's depth until it is this fine, mm. */
const FINE_MM = 1e-4;

/** From the shank as far in as its bore allows (usually touching the leadpipe, 0) to the shank just out of the receiver. */
export function gapLimits(setup: Setup): GapLimits {
  const { depthMm } = setup.receiver;
  if (fits(setup, 0)) return { leastMm: 0, mostMm: depthMm };
  // the receiver narrows inwards: what fits at one gap fits at any wider one
  let tight = 0;
  let free = gapMm(setup);
  while (free - tight > FINE_MM) {
    const middle = (tight + free) / 2;
    if (fits(setup, middle)) free = middle;
    else tight = middle;
  }
  return { leastMm: free, mostMm: depthMm };
}

/** The part of the limits that a shank is moved over on the page and that charts against gap span. */
export function shownGaps(setup: Setup): GapLimits {
  const { leastMm, mostMm } = gapLimits(setup);
  return { leastMm, mostMm: Math.min(mostMm, Math.max(WIDEST_SHOWN_MM, Math.ceil(1.25 * gapMm(setup)))) };
}

/** Gaps of the charts against gap, mm: even steps over what is shown, both ends included. */
export function sweptGapsMm(setup: Setup): number[] {
  const { leastMm, mostMm } = shownGaps(setup);
  const stepMm = Math.max(STEP_MM, (mostMm - leastMm) / MOST_STEPS);
  const gaps = [leastMm];
  for (let i = Math.floor(leastMm / stepMm) + 1; i * stepMm < mostMm; i++) gaps.push(i * stepMm);
  if (mostMm > leastMm) gaps.push(mostMm);
  return gaps;
}

/** The nearest gap the receiver can have, free of rounding noise. */
export function nearestGapMm(setup: Setup, wantedMm: number): number {
  const { leastMm, mostMm } = gapLimits(setup);
  return Math.min(mostMm, Math.max(leastMm, withoutRoundingNoise(wantedMm)));
}

const fits = ({ mouthpiece, receiver }: Setup, atGapMm: number): boolean =>
  exitBoreMm(mouthpiece.profileMm) <
  cavityDiameterMm(
    receiver.mouthDiameterMm,
    receiver.taper,
    withoutRoundingNoise(receiver.depthMm - atGapMm),
  );
