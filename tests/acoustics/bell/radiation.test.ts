import { describe, expect, it } from "vitest";
import { radiationState, reflection } from "../../../src/acoustics/bell/radiation.ts";
import { numbers } from "../../reference/table.ts";

const air = { density: 1.2, soundSpeed: 343, viscosity: 1.8e-5, heatRatio: 1.4, prandtl: 0.71 };

describe("radiation", () => {
  // Levine & Schwinger 1948 (Phys. Rev. 73, 383), their integrals evaluated in tests/reference/bell/levine-schwinger.py.
  it("follows Levine & Schwinger's exact solution within the fit's own error", () => {
    const rows = numbers("bell/levine-schwinger.csv").filter(([ka]) => ka > 0);
    expect(rows.length).toBe(35);
    for (const [ka, size, length] of rows) {
      const [re, im] = reflection("unflanged", ka, 0);
      expect(Math.abs(Math.hypot(re, im) - size)).toBeLessThan(0.003);
      // R = −|R| e^{−2jkL}
      let phase = Math.atan2(-im, -re);
      while (phase > 0) phase -= 2 * Math.PI;
      const fitted = phase / (-2 * ka);
      const turns = Math.round(((length - fitted) * ka) / Math.PI);
      expect(Math.abs(fitted + (turns * Math.PI) / ka - length)).toBeLessThan(0.0105);
    }
  });

  it("has the end corrections 0.6133 a and 0.8216 a at low frequency", () => {
    for (const [kind, eta] of [
      ["unflanged", 0.6133],
      ["flanged", 0.8216],
    ] as const) {
      const state = new Float64Array(4);
      const a = 0.01;
      const omega = 1;
      radiationState(kind, a, air, omega, 0, state);
      const im = (state[1] * state[2] - state[0] * state[3]) / (state[2] ** 2 + state[3] ** 2);
      const correction = (im * Math.PI * a * a) / (omega * air.density);
      expect(correction / a).toBeCloseTo(eta, 6);
      // and (ka)²/4, (ka)²/2 of ρc/S for the resistance
      const re = (state[0] * state[2] + state[1] * state[3]) / (state[2] ** 2 + state[3] ** 2);
      const ka = (omega * a) / air.soundSpeed;
      const zc = (air.density * air.soundSpeed) / (Math.PI * a * a);
      expect(re / zc / ka ** 2).toBeCloseTo(kind === "unflanged" ? 0.25 : 0.5, 5);
    }
  });

  it("returns no more than it gets", () => {
    for (const kind of ["unflanged", "flanged"] as const)
      for (let x = 0.001; x < 20; x *= 1.1) {
        const [re, im] = reflection(kind, x, 0);
        expect(Math.hypot(re, im)).toBeLessThanOrEqual(1);
      }
  });
});
