/**
 * How firmly every playable note sits in its slot, at one gap or many, for lips one may change. All gaps are blown with the
 * same pressures, or a note would be held against itself blown differently: note n gets a chosen multiple of its own
 * threshold at the reference gap, as a player needs more for a higher note, or every note gets one pressure in pascals.
 */

import { DEFAULT_LIPS } from "../../lips/lips.ts";
import { type Modes, resonanceCount } from "../../lips/modes.ts";
import { type Slot, slotOf } from "../../lips/slot.ts";
import { Stability } from "../../lips/stability.ts";
import { type Onset, Thresholds } from "../../lips/threshold.ts";
import { checkLips, type Lips, type Valve } from "../../lips/valve.ts";
import { OutOfRange } from "../../units/outOfRange.ts";
import { PLAYED } from "../change/verdicts.ts";
import type { Instrument } from "../instrument/instrument.ts";
import { KeptAnswers } from "../keptAnswers.ts";
import { modalColumn } from "./modalColumn.ts";

/** How hard it is blown: every note by a multiple of its own threshold, or all by one pressure. */
export type Pressure = { readonly timesThreshold: number } | { readonly pascals: number };

/** A soft note, well above its starting pressure: own choice, no source. */
export const SOFTLY = { timesThreshold: 1.3 } as const satisfies Pressure;

export interface SlotOptions {
  readonly lips?: Lips;
  readonly pressure?: Pressure;
  /** Where the thresholds that set the pressures are taken; the setup's own gap if absent. */
  readonly referenceGapMm?: number;
}

/** One note; what it lacks is null. */
export interface NoteSlot {
  readonly n: number;
  /** Its easiest start here; null where no lip frequency starts it. */
  readonly onset: Onset | null;
  /** What it is blown with, Pa; null where the reference gap gives it no threshold. */
  readonly mouthPressure: number | null;
  /** null where at this pressure it never is what grows fastest: no slot. */
  readonly slot: Slot | null;
}

export interface GapSlots {
  readonly gapMm: number;
  readonly notes: readonly NoteSlot[];
}

/** Lips in the air of this instrument's cup. */
export const valveIn = <Kind extends Lips>(
  { column }: Instrument,
  lips: Kind,
): Kind & { readonly density: number } => ({
  ...lips,
  density: column.line.bore.mouthpiece[0].air.density,
});

/** Lips on one column: what the questions are asked of. */
export interface Blown {
  readonly modes: Modes;
  readonly stability: Stability;
  readonly thresholds: Thresholds;
}

/** Everything that is asked of lips on an instrument at a gap, ready to be asked. */
export function blownAt(instrument: Instrument, gapMm: number, valve: Valve): Blown {
  const modes = modalColumn(instrument, gapMm);
  return { modes, stability: new Stability(valve, modes), thresholds: new Thresholds(valve, modes) };
}

/**
 * The slots at every gap, one value a gap.
 * @param instrument with as many resonances as the modal column shall have: `MODAL_COUNT`
 * @throws OutOfRange in words for lips or a pressure that cannot be, SetupError for a gap the receiver cannot have
 */
export function* slotSteps(
  instrument: Instrument,
  gapsMm: readonly number[],
  options: SlotOptions = {},
): Generator<GapSlots, void, void> {
  const { lips = DEFAULT_LIPS, pressure = SOFTLY, referenceGapMm = instrument.gapMm } = options;
  checkLips(lips);
  checkPressure(pressure);
  const valve = valveIn(instrument, lips);
  const at = (gapMm: number, pressureOf: (thresholds: Thresholds, n: number, i: number) => number | null) =>
    kept.to(instrument, [gapMm, lips, pressure, referenceGapMm], () =>
      slotsOn(blownAt(instrument, gapMm, valve), gapMm, pressureOf),
    );
  const { notes } = at(referenceGapMm, (thresholds, n) => pressureFor(n, pressure, thresholds));
  for (const gapMm of gapsMm) yield at(gapMm, (_, __, i) => notes[i]?.mouthPressure ?? null);
}

/** A hand on the shank compares gap after gap with one reference, on a dozen sets of lips. */
const kept = new KeptAnswers<Instrument, GapSlots>(64);

/** Every note's slot on one column, blown as told for each. */
const slotsOn = (
  { modes, stability, thresholds }: Blown,
  gapMm: number,
  pressureOf: (thresholds: Thresholds, n: number, i: number) => number | null,
): GapSlots => ({
  gapMm,
  notes: playedNotes(modes).map((n, i): NoteSlot => {
    const mouthPressure = pressureOf(thresholds, n, i);
    return {
      n,
      onset: thresholds.lowest(n),
      mouthPressure,
      slot: mouthPressure === null ? null : slotOf(stability, thresholds, n, mouthPressure),
    };
  }),
});

/** The slots at one gap. */
export function slotsAt(instrument: Instrument, gapMm: number, options: SlotOptions = {}): GapSlots {
  const [slots] = slotSteps(instrument, [gapMm], options);
  return slots;
}

/** Notes 2 to 10, or as many as the column's modes make. */
function playedNotes(modes: Modes): number[] {
  const last = Math.min(PLAYED[1], resonanceCount(modes) - 1);
  return Array.from({ length: Math.max(0, last - PLAYED[0] + 1) }, (_, i) => PLAYED[0] + i);
}

/** What note n is blown with, Pa; null where it has no threshold to take a multiple of. */
export function pressureFor(n: number, pressure: Pressure, thresholds: Thresholds): number | null {
  if ("pascals" in pressure) return pressure.pascals;
  const onset = thresholds.lowest(n);
  return onset && pressure.timesThreshold * onset.mouthPressure;
}

/** @throws OutOfRange in words */
export function checkPressure(pressure: Pressure): void {
  if ("pascals" in pressure) {
    if (!(pressure.pascals > 0 && pressure.pascals <= 100e3))
      throw new OutOfRange(
        `a mouth pressure of ${pressure.pascals} Pa cannot be blown: give more than 0 kPa, to 100 kPa`,
      );
  } else if (!(pressure.timesThreshold > 1 && pressure.timesThreshold <= 20))
    throw new OutOfRange(
      `${pressure.timesThreshold} times the starting pressure cannot be used: give more than 1, to 20`,
    );
}
