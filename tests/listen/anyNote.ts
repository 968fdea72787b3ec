/** Any held note: made of any harmonics at any rate, its pitch is known exactly. */
import fc from "fast-check";
import { expect } from "vitest";
import { listenTo } from "../../src/listen/take.ts";
import { cents } from "../../src/listen/track.ts";
import { blocksOf, sound } from "./sounds.ts";

export const steady = (rateHz: number, samples: Float32Array, nearHz: number | null) => {
  const take = listenTo(blocksOf(rateHz, samples), { test: "steady", nearHz, notesHz: [] });
  if (take.test !== "steady") throw new Error("asked for held notes");
  return take;
};

/** Its pitch within a fifth of a cent and never an octave off, from the tuba's pedals to a trumpet's top. */
export function expectAnyNoteHeard(numRuns: number): void {
  fc.assert(
    fc.property(
      fc.double({ min: Math.log2(35), max: Math.log2(1400), noNaN: true }),
      fc.array(fc.double({ min: -30, max: 0, noNaN: true }), { minLength: 3, maxLength: 12 }),
      fc.constantFrom(11025, 16000, 22050, 44100, 48000),
      (octave, levels, rateHz) => {
        const hz = 2 ** octave;
        // the second harmonic may be the strongest by far, but the first is there
        const harmonics = levels.map((dB, k) => 10 ** ((k === 0 ? Math.max(dB, -10) : dB) / 20));
        const { notes } = steady(
          rateHz,
          sound(rateHz, 1.4, [{ hz, fromS: 0.3, toS: 1.2, harmonics }]),
          hz * 1.02,
        );
        expect(notes.length).toBe(1);
        expect(Math.abs(cents(notes[0].hz, hz))).toBeLessThan(0.2);
      },
    ),
    { numRuns, seed: 17 },
  );
}
