/** The steps a gap is moved in: by a key, by a hand. */

import { shownGaps } from "../../../setup/gapLimits.ts";
import type { Setup } from "../../../setup/setup.ts";
import { withoutRoundingNoise } from "../../../units/roundingNoise.ts";
import type { Unit } from "../../state/state.ts";

const MM_PER_INCH = 25.4;

/** What an arrow key moves, and with Shift or by page, mm. */
export const keySteps = (unit: Unit): { readonly fine: number; readonly coarse: number } =>
  unit === "mm" ? { fine: 0.05, coarse: 0.5 } : { fine: 0.001 * MM_PER_INCH, coarse: 0.01 * MM_PER_INCH };

/** Where a hand has moved the shank to: within what is shown, in hundredths of a mm or thousandths of an inch. */
export function byHand(setup: Setup, gapMm: number, unit: Unit): number {
  const { leastMm, mostMm } = shownGaps(setup);
  const grain = unit === "mm" ? 0.01 : 0.001 * MM_PER_INCH;
  const rounded = withoutRoundingNoise(Math.round(gapMm / grain) * grain);
  return Math.min(mostMm, Math.max(leastMm, rounded));
}

/** How far a key moves the gap, mm; null for a key that does not. `direction` is the sign of a key to the right. */
export function keyMove(event: KeyboardEvent, unit: Unit, direction: 1 | -1 = 1): number | null {
  if (event.ctrlKey || event.metaKey || event.altKey) return null;
  const { fine, coarse } = keySteps(unit);
  const step = event.shiftKey ? coarse : fine;
  switch (event.key) {
    case "ArrowRight":
      return direction * step;
    case "ArrowLeft":
      return -direction * step;
    case "ArrowUp":
      return step;
    case "ArrowDown":
      return -step;
    case "PageUp":
      return coarse;
    case "PageDown":
      return -coarse;
    default:
      return null;
  }
}
