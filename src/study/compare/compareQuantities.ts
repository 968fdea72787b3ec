/** The named quantities of a variant that a goal may speak of, numbered by resonance or note, and what each is counted in. */

import type { Resistance } from "../blown/resistance.ts";
import type { ChangedMode } from "../change/modeChanges.ts";
import type { NoteSlot } from "../feel/slots.ts";
import { decibels } from "../instrument/pitch.ts";
import type { Quantities } from "./goal.ts";

/** Of every resonance; name and meaning. */
export const MODE_QUANTITIES = {
  f: "resonance, Hz",
  cents: "equivalent fundamental against the common one, cents",
  height: "peak, dB above 1 MPa·s/m³",
  Q: "quality factor",
  spacing: "to the next resonance, cents",
  shift: "of the resonance from that of the one compared with, cents",
  rise: "of the peak above that of the one compared with, dB",
} as const;

/** Of every note that is played; these take longer. */
export const NOTE_QUANTITIES = {
  hold: "lip frequencies that start the note, cents",
  pull: "how far the note follows the lips, 0 to 1",
  threshold: "lowest mouth pressure, Pa",
} as const;

/** Of the whole. */
export const WHOLE_QUANTITIES = {
  gap: "mm",
  slide: "length put in to retune, mm",
  resistance: "steady pressure over flow, MPa·s/m³",
} as const;

/** Every name there may be with so many resonances. */
export function knownQuantities(modes: number): string[] {
  const numbered = [...Object.keys(MODE_QUANTITIES), ...Object.keys(NOTE_QUANTITIES)];
  return [
    ...numbered.flatMap((name) => Array.from({ length: modes }, (_, i) => `${name}${i + 1}`)),
    ...Object.keys(WHOLE_QUANTITIES),
  ];
}

/** Whether a goal names what only notes have, which takes longer to compute. */
export const asksForNotes = (symbols: readonly string[]): boolean =>
  symbols.some((name) => Object.hasOwn(NOTE_QUANTITIES, name.replace(/\d+$/, "")));

export interface Measured {
  readonly gapMm: number;
  readonly slideMm: number | null;
  readonly modes: readonly ChangedMode[];
  readonly notes: readonly NoteSlot[] | null;
  readonly resistance: Resistance | null;
}

/** What a goal may speak of, by name. */
export function quantitiesOf({ gapMm, slideMm, modes, notes, resistance }: Measured): Quantities {
  const entries: [string, number | null][] = [
    ["gap", gapMm],
    ["slide", slideMm],
    ["resistance", resistance?.resistance ? resistance.resistance.estimate / 1e6 : null],
  ];
  for (const mode of modes) {
    const { n } = mode;
    entries.push(
      [`f${n}`, mode.frequencyHz],
      [`cents${n}`, mode.equivalentCents],
      [`height${n}`, mode.peakImpedance === null ? null : decibels(mode.peakImpedance, 1e6)],
      [`Q${n}`, mode.Q],
      [`spacing${n}`, mode.spacingCents],
      [`shift${n}`, mode.shiftCents],
      [`rise${n}`, mode.heightDb],
    );
  }
  for (const { n, slot, mouthPressure, onset } of notes ?? [])
    entries.push(
      [`hold${n}`, slot?.slotWidthCents ?? (mouthPressure === null ? null : 0)],
      [`pull${n}`, slot?.pull ?? null],
      [`threshold${n}`, onset?.mouthPressure ?? null],
    );
  return Object.fromEntries(entries);
}
