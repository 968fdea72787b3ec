import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { DEFAULT_LIPS } from "../../../src/lips/lips.ts";
import { checkModes } from "../../../src/lips/modes.ts";
import { wilsonInterval } from "../../../src/statistics/wilsonInterval.ts";
import { leapSteps, mergedTally, missChance } from "../../../src/study/feel/leaps.ts";
import { MODAL_COUNT, modalColumn } from "../../../src/study/feel/modalColumn.ts";
import { slotChangeSteps } from "../../../src/study/feel/slotChange.ts";
import { slotSteps, slotsAt } from "../../../src/study/feel/slots.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import { anySetup, demo } from "../../acoustics/setups.ts";
import { numbers } from "../../reference/table.ts";

const instrument = new Instrument(demo(), { modes: MODAL_COUNT });

describe("any bore", () => {
  it("has a column that gives out no energy, and slots or the lack of them at any gap", () => {
    fc.assert(
      fc.property(anySetup, (setup) => {
        const some = new Instrument(setup, { modes: MODAL_COUNT });
        const modes = modalColumn(some, some.gapMm);
        expect(() => checkModes(modes)).not.toThrow();
        for (const { n, onset, slot } of slotsAt(some, some.gapMm).notes) {
          expect(n).toBeGreaterThan(1);
          if (!onset) expect(slot).toBe(null);
          if (slot)
            for (const value of Object.values(slot).flat())
              expect(value === null || Number.isFinite(value)).toBe(true);
        }
      }),
      { numRuns: 25 },
    );
  });
});

describe("slots", () => {
  it("notes 2 to 10 at every gap, blown alike, each playing above its resonance", () => {
    const gaps = [...slotSteps(instrument, [0, 2.5, 5])];
    expect(gaps.map(({ gapMm }) => gapMm)).toEqual([0, 2.5, 5]);
    expect(gaps.length).toBeGreaterThan(0);
    for (const { gapMm, notes } of gaps) {
      const modes = instrument.modes(gapMm);
      expect(notes.map(({ n }) => n)).toEqual([2, 3, 4, 5, 6, 7, 8, 9, 10]);
      expect(notes.length).toBeGreaterThan(0);
      notes.forEach(({ n, mouthPressure, slot, onset }, i) => {
        expect(mouthPressure).toBe(gaps[0].notes[i].mouthPressure);
        expect(onset!.mouthPressure).toBeLessThan(mouthPressure!);
        expect(slot!.playingHz).toBeGreaterThan(modes[n - 1].frequencyHz);
        expect(slot!.centreHz).toBeLessThan(slot!.playingHz);
        expect(slot!.pull).toBeGreaterThan(0);
        expect(slot!.pull).toBeLessThan(1);
      });
    }
    // at the reference gap itself the pressures are the stated multiple
    expect(gaps[1].notes.length).toBeGreaterThan(0);
    for (const { onset, mouthPressure } of gaps[1].notes)
      expect(mouthPressure! / onset!.mouthPressure).toBeCloseTo(1.3, 12);
  });

  it("less pressure than a note needs leaves it without a slot", () => {
    const { notes } = slotsAt(instrument, 2.5, { pressure: { pascals: 3000 } });
    expect(notes.length).toBeGreaterThan(0);
    for (const { onset, slot } of notes) expect(slot !== null).toBe(onset!.mouthPressure < 3000);
    expect(notes.some(({ slot }) => slot)).toBe(true);
  });

  it("refuses lips and pressures that cannot be", () => {
    expect(() => slotsAt(instrument, 2.5, { lips: { ...DEFAULT_LIPS, width: -1 } })).toThrow(
      /the lips' width of -1 cannot be used: give 0.0001 to 0.1 m/,
    );
    expect(() => slotsAt(instrument, 2.5, { pressure: { pascals: 0 } })).toThrow(/mouth pressure of 0 Pa/);
    expect(() => slotsAt(instrument, 2.5, { pressure: { timesThreshold: 1 } })).toThrow(/more than 1, to 20/);
    expect(() => slotsAt(instrument, -1)).toThrow(/gap/);
  });
});

