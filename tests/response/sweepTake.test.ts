/** A take of sweeps: found wherever they begin, put on the player's clock, averaged. */
import { describe, expect, it } from "vitest";
import type { Sound } from "../../src/response/sound.ts";
import { exponentialSweep, USUAL_SWEEP } from "../../src/response/sweep.ts";
import { sweepTakeOf } from "../../src/response/sweepTake.ts";

const rate = 48_000;
const one: Sound = { samples: exponentialSweep({ ...USUAL_SWEEP, seconds: 2 }), rate };

describe("a take of two sweeps", () => {
  it("is refused at another rate, or where it is shorter than half a sweep", () => {
    expect(() => sweepTakeOf(one, { ...one, rate: 44_100 })).toThrow(
      /44100 samples a second and the sweep 48000/,
    );
    expect(() => sweepTakeOf(one, { rate, samples: new Float32Array(rate) })).toThrow(/shorter than a sweep/);
  });
});
