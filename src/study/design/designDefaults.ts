/** What a design is asked for where nobody says otherwise: the same on the page and at the terminal. Own choices, no source. */

import { type GapLimits, shownGaps } from "../../setup/gapLimits.ts";
import { exitBoreMm } from "../../setup/geometry.ts";
import type { Setup } from "../../setup/setup.ts";

/** Control diameters along the leadpipe, ends included; starts, your leadpipe the first of them. */
export const DESIGN_DEFAULTS = {
  knots: 6,
  restarts: 3,
  stepsEach: 40,
  seed: 1,
  holdsEntry: true,
  holdsEnd: true,
  widens: true,
  leastCurvatureRadiusMm: 0,
} as const;

/** Between stations of the mandrel, and the part of what can be felt that all their tolerances together may use up. */
export const STATION_DEFAULTS = { everyMm: 10, part: 0.5 } as const;

/** A diameter off by this much, to either side of the present bore, is where a search may go. */
const LEEWAY_MM = 1;

/** Between which diameters, and gaps where the gap may change, a leadpipe for this instrument is searched. */
export function usualLimits(setup: Setup): {
  readonly smallestMm: number;
  readonly largestMm: number;
  readonly gap: GapLimits;
} {
  const { profileMm } = setup.leadpipe;
  const diameters = profileMm.map(([, d]) => d);
  return {
    smallestMm: Math.max(1, Math.min(...diameters) - LEEWAY_MM),
    largestMm: Math.max(exitBoreMm(profileMm), ...diameters) + LEEWAY_MM,
    gap: shownGaps(setup),
  };
}
