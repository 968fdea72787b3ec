import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Modes } from "../../src/lips/modes.ts";
import { Oscillator } from "../../src/lips/oscillator.ts";
import { playingOf } from "../../src/lips/playing.ts";
import { slotOf } from "../../src/lips/slot.ts";
import { Stability } from "../../src/lips/stability.ts";
import { Thresholds } from "../../src/lips/threshold.ts";
import { json } from "../reference/table.ts";
import { anyModes, anyValve, COLUMN, USUAL, valveNamed } from "./columns.ts";

const RATE = 48000;

/** As the outside values were made: the mouth pressure rises as sin² at first. */
function rising(
  { lips, lipHz, mouthPressure, rise, seconds }: any,
  rate: number,
): { pressures: Float64Array; openings: Float64Array } {
  const oscillator = new Oscillator(rate, valveNamed(lips), COLUMN, { mouthPressure: 0, lipHz });
  const pressures = new Float64Array(Math.round(seconds * rate) + 1);
  const openings = new Float64Array(pressures.length);
  const risen = Math.ceil(rise * rate);
  for (let k = 1; k <= risen; k++) {
    oscillator.blow(mouthPressure * Math.sin((Math.PI * Math.min(k / rate / rise, 1)) / 2) ** 2, lipHz);
    oscillator.run(pressures.subarray(k, k + 1), openings.subarray(k, k + 1));
  }
  oscillator.run(pressures.subarray(risen + 1), openings.subarray(risen + 1));
  return { pressures, openings };
}

