/**
 * The lips glide from one frequency to another, evenly in cents, under one mouth pressure: what sounds on the way, stretch
 * by stretch. Going up and going down need not change notes at the same place; what lies between is the note's grip.
 */
import type { Oscillator } from "./oscillator.ts";
import { playingOf } from "./playing.ts";

/** Samples between two settings of the lips. */
const BLOCK = 64;

export interface Glided {
  /** Lip frequency in the middle of the stretch, Hz. */
  readonly lipHz: number;
  /** null where nothing sounds. */
  readonly frequencyHz: number | null;
}

/**
 * One value a stretch.
 * @param oscillator already sounding, or at rest; glides from where it is
 * @param toHz where the lips go
 * @param stretches how many
 * @param stretch length of each, s; some ten periods or more
 */
export function* glide(
  oscillator: Oscillator,
  toHz: number,
  stretches: number,
  stretch = 0.1,
): Generator<Glided, void, void> {
  const { lipHz: fromHz, mouthPressure } = oscillator.blowing;
  const blocks = Math.max(1, Math.round((stretch * oscillator.sampleRate) / BLOCK));
  const pressures = new Float64Array(blocks * BLOCK);
  const openings = new Float64Array(blocks * BLOCK);
  const lipAt = (passed: number) => fromHz * (toHz / fromHz) ** (passed / stretches);
  for (let k = 0; k < stretches; k++) {
    for (let b = 0; b < blocks; b++) {
      oscillator.blow(mouthPressure, lipAt(k + (b + 1) / blocks));
      const at = b * BLOCK;
      oscillator.run(pressures.subarray(at, at + BLOCK), openings.subarray(at, at + BLOCK));
    }
    const { frequencyHz } = playingOf(pressures, openings, oscillator.sampleRate, mouthPressure);
    yield { lipHz: lipAt(k + 0.5), frequencyHz };
  }
}
