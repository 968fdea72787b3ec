/** What was measured beside the model's change between the same two gaps: neither is ever fitted to the other. */
import type { GapSlots } from "../feel/slots.ts";
import type { MeasuredChange } from "./measuredGaps.ts";

/** The model's slot width at a gap. */
export interface ModelWidth {
  readonly gapMm: number;
  readonly cents: number;
}

/**
 * `agrees`: a difference was found, and the model's lies within its interval; `disagrees`: the model's lies outside, whether one
 * was found or not; `cannot-tell`: none was found, and the model's lies within.
 */
export type BesideModel = "agrees" | "disagrees" | "cannot-tell";

export function besideModel(
  { interval: [low, high], isFound }: MeasuredChange,
  modelChange: number,
): BesideModel {
  if (modelChange < low || modelChange > high) return "disagrees";
  return isFound ? "agrees" : "cannot-tell";
}

/** The widths of one note's slot, by gap, the smallest first. */
export function modelWidths(slots: readonly GapSlots[], partial: number): readonly ModelWidth[] {
  return slots
    .flatMap(({ gapMm, notes }) => {
      const cents = notes.find(({ n }) => n === partial)?.slot?.slotWidthCents;
      return cents === undefined ? [] : { gapMm, cents };
    })
    .sort((a, b) => a.gapMm - b.gapMm);
}

/** The model's change between the gaps that were measured, straight between those it was worked out for; null beyond them. */
export function modelChange(widths: readonly ModelWidth[], { from, to }: MeasuredChange): number | null {
  const [one, other] = [widthAt(widths, from.gapMm), widthAt(widths, to.gapMm)];
  return one === null || other === null ? null : other - one;
}

/** Straight between those that were worked out; null beyond them. */
export function widthAt(widths: readonly ModelWidth[], gapMm: number): number | null {
  const above = widths.findIndex((one) => one.gapMm >= gapMm);
  if (above < 0) return null;
  const high = widths[above];
  if (high.gapMm === gapMm) return high.cents;
  const low = widths[above - 1];
  if (!low) return null;
  const share = (gapMm - low.gapMm) / (high.gapMm - low.gapMm);
  return low.cents + share * (high.cents - low.cents);
}
