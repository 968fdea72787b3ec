import { describe, expect, it } from "vitest";
import { demo, referenceGapMm } from "../../notebooks/paper/demo.ts";
import {
  stageOf,
  tube,
  tubeWithBell,
  wholeLengthMm,
  withCup,
  worstFromSeries,
} from "../../notebooks/why-the-gap-matters/stages.ts";
import { effectOf, sweepOf } from "../../notebooks/why-the-gap-matters/theGap.ts";
import { Instrument } from "../../src/study/instrument/instrument.ts";

describe("from a tube to a trumpet", () => {
  it("a closed tube's resonances lie near odd quarter waves, (2n − 1)c/4L, a little below for the walls and the open end", () => {
    const { modes } = stageOf(tube(1000));
    const c = 347.5;
    expect(modes.length).toBeGreaterThan(0);
    for (const { n, frequencyHz } of modes.slice(0, 6)) {
      const ideal = ((2 * n - 1) * c) / 4;
      expect(frequencyHz).toBeLessThan(ideal);
      expect(frequencyHz).toBeGreaterThan(0.96 * ideal);
    }
  });

  it("a bell raises the low resonances more than the high ones; without any share of it there is none", () => {
    const [none, half, all] = [0, 0.5, 1].map((share) => stageOf(tubeWithBell(share)).modes);
    const plain = stageOf(tube(wholeLengthMm)).modes;
    expect(none.length).toBeGreaterThan(0);
    none.forEach(({ frequencyHz }, i) => {
      expect(frequencyHz / plain[i].frequencyHz).toBeCloseTo(1, 6);
    });
    const rise = (of: typeof all, n: number) => of[n - 1].frequencyHz / plain[n - 1].frequencyHz;
    expect(rise(all, 2)).toBeGreaterThan(rise(half, 2));
    expect(rise(all, 2)).toBeGreaterThan(rise(all, 8));
  });

  it("mouthpiece and leadpipe bring the series together, and the demo's cup does it best", () => {
    const bare = worstFromSeries(stageOf(tubeWithBell(1)).modes);
    const whole = worstFromSeries(stageOf(withCup(1)).modes);
    expect(whole).toBeLessThan(bare / 10);
    for (const times of [0.5, 1.8])
      expect(worstFromSeries(stageOf(withCup(times)).modes)).toBeGreaterThan(3 * whole);
  });
});

describe("what the gap does", () => {
  it("is what the instrument's own modes say", () => {
    const { modes, shiftCents } = effectOf(4.5);
    const instrument = new Instrument(demo);
    const [from, to] = [referenceGapMm, 4.5].map((gapMm) => instrument.modes(gapMm));
    expect(modes.length).toBeGreaterThan(0);
    modes.forEach((mode, i) => {
      expect(mode.shiftCents).toBeCloseTo(1200 * Math.log2(to[i].frequencyHz / from[i].frequencyHz), 9);
    });
    const played = modes.slice(1, 10).map((mode) => Math.abs(mode.shiftCents));
    expect(Math.abs(shiftCents)).toBe(Math.max(...played));
  });

  it("is nothing at the reference, and the slide brings resonance 4 back at every gap", () => {
    expect(effectOf(referenceGapMm)).toMatchObject({
      shiftCents: 0,
      heightDb: 0,
      slideMm: 0,
      remainingCents: 0,
    });
    const { rows } = sweepOf("retuned");
    expect(rows.length).toBeGreaterThan(1);
    for (const { modes } of rows) expect(modes[3].shiftCents).toBeCloseTo(0, 6);
  });
});
