import { randomLcg } from "d3";
import { describe, expect, it } from "vitest";
import { responseOf } from "../../src/response/response.ts";
import type { Sound } from "../../src/response/sound.ts";
import { exponentialSweep, USUAL_SWEEP } from "../../src/response/sweep.ts";
import { expectPoles } from "./expectPoles.ts";
import { type Rig, recorded, TEN } from "./syntheticRig.ts";

const sweep: Sound = { samples: exponentialSweep({ ...USUAL_SWEEP, seconds: 4 }), rate: 48_000 };
const rig: Rig = { ...TEN, delay: 0.021, noiseDb: 40, seed: 3 };

describe("a response", () => {
  it("has its poles", () => {
    const found = responseOf(sweep, recorded(sweep, rig));
    expectPoles(found, rig, 0.1, 1);
    expect(found.delay).toBeCloseTo(0.021, 4);
    expect(found.warnings).toEqual([]);
  });

  it("is not there in silence, in noise alone, and of another excitation", () => {
    const { samples } = recorded(sweep, { ...rig, noiseDb: 20 });
    const uniform = randomLcg(8);
    const others = [
      new Float32Array(samples.length),
      samples.map(() => 0.1 * (uniform() - 0.5)),
      samples.toReversed(),
    ];
    for (const other of others) {
      const found = responseOf(sweep, { samples: other, rate: 48_000 });
      expect(found.resonances).toEqual([]);
      expect(found.warnings).toContain("not heard");
    }
  });

  it("is refused where rates differ or hardly anything was recorded", () => {
    expect(() => responseOf(sweep, { samples: sweep.samples, rate: 44_100 })).toThrow(
      /recording has 44100 samples a second and the excitation 48000/,
    );
    expect(() => responseOf(sweep, { samples: new Float32Array(9000), rate: 48_000 })).toThrow(
      /half a second/,
    );
  });
});
