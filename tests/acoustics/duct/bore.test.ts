import { describe, expect, it } from "vitest";
import { boreOf } from "../../../src/acoustics/duct/bore.ts";
import { moistAir } from "../../../src/acoustics/medium/air.ts";
import { withGap } from "../../../src/setup/withGap.ts";
import { demo } from "../setups.ts";

describe("a breath's warmth along the bore", () => {
  it("gives the wave the travelling time of T(x) = room + (breath − room) e^{−x/reach}, by Simpson's rule", () => {
    const cold = demo();
    if (cold.air.kind !== "conditions") throw new Error("the demo gives its air as conditions");
    for (const [temperatureC, breathC, reachMm] of [
      [20, 36, 300],
      [22, 33, 900],
      [30, 18, 200],
    ]) {
      const air = { ...cold.air, temperatureC, breath: { temperatureC: breathC, reachMm } };
      const { mouthpiece, upper, lower } = boreOf({ ...cold, air });
      const all = [...mouthpiece, ...upper, ...lower];
      const length = all.reduce((sum, piece) => sum + piece.length, 0);
      const time = all.reduce((sum, piece) => sum + piece.length / piece.air.soundSpeed, 0);
      const slowness = (x: number) => {
        const t = temperatureC + (breathC - temperatureC) * Math.exp((-1000 * x) / reachMm);
        return 1 / moistAir({ ...air, temperatureC: t }).soundSpeed;
      };
      const n = 400;
      let integral = slowness(0) + slowness(length);
      for (let k = 1; k < n; k++) integral += (k & 1 ? 4 : 2) * slowness((length * k) / n);
      integral *= length / (3 * n);
      // a thirtieth of a cent: pieces have the air of their middle, to 0.1 K
      expect(Math.abs(time / integral - 1)).toBeLessThan(2e-5);
      // and it matters: the room's air alone is another time
      expect(Math.abs(time / (length * slowness(10)) - 1)).toBeGreaterThan(1e-3);
    }
  });
});

describe("a setup's bore", () => {
  it("has the same pieces at another gap and with another model, and its own in another air or with another leadpipe", () => {
    const setup = demo();
    const { mouthpiece, upper, lower } = boreOf(setup);
    const sameAs = (other: typeof setup) => {
      const bore = boreOf(other);
      return bore.mouthpiece === mouthpiece && bore.upper === upper && bore.lower === lower;
    };
    const model = { ...setup.model, bell: "plane", wallLossFactor: 1.4 } as const;
    expect(sameAs(withGap(setup, 4))).toBe(true);
    expect(sameAs({ ...setup, model })).toBe(true);
    expect(boreOf({ ...setup, model })).toMatchObject({ bell: "plane", wallLossFactor: 1.4 });
    const wider = setup.leadpipe.profileMm.map(([x, d]) => [x, 1.01 * d] as const);
    const other = boreOf({ ...setup, leadpipe: { profileMm: wider } });
    expect(other.leadpipeMouth).toBeCloseTo(1.01 * boreOf(setup).leadpipeMouth, 12);
    if (setup.air.kind !== "conditions") throw new Error("the demo gives its air as conditions");
    const warm = boreOf({ ...setup, air: { ...setup.air, temperatureC: setup.air.temperatureC + 5 } });
    expect(warm.bellAir.soundSpeed).toBeGreaterThan(boreOf(setup).bellAir.soundSpeed + 2);
  });
});
