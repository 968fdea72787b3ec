/**
 * Which bell a setup is worked out with that leaves it to the program: curved fronts wherever they can be worked out up to the
 * highest frequency asked for, plane waves where not, as in a bell told by too few points, with chambers, or too wide for that
 * frequency. Plane waves put the demo's upper resonances 5 to 17 cents too high.
 */
import type { Setup } from "../../setup/setup.ts";
import { withBell } from "../../setup/withBell.ts";
import { OutOfRange } from "../../units/outOfRange.ts";
import { Line } from "./line.ts";
import { STATE } from "./twoPort.ts";

/** @param highestHz Hz; the same setup may be settled otherwise for a higher one */
export function settledBell(setup: Setup, highestHz: number): Setup {
  if (setup.model.bell !== "automatic") return setup;
  return withBell(setup, canFollowFronts(setup, highestHz) ? "multimodal" : "plane");
}

function canFollowFronts(setup: Setup, highestHz: number): boolean {
  const line = new Line(setup);
  try {
    // the series that reach so far are made, and kept with the flare
    for (const hz of [1, highestHz / 4, highestHz / 2, highestHz])
      line.atFlare(2 * Math.PI * hz, 0, new Float64Array(STATE));
    return true;
  } catch (error) {
    if (error instanceof OutOfRange) return false;
    throw error;
  }
}
