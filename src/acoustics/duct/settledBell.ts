/**
 * Which bell a setup is worked out with that leaves it to the program: curved fronts wherever they can be worked out up to the
 * highest frequency asked for, plane waves where not, as in a bell told by too few points, with chambers, or too wide for that
 * frequency. Plane waves put the demo's upper resonances 5 to 17 cents too high.
 */
import type { Setup } from "../../setup/setup.ts";
import { withBell } from "../../setup/withBell.ts";
import { OutOfRange } from "../../units/outOfRange.ts";
import { bellFlare, flareStart } from "../bell/bellFlare.ts";
import { boreOf } from "./bore.ts";

/** @param highestHz Hz; the same setup may be settled otherwise for a higher one */
export function settledBell(setup: Setup, highestHz: number): Setup {
  if (setup.model.bell !== "automatic") return setup;
  return withBell(setup, canFollowFronts(setup, highestHz) ? "multimodal" : "plane");
}

function canFollowFronts(setup: Setup, highestHz: number): boolean {
  const bore = boreOf(setup);
  const pieces = bore.lower.slice(flareStart(bore.lower));
  if (pieces.length === 0) return true;
  try {
    // the series that reaches so far is made, and kept with the flare
    bellFlare(pieces, bore).reflection(2 * Math.PI * highestHz, 0, new Float64Array(2));
    return true;
  } catch (error) {
    if (error instanceof OutOfRange) return false;
    throw error;
  }
}
