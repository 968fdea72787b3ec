/** What was measured beside the model's change between the same two gaps: neither is ever fitted to the other. */

import type { MissChance } from "../feel/leaps.ts";
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
export const widthAt = (widths: readonly ModelWidth[], gapMm: number): number | null =>
  between(widths, ({ cents }) => cents, gapMm);

function between<One extends { readonly gapMm: number }>(
  sorted: readonly One[],
  of: (one: One) => number,
  gapMm: number,
): number | null {
  const above = sorted.findIndex((one) => one.gapMm >= gapMm);
  if (above < 0) return null;
  const high = sorted[above];
  if (high.gapMm === gapMm) return of(high);
  const low = sorted[above - 1];
  if (!low) return null;
  const share = (gapMm - low.gapMm) / (high.gapMm - low.gapMm);
  return of(low) + share * (of(high) - of(low));
}

/** What the model has of an attack: how hard the note is to start, and how far off the next one is. It counts no misses. */
export interface ModelStart {
  /** Change of the starting pressure, per cent. */
  readonly percent: number;
  /** Change of the margin: starting pressure of the next note over the note's own; null where it has none. */
  readonly margin: number | null;
}

/** Between the gaps that were measured; null where a gap is beyond those worked out, or the note does not start there. */
export function modelStart(
  slots: readonly GapSlots[],
  partial: number,
  { from, to }: MeasuredChange,
): ModelStart | null {
  const notes = slots
    .flatMap(({ gapMm, notes }) => {
      const note = notes.find(({ n }) => n === partial);
      return note?.onset
        ? { gapMm, pressure: note.onset.mouthPressure, margin: note.slot?.margin ?? null }
        : [];
    })
    .sort((a, b) => a.gapMm - b.gapMm);
  const at = (gapMm: number) => between(notes, ({ pressure }) => pressure, gapMm);
  const [one, other] = [at(from.gapMm), at(to.gapMm)];
  if (one === null || other === null) return null;
  const margins = notes.flatMap(({ gapMm, margin }) => (margin === null ? [] : { gapMm, margin }));
  const marginAt = (gapMm: number) => between(margins, ({ margin }) => margin, gapMm);
  const [before, after] = [marginAt(from.gapMm), marginAt(to.gapMm)];
  return {
    percent: 100 * (other / one - 1),
    margin: before === null || after === null ? null : after - before,
  };
}

/** Shares missed by modelled lips, at the gaps that were measured. */
export interface ModelShares {
  readonly from: MissChance;
  readonly to: MissChance;
}

/** As `besideModel`, the model's change having an interval of its own (Newcombe 1998, method 10). */
export function besideShares({ interval, isFound }: MeasuredChange, { from, to }: ModelShares): BesideModel {
  const change = to.chance - from.chance;
  const low = change - Math.hypot(to.chance - to.interval[0], from.interval[1] - from.chance);
  const high = change + Math.hypot(to.interval[1] - to.chance, from.chance - from.interval[0]);
  if (high < interval[0] || low > interval[1]) return "disagrees";
  return isFound && (low > 0 || high < 0) ? "agrees" : "cannot-tell";
}
