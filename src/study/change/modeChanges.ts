/** What another gap does to every resonance: shift, height, spacing, against the same resonance at a reference gap. */
import type { Mode } from "../instrument/instrument.ts";
import { inContext, type ModeInContext } from "../instrument/modeTable.ts";
import { cents, decibels } from "../instrument/pitch.ts";

export interface ChangedMode extends ModeInContext {
  /** Of the resonance, against the same resonance at the reference gap. */
  readonly shiftCents: number;
  /** Of the peak; null where either has none. */
  readonly heightDb: number | null;
  /** Of the spacing to the next; null for the last. */
  readonly spacingChangeCents: number | null;
}

/** As many as both have. */
export function modeChanges(modes: readonly Mode[], reference: readonly ModeInContext[]): ChangedMode[] {
  return inContext(modes)
    .slice(0, reference.length)
    .map((mode, i) => {
      const from = reference[i];
      return {
        ...mode,
        shiftCents: cents(mode.frequencyHz, from.frequencyHz),
        heightDb:
          mode.peakImpedance === null || from.peakImpedance === null
            ? null
            : decibels(mode.peakImpedance, from.peakImpedance),
        spacingChangeCents:
          mode.spacingCents === null || from.spacingCents === null
            ? null
            : mode.spacingCents - from.spacingCents,
      };
    });
}
