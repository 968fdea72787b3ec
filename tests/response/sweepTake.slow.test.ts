/** The same with other clocks, other beginnings, more noise. */
import { describe, expect, it } from "vitest";
import type { Sound } from "../../src/response/sound.ts";
import { exponentialSweep, USUAL_SWEEP } from "../../src/response/sweep.ts";
import { sweepTakeOf } from "../../src/response/sweepTake.ts";
import { expectPoles } from "./expectPoles.ts";
import { type Rig, recorded, TEN } from "./syntheticRig.ts";

const rate = 48_000;
const one: Sound = { samples: exponentialSweep({ ...USUAL_SWEEP, seconds: 2 }), rate };
const rig: Rig = { ...TEN, delay: 0.121, noiseDb: 40, seed: 3 };

/** Two sweeps, after a while of nothing. */
function played(beforeS = 0): Sound {
  const before = Math.round(beforeS * rate);
  const { length } = one.samples;
  const samples = new Float32Array(before + 2 * length + rate / 2);
  samples.set(one.samples, before);
  samples.set(one.samples, before + length);
  return { samples, rate };
}

describe("a take of two sweeps", () => {
  it.each([-50, 50, 200])(
    "by a recorder whose clock is %d parts per million off tells it to a tenth, and has its poles all the same",
    (ppm) => {
      const take = sweepTakeOf(one, recorded(played(), { ...rig, clock: -ppm / 1e6 }));
      expect(take.sweeps).toBe(2);
      expect(take.clock!.ppm).toBeCloseTo(ppm, 0);
      expect(Math.abs(take.clock!.ppm - ppm)).toBeLessThan(0.1);
      expectPoles(take, rig, 0.2, 2);
      expect(take.warnings).toEqual([]);
    },
  );

  it("is found wherever it begins in the recording", () => {
    const take = sweepTakeOf(one, recorded(played(1.7), rig));
    expect(take.sweeps).toBe(2);
    expect(take.delay).toBeCloseTo(1.7 + 0.121, 3);
    expect(Math.abs(take.clock!.ppm)).toBeLessThan(0.05);
    expectPoles(take, rig, 0.2, 2);
  });

  it("of which the first was cut off is one sweep, whose clock is not known", () => {
    const { samples } = recorded(played(), rig);
    const take = sweepTakeOf(one, { rate, samples: samples.subarray(rate) });
    expect(take.sweeps).toBe(1);
    expect(take.clock).toBeNull();
    expectPoles(take, rig, 0.2, 2);
  });

  it("has less noise than one of them", () => {
    const single = sweepTakeOf(one, recorded(one, { ...rig, noiseDb: 20 }));
    const two = sweepTakeOf(one, recorded(played(), { ...rig, noiseDb: 20 }));
    expect(two.signalToNoiseDb! - single.signalToNoiseDb!).toBeGreaterThan(2);
  });

  it("is said to be clipped though the sweeps are averaged, and not to be there where it is not", () => {
    const { samples } = recorded(played(), rig);
    const clipped = samples.map((value) => Math.max(-1, Math.min(1, 4 * value)));
    expect(sweepTakeOf(one, { rate, samples: clipped }).warnings).toContain("clipped");
    const silent = sweepTakeOf(one, { rate, samples: new Float32Array(samples.length) });
    expect(silent).toMatchObject({ resonances: [], sweeps: 0, clock: null });
    expect(silent.warnings).toContain("not heard");
  });
});