describe("oscillator in time", () => {
  const { cases } = json("lips/in-time.json");

  // scipy.integrate.solve_ivp, DOP853, tolerance 1e-10
  it("the first 40 ms agree with SciPy, to second order in the step", () => {
    expect(cases).toHaveLength(4);
    for (const reference of cases) {
      const largest = Math.max(...reference.pressureEveryMs.map(Math.abs));
      const missed = [48000, 96000, 192000, 384000].map((rate) => {
        const { pressures } = rising({ ...reference, seconds: 0.04 }, rate);
        const squares = reference.pressureEveryMs.map(
          (p: number, ms: number) => (pressures[(ms * rate) / 1000] - p) ** 2,
        );
        return Math.sqrt(squares.reduce((sum: number, x: number) => sum + x, 0) / squares.length) / largest;
      });
      expect(missed[0]).toBeLessThan(0.03);
      expect(missed[3]).toBeLessThan(1e-3);
      // halving the step quarters the error; the slope of the three halvings together
      expect(Math.log2(missed[0] / missed[3]) / 3).toBeGreaterThan(1.8);
      expect(Math.log2(missed[0] / missed[3]) / 3).toBeLessThan(2.3);
    }
  });

  it("the frequency of what comes of it agrees with SciPy's, to second order", () => {
    expect(cases).toHaveLength(4);
    for (const reference of cases) {
      const cents = [48000, 96000, 192000].map((rate) => {
        const { pressures, openings } = rising(reference, rate);
        const from = pressures.length - Math.round(0.2 * rate);
        const { frequencyHz } = playingOf(
          pressures.subarray(from),
          openings.subarray(from),
          rate,
          reference.mouthPressure,
        );
        return 1200 * Math.log2(frequencyHz! / reference.frequency);
      });
      expect(Math.abs(cents[0])).toBeLessThan(1.5);
      expect(Math.abs(cents[2])).toBeLessThan(0.1);
      expect((cents[0] - cents[1]) / (cents[1] - cents[2])).toBeGreaterThan(3);
      expect((cents[0] - cents[1]) / (cents[1] - cents[2])).toBeLessThan(5.5);
    }
  });

  it("starts within 1 % of the eigenvalues' threshold, at their frequency", () => {
    const thresholds = new Thresholds(USUAL, COLUMN);
    for (let n = 2; n <= 10; n++) {
      const { lipHz, mouthPressure, frequencyHz } = thresholds.lowest(n)!;
      expect(growthAt(lipHz, 0.99 * mouthPressure).rate).toBeLessThan(0);
      const above = growthAt(lipHz, 1.01 * mouthPressure);
      expect(above.rate).toBeGreaterThan(0);
      expect(Math.abs(1200 * Math.log2(above.frequencyHz / frequencyHz))).toBeLessThan(2);
    }
  });

  it("what is not blown stays silent, and the steady stream is a rest of it", () => {
    const silent = new Oscillator(RATE, USUAL, COLUMN, { mouthPressure: 0, lipHz: 300 });
    silent.rest();
    const pressures = new Float64Array(4800);
    silent.run(pressures);
    expect(pressures.every((p) => p === 0)).toBe(true);
    // below its threshold it stays there
    const still = new Oscillator(RATE, USUAL, COLUMN, { mouthPressure: 1000, lipHz: 434 });
    still.rest();
    const { pressure } = still;
    expect(pressure).toBeGreaterThan(0);
    still.run(pressures);
    expect(Math.max(...pressures.map((p) => Math.abs(p / pressure - 1)))).toBeLessThan(1e-9);
  });

  it("any column, lips, pressure and steps of them: bounded, and never not a number", () => {
    const lipHz = fc.double({ min: 20, max: 2000, noNaN: true });
    const mouth = fc.oneof(fc.constant(0), fc.double({ min: 1, max: 1e6, noNaN: true }));
    fc.assert(
      fc.property(anyModes, anyValve, lipHz, lipHz, mouth, mouth, fc.constantFrom(44100, 48000), (...a) => {
        const [modes, valve, lipFrom, lipTo, mouthFrom, mouthTo, rate] = a;
        const oscillator = new Oscillator(rate, valve, modes, { mouthPressure: mouthFrom, lipHz: lipFrom });
        const block = new Float64Array(128);
        let before = 0;
        let after = 0;
        for (let k = 0; k < 400; k++) {
          if (k === 150) oscillator.blow(mouthTo, lipTo);
          oscillator.run(block);
          const largest = block.reduce((most, p) => Math.max(most, Math.abs(p)), 0);
          if (k < 175) before = Math.max(before, largest);
          else after = Math.max(after, largest);
        }
        // what is not a number fails both; these columns' resonances can be struck to many times the pressure that drives them, not without bound
        const most = Math.max(mouthFrom, mouthTo);
        expect(before).toBeLessThanOrEqual(100 * most);
        expect(after).toBeLessThanOrEqual(100 * most);
      }),
      { numRuns: 60 },
    );
  });

  it("the sampled column never gives out more energy than it has had, whatever the lips do", () => {
    fc.assert(
      fc.property(
        anyValve,
        fc.double({ min: 20, max: 2000, noNaN: true }),
        fc.double({ min: 10, max: 1e5, noNaN: true }),
        fc.constantFrom(8000, 22050, 48000),
        (valve, lipHz, mouthPressure, rate) => {
          const oscillator = new Oscillator(rate, valve, COLUMN, { mouthPressure, lipHz });
          const one = new Float64Array(1);
          let energy = 0;
          let passed = 0;
          let least = 0;
          for (let k = 0; k < 4000; k++) {
            if (k % 500 === 499) oscillator.blow(mouthPressure * ((k * 7) % 3), lipHz);
            oscillator.run(one);
            energy += oscillator.pressure * oscillator.flow;
            passed += Math.abs(oscillator.pressure * oscillator.flow);
            least = Math.min(least, energy);
          }
          expect(least).toBeGreaterThanOrEqual(-1e-9 * passed);
        },
      ),
      { numRuns: 60 },
    );
  });

  it("a new column, pressure or lips come without a click", () => {
    const slot = slotOf(new Stability(USUAL, COLUMN), new Thresholds(USUAL, COLUMN), 4, 6000)!;
    const oscillator = new Oscillator(RATE, USUAL, COLUMN, { mouthPressure: 6000, lipHz: slot.centreHz });
    oscillator.run(new Float64Array(2 * RATE));
    const changed = new Oscillator(RATE, USUAL, COLUMN, oscillator.blowing);
    // a step or a corner is broad: largest third difference, with the change spread over `block` samples
    const bend = (change: () => void, block = 128): number => {
      const p = new Float64Array(1024);
      changed.copy(oscillator);
      changed.run(p.subarray(0, 512));
      change();
      changed.run(p.subarray(512, 512 + block));
      changed.run(p.subarray(512 + block));
      const bends = p.map((_, i) => (i < 3 ? 0 : Math.abs(p[i] - 3 * p[i - 1] + 3 * p[i - 2] - p[i - 3])));
      return Math.max(...bends);
    };
    const still = bend(() => undefined);
    const raised: Modes = {
      poles: COLUMN.poles.map((x) => 1.01 * x),
      residues: COLUMN.residues.map((x) => 1.1 * x),
    };
    expect(bend(() => changed.setModes(raised))).toBeLessThan(1.5 * still);
    expect(bend(() => changed.blow(7000, slot.centreHz))).toBeLessThan(1.5 * still);
    expect(bend(() => changed.blow(7000, 1.02 * slot.centreHz))).toBeLessThan(1.5 * still);
    // in one sample it would be heard
    expect(bend(() => changed.setModes(raised), 1)).toBeGreaterThan(2 * still);
  });

  it("a copy goes on as its original does, however the samples are cut into blocks", () => {
    const original = new Oscillator(RATE, USUAL, COLUMN, { mouthPressure: 6000, lipHz: 434 });
    original.run(new Float64Array(1000));
    const copy = new Oscillator(RATE, USUAL, COLUMN, { mouthPressure: 0, lipHz: 100 });
    copy.copy(original);
    const whole = new Float64Array(960);
    original.run(whole);
    const cut = new Float64Array(960);
    for (let k = 0; k < 960; k += 96) copy.run(cut.subarray(k, k + 96));
    expect([...cut]).toEqual([...whole]);
  });

  it("refuses what it cannot run, in words", () => {
    const blowing = { mouthPressure: 3000, lipHz: 200 };
    const make = (change: object, rate = RATE, modes = COLUMN, blown = blowing) =>
      new Oscillator(rate, { ...USUAL, ...change }, modes, blown);
    expect(() => make({ quality: 0.3 })).toThrow(/quality factor of 0.3 cannot be used: give 0.5 to/);
    expect(() => make({ restOpening: Number.NaN })).toThrow(/rest opening/);
    expect(() => make({ density: 0 })).toThrow(/air density of 0/);
    expect(() => make({}, 100)).toThrow(/sample rate of 100 Hz/);
    expect(() => make({}, RATE, COLUMN, { ...blowing, lipHz: 5 })).toThrow(/lips at 5 Hz are out of reach/);
    expect(() => make({}, RATE, COLUMN, { ...blowing, mouthPressure: -1 })).toThrow(
      /mouth pressure of -1 Pa/,
    );
    const growing = { poles: COLUMN.poles.map((x) => Math.abs(x)), residues: COLUMN.residues };
    expect(() => make({}, RATE, growing)).toThrow(/mode 1 does not decay/);
    const few = { poles: COLUMN.poles.slice(0, 4), residues: COLUMN.residues.slice(0, 4) };
    expect(() => make({}).setModes(few)).toThrow(/has 12 modes: give as many, not 2/);
    const high = { poles: COLUMN.poles.map((x) => 10 * x), residues: COLUMN.residues };
    expect(() => make({}, 24000, high)).toThrow(/too slow for a mode at/);
  });
});

/** Growth of a small displacement of the lips from rest, and its frequency, after what decays faster has gone. */
function growthAt(lipHz: number, mouthPressure: number): { rate: number; frequencyHz: number } {
  const oscillator = new Oscillator(RATE, USUAL, COLUMN, { mouthPressure, lipHz });
  oscillator.rest();
  const mean = oscillator.opening;
  oscillator.rest(1e-7);
  oscillator.run(new Float64Array(RATE / 2));
  const sizes = [0, 1].map(() => {
    const pressures = new Float64Array(RATE / 2);
    const openings = new Float64Array(RATE / 2);
    oscillator.run(pressures, openings);
    const square = openings.reduce((sum, y) => sum + (y - mean) ** 2, 0);
    const { frequencyHz } = playingOf(pressures, openings, RATE, 0);
    return { size: Math.sqrt(square), frequencyHz: frequencyHz! };
  });
  return { rate: Math.log(sizes[1].size / sizes[0].size) / 0.5, frequencyHz: sizes[1].frequencyHz };
}
