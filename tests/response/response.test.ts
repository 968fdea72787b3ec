import { readFileSync } from "node:fs";
import decodeWav from "@audio/decode-wav";
import { randomLcg } from "d3";
import { describe, expect, it } from "vitest";
import { responseOf } from "../../src/response/response.ts";
import type { Sound } from "../../src/response/sound.ts";
import { exponentialSweep, USUAL_SWEEP } from "../../src/response/sweep.ts";
import { expectPoles } from "./expectPoles.ts";
import { type Rig, recorded, TEN } from "./syntheticRig.ts";

const folder = new URL("../reference/response/", import.meta.url);
function wav(name: string): Sound {
  const { channelData, sampleRate } = decodeWav(readFileSync(new URL(name, folder)));
  return { samples: channelData[0], rate: sampleRate };
}

interface Truth {
  readonly recordings: readonly {
    readonly file: string;
    readonly excitation: string;
    readonly resonances: readonly { readonly hz: number; readonly q: number }[];
    readonly delay_s: number;
    readonly snr_db: number;
    readonly tolerance: { readonly cents: number; readonly q_percent: number };
  }[];
}
const truth: Truth = JSON.parse(readFileSync(new URL("truth.json", folder), "utf8"));

const sweep: Sound = { samples: exponentialSweep({ ...USUAL_SWEEP, seconds: 4 }), rate: 48_000 };
const rig: Rig = { ...TEN, delay: 0.021, noiseDb: 40, seed: 3 };

// made with SciPy by make_sweeps.py beside them: A. Farina 2000; A. Novak, P. Lotton and L. Simon 2015
describe("the reference recordings", () => {
  it.each(truth.recordings)("$file: its ten poles, no other, the delay and the noise", (of) => {
    const found = responseOf(wav(of.excitation), wav(of.file));
    const { cents: mostCents, q_percent } = of.tolerance;
    expectPoles(found, { poles: of.resonances.map(({ hz, q }) => [hz, q]) }, mostCents, q_percent);
    expect(found.delay).toBeCloseTo(of.delay_s, 4);
    expect(found.signalToNoiseDb).toBeCloseTo(of.snr_db, 0);
    expect(found.warnings).toEqual([]);
  });
});

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
