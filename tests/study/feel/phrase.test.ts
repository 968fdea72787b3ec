import { describe, expect, test } from "vitest";
import { DEFAULT_LIPS } from "../../../src/study/feel/lipParameters.ts";
import { PHRASES, perform } from "../../../src/study/feel/phrase.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import { cents } from "../../../src/study/instrument/pitch.ts";
import { demo } from "../../acoustics/setups.ts";

const instrument = new Instrument(demo(), { modes: 16 });

describe("a phrase at two gaps", () => {
  test.each(Object.entries(PHRASES))(
    "%s: every note speaks, near its resonance, at both gaps",
    (_, phrase) => {
      const played = perform(instrument, phrase, [5, 2.5], 2.5);
      expect(played).toHaveLength(2);
      for (const { gapMm, spoken, pressures, track } of played) {
        expect(spoken.map(({ note }) => note)).toEqual(phrase.notes);
        const modes = instrument.modes(gapMm);
        expect(spoken.length).toBeGreaterThan(0);
        for (const { note, after, frequencyHz } of spoken) {
          expect(after).toBeLessThan(0.4);
          const above = cents(frequencyHz!, modes[note - 1].frequencyHz);
          expect(above).toBeGreaterThan(0);
          expect(above).toBeLessThan(100);
        }
        expect(pressures.every(Number.isFinite)).toBe(true);
        // it begins and ends in silence
        expect(Math.abs(pressures[0])).toBeLessThan(10);
        expect(track[track.length - 1].frequencyHz).toBeNull();
      }
      const [chosen, reference] = played;
      expect(chosen.track.map(({ lipHz }) => lipHz)).toEqual(reference.track.map(({ lipHz }) => lipHz));
      expect(chosen.spoken[0].frequencyHz).not.toBe(reference.spoken[0].frequencyHz);
    },
  );

  test("the same gap twice is the same to the last bit", () => {
    const [one, two] = perform(instrument, PHRASES.octave, [3, 3], 2.5);
    expect(one).toEqual(two);
  });

  test("lips that cannot play it are refused in words", () => {
    expect(() => perform(instrument, PHRASES.slur, [2.5], 2.5, { ...DEFAULT_LIPS, quality: 0.5 })).toThrow(
      /note 3 of the phrase has no slot with these lips/,
    );
    expect(() => perform(instrument, PHRASES.slur, [2.5], 2.5, { ...DEFAULT_LIPS, width: -1 })).toThrow(
      RangeError,
    );
  });
});
