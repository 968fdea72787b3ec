/** What a room, a second clock and a leak at the seal do to a response, and that it is said where nothing can be told. */
import { randomLcg } from "d3";
import { describe, expect, it } from "vitest";
import { responseOf } from "../../src/response/response.ts";
import type { Sound } from "../../src/response/sound.ts";
import { exponentialSweep, USUAL_SWEEP } from "../../src/response/sweep.ts";
import { expectPoles } from "./expectPoles.ts";
import { cents, type Rig, recorded, TEN } from "./syntheticRig.ts";

const sweep: Sound = { samples: exponentialSweep({ ...USUAL_SWEEP, seconds: 4 }), rate: 48_000 };
const rig: Rig = { ...TEN, delay: 0.021, noiseDb: 40, seed: 3 };

/** Of every resonance told: its error over the half of its interval, at most. */
function worst(of: Rig): {
  readonly told: number;
  readonly ratio: number;
  readonly warnings: readonly string[];
} {
  const { resonances, warnings } = responseOf(sweep, recorded(sweep, of));
  const ratios = resonances.map(({ hz, hzUncertainty }) =>
    Math.min(...of.poles.map(([pole]) => Math.abs(hz - pole) / hzUncertainty)),
  );
  return { told: resonances.length, ratio: Math.max(0, ...ratios), warnings };
}

describe("a response", () => {
  it.each([
    [40, 0.1, 1],
    [20, 0.4, 3],
    [10, 1.2, 8],
  ])("with noise %d dB below has its poles within %s cents and Q within %s %%", (noiseDb, most, percent) => {
    const found = responseOf(sweep, recorded(sweep, { ...rig, noiseDb }));
    expectPoles(found, rig, most, percent);
  });

  it("parts from a loudspeaker's second harmonic of 5 %", () => {
    expectPoles(responseOf(sweep, recorded(sweep, { ...rig, second: 0.05 })), rig, 0.1, 1);
  });

  it("is found with noise as its excitation", () => {
    const uniform = randomLcg(5);
    const samples = Float32Array.from({ length: 240_000 }, (_, i) =>
      i < 12_000 || i > 200_000 ? 0 : 0.5 * (2 * uniform() - 1),
    );
    const noise = { samples, rate: 48_000 };
    expectPoles(responseOf(noise, recorded(noise, { ...rig, noiseDb: 30 })), rig, 1, 3);
  });

  it("tells two close resonances apart, of which the upper is the other's shoulder", () => {
    const close = {
      poles: [
        [233, 22],
        [348, 26],
        [466, 12],
        [492, 14],
        [700, 30],
      ],
      heights: [0.6, 0.7, 0.8, 0.7, 0.9],
    } as const;
    expectPoles(responseOf(sweep, recorded(sweep, { ...rig, ...close })), close, 0.3, 2);
  });

  it("finds what changed between two recordings within half a cent at 20 dB", () => {
    const moved: Rig["poles"] = rig.poles.map(([hz, q], k) => [hz * 2 ** ((k - 4) / 1200), q]);
    const before = responseOf(sweep, recorded(sweep, { ...rig, noiseDb: 20 }));
    const after = responseOf(sweep, recorded(sweep, { ...rig, noiseDb: 20, poles: moved, seed: 4 }));
    expect(after.resonances).toHaveLength(10);
    after.resonances.forEach(({ hz }, k) => {
      expect(cents(hz, before.resonances[k].hz)).toBeCloseTo(k - 4, 0);
      expect(Math.abs(cents(hz, before.resonances[k].hz) - (k - 4))).toBeLessThan(0.5);
    });
  });

  it("says that a recording is clipped, cut off, or hardly louder than the room", () => {
    const { samples } = recorded(sweep, rig);
    const clipped = samples.map((value) => Math.max(-1, Math.min(1, 4 * value)));
    expect(responseOf(sweep, { samples: clipped, rate: 48_000 }).warnings).toContain("clipped");
    const cut = { samples: samples.subarray(0, 150_000), rate: 48_000 };
    expect(responseOf(sweep, cut).warnings).toContain("cut off");
    expect(responseOf(sweep, recorded(sweep, { ...rig, noiseDb: 3 })).warnings).toContain("noisy");
  });
});

describe("a response that is not clean", () => {
  const uniform = randomLcg(7);
  const room = Array.from(
    { length: 60 },
    (_, i) => [0.006 + 0.005 * i + 0.002 * uniform(), 0.16 * (uniform() - 0.5) * Math.exp(-i / 15)] as const,
  );
  it.each<[name: string, change: Partial<Rig>]>([
    ["an echo after 15 ms of 2 %", { echoes: [[0.015, 0.02]] }],
    ["an echo after 30 ms of 30 %", { echoes: [[0.03, 0.3]] }],
    ["a room of sixty echoes", { echoes: room }],
    ["a recorder whose clock is 50 parts per million off", { clock: 5e-5 }],
    ["hum", { hum: 0.1 }],
  ])("by %s is said to be, and what is still told is true", (_, change) => {
    const { ratio, warnings } = worst({ ...rig, ...change });
    expect(warnings).toContain("restless");
    expect(ratio).toBeLessThan(2);
  });

  it("by a second clock, 10 parts per million off, moves before and after alike: the change stays right within a tenth of a cent", () => {
    const clock = 1e-5;
    const moved: Rig["poles"] = rig.poles.map(([hz, q], k) => [hz * 2 ** ((k - 4) / 1200), q]);
    const before = responseOf(sweep, recorded(sweep, { ...rig, clock }));
    const after = responseOf(sweep, recorded(sweep, { ...rig, clock, poles: moved }));
    expect(after.resonances).toHaveLength(10);
    after.resonances.forEach(({ hz }, k) => {
      expect(Math.abs(cents(hz, before.resonances[k].hz) - (k - 4))).toBeLessThan(0.1);
    });
  });

  it("by air that warms by half a degree moves all by a cent and a half, as sound speeds up", () => {
    const warmed: Rig["poles"] = rig.poles.map(([hz, q]) => [hz * Math.sqrt(293.65 / 293.15), q]);
    const before = responseOf(sweep, recorded(sweep, rig));
    const after = responseOf(sweep, recorded(sweep, { ...rig, poles: warmed }));
    expect(after.resonances).toHaveLength(10);
    for (const [k, { hz }] of after.resonances.entries())
      expect(cents(hz, before.resonances[k].hz)).toBeCloseTo(1.476, 1);
  });

  it("gives intervals that hold the truth as often as they say", () => {
    let [held, all] = [0, 0];
    for (let seed = 1; seed <= 12; seed++) {
      const { resonances } = responseOf(sweep, recorded(sweep, { ...rig, noiseDb: 20, seed }));
      expect(resonances).toHaveLength(10);
      for (const [k, { hz, hzUncertainty }] of resonances.entries()) {
        all++;
        if (Math.abs(hz - rig.poles[k][0]) < hzUncertainty) held++;
      }
    }
    // of 120 at 95 %: 114, and between 108 and 120 in all but one of a hundred such counts
    expect(held / all).toBeGreaterThan(0.9);
  });
});
