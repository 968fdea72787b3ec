/** Gaps worth trying on the instrument that is open. */

import { gapLimits } from "../../../../setup/gapLimits.ts";
import type { LengthUnit } from "../../../../units/length.ts";
import { mmPerUnit } from "../../../../units/lengthUnit.ts";
import type { Document } from "../../../state/state.ts";

/** Beyond the gaps that are known already, a preference still has room on both sides, mm. */
const AROUND_MM = 1;
const COUNT = 5;
/** Nobody sets a gap for a trial more finely, in the unit. */
const STEP = { mm: 0.05, in: 0.002 } as const;
const DIGITS = { mm: 2, in: 3 } as const;

/** As texts in the unit: an even spread from a little below the chosen and the reference gap to a little above them. */
export function spreadGaps({ setup, gapMm, referenceGapMm }: Document, unit: LengthUnit): string[] {
  const { leastMm, mostMm } = gapLimits(setup);
  const low = Math.max(leastMm, Math.min(gapMm, referenceGapMm) - AROUND_MM);
  const high = Math.min(mostMm, Math.max(gapMm, referenceGapMm) + AROUND_MM);
  const step = STEP[unit] * mmPerUnit(unit)!;
  // rounded inwards at the ends, which may be the receiver's own
  const [first, last] = [Math.ceil(low / step - 1e-9), Math.floor(high / step + 1e-9)];
  return Array.from({ length: COUNT }, (_, i) => Math.round(first + (i / (COUNT - 1)) * (last - first))).map(
    (steps) => gapText(steps * step, unit),
  );
}

/** A gap as a person would type it. */
export const gapText = (gapMm: number, unit: LengthUnit): string =>
  `${Number((gapMm / mmPerUnit(unit)!).toFixed(DIGITS[unit]))}`;
