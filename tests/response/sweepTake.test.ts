/** A take of sweeps: found wherever they begin, put on the player's clock, averaged. */
import { describe, expect, it } from "vitest";
import type { Sound } from "../../src/response/sound.ts";
import { exponentialSweep, USUAL_SWEEP } from "../../src/response/sweep.ts";
import { sweepTakeOf } from "../../src/response/sweepTake.ts";
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
  it("is said to be clipped though the sweeps are averaged, and not to be there where it is not", () => {
    const { samples } = recorded(played(), rig);
    const clipped = samples.map((value) => Math.max(-1, Math.min(1, 4 * value)));
    expect(sweepTakeOf(one, { rate, samples: clipped }).warnings).toContain("clipped");
    const silent = sweepTakeOf(one, { rate, samples: new Float32Array(samples.length) });
    expect(silent).toMatchObject({ resonances: [], sweeps: 0, clock: null });
    expect(silent.warnings).toContain("not heard");
  });

  it("is refused at another rate, or where it is shorter than half a sweep", () => {
    expect(() => sweepTakeOf(one, { ...one, rate: 44_100 })).toThrow(
      /44100 samples a second and the sweep 48000/,
    );
    expect(() => sweepTakeOf(one, { rate, samples: new Float32Array(rate) })).toThrow(/shorter than a sweep/);
  });
});