describe("change of slots", () => {
  it("is the difference of the slots at two gaps, its range holds it, and the finding follows from both", () => {
    const steps = [...slotChangeSteps(instrument, 5)];
    expect(steps.map(({ done }) => done)).toEqual(steps.map((_, i) => i + 1));
    expect(steps.slice(0, -1).every(({ change }) => change === null)).toBe(true);
    const change = steps.at(-1)!.change!;
    const [from, to] = slotSteps(instrument, [2.5, 5]);
    expect(change.notes.length).toBeGreaterThan(0);
    change.notes.forEach(({ slotWidthCents, pull, margin, finding }, i) => {
      const [a, b] = [from.notes[i].slot!, to.notes[i].slot!];
      expect(slotWidthCents!.change).toBeCloseTo(b.slotWidthCents - a.slotWidthCents, 9);
      expect(pull!.change).toBeCloseTo(b.pull - a.pull, 9);
      if (margin) expect(margin.change).toBeCloseTo(b.margin! - a.margin!, 9);
      const [low, high] = slotWidthCents!.range;
      expect(low).toBeLessThanOrEqual(slotWidthCents!.change);
      expect(high).toBeGreaterThanOrEqual(slotWidthCents!.change);
      const felt = change.noticedCents;
      expect(finding).toBe(
        low >= felt
          ? "firmer"
          : high <= -felt
            ? "looser"
            : low > -felt && high < felt
              ? "too-small"
              : "depends-on-lips",
      );
    });
    expect(change.noticedCents).toBe(instrument.setup.thresholds.slotCents);
  });

  it("the same gap twice changes nothing", () => {
    const last = [...slotChangeSteps(instrument, instrument.gapMm)].at(-1)!.change!;
    expect(last.finding).toBe("too-small");
    expect(last.notes.length).toBeGreaterThan(0);
    for (const { slotWidthCents } of last.notes)
      expect(Math.hypot(...slotWidthCents!.range)).toBeLessThan(0.005);
  });
});

describe("leaps", () => {
  const options = { gapMm: 2.5, from: 4, to: 8, aimCents: 90, runs: 24, sampleRate: 24000 };
  const last = (more: object) => [...leapSteps(instrument, { ...options, ...more })].at(-1)!;

  it("are the same for a seed, in parts or together, and others for another", () => {
    const whole = last({});
    expect(whole.runs).toBe(24);
    const parts = [last({ part: [0, 9] }), last({ part: [9, 24] })];
    expect(parts.map(({ runs }) => runs)).toEqual([9, 15]);
    const sum = mergedTally(parts);
    expect([sum.runs, sum.silent]).toEqual([whole.runs, whole.silent]);
    expect([...sum.landed].sort()).toEqual([...whole.landed].sort());
    const counted = [...whole.landed.values()].reduce((a, b) => a + b, 0) + whole.silent;
    expect(counted).toBe(24);
  });

  it("no aiming error, no miss; a wide one, many", () => {
    expect(missChance(last({ aimCents: 0, runs: 3 }), 8).chance).toBe(0);
    const { chance, interval } = missChance(last({ aimCents: 300 }), 8);
    expect(chance).toBeGreaterThan(0.3);
    expect(interval[0]).toBeLessThan(chance);
    expect(interval[1]).toBeGreaterThan(chance);
  });

  it("refuses what cannot be done", () => {
    expect(() => last({ to: 9, pressure: { pascals: 5000 } })).toThrow(/note 9 does not start/);
    expect(() => last({ aimCents: -1 })).toThrow(/aiming error of -1 cents/);
    expect(() => last({ runs: 0 })).toThrow(/0 runs/);
    expect(() => last({ from: 40 })).toThrow(/note 40/);
  });
});

describe("interval of a proportion", () => {
  // scipy.stats.binomtest(...).proportion_ci(method="wilson")
  it("agrees with SciPy", () => {
    for (const [count, of, low, high] of numbers("statistics/wilson.csv")) {
      const interval = wilsonInterval(count, of);
      expect(interval[0]).toBeCloseTo(low, 12);
      expect(interval[1]).toBeCloseTo(high, 12);
    }
  });
});
