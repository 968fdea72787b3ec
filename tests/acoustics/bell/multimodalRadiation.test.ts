import { describe, expect, it } from "vitest";
import { radiationMatrix } from "../../../src/acoustics/bell/multimodalRadiation.ts";
import { openPipeReflection } from "../../../src/acoustics/bell/openPipe.ts";
import { numbers } from "../../reference/table.ts";

const air = { density: 1, soundSpeed: Math.PI, viscosity: 1e-5, heatRatio: 1.4, prandtl: 0.71 };
// ρc/S = 1
const matrix = (kind: "flanged" | "unflanged", count: number, ka: number) =>
  radiationMatrix(kind, count, ka, 1, air);

describe("radiation of several radial functions", () => {
  it("is SciPy's with a flange: the piston in closed form, the others by Kramers and Kronig (bell/radiation.py)", () => {
    for (const [ka, m, n, re, im] of numbers("bell/radiation.csv")) {
      const z = matrix("flanged", 4, ka);
      expect(z[2 * (4 * m + n)]).toBeCloseTo(re, 6);
      expect(z[2 * (4 * m + n) + 1]).toBeCloseTo(im, 4);
    }
  });

  it("is symmetric (reciprocity) and takes power from every field, with and without a flange", () => {
    for (const kind of ["flanged", "unflanged"] as const)
      for (const ka of [0.01, 0.3, 1.5, 3.8, 3.9, 7]) {
        const n = 5;
        const z = matrix(kind, n, ka);
        const at = (i: number, k: number) => [z[2 * (i * n + k)], z[2 * (i * n + k) + 1]];
        const scale = Math.hypot(...at(0, 0));
        for (let i = 0; i < n; i++)
          for (let k = 0; k < i; k++) {
            expect((at(i, k)[0] - at(k, i)[0]) / scale).toBeCloseTo(0, 6);
            expect((at(i, k)[1] - at(k, i)[1]) / scale).toBeCloseTo(0, 6);
          }
        for (let trial = 0; trial < 40; trial++) {
          const u = Array.from({ length: n }, (_, i) => Math.sin(1.7 * trial * (i + 1) + i));
          let power = 0;
          for (let i = 0; i < n; i++) for (let k = 0; k < n; k++) power += u[i] * u[k] * at(i, k)[0];
          expect(power).toBeGreaterThan(-1e-7);
        }
      }
  });

  it("has Levine and Schwinger's plane wave without a flange (bell/levine-schwinger.csv)", () => {
    for (const [ka, size, correction] of numbers("bell/levine-schwinger.csv").filter(([x]) => x > 0)) {
      const [re, im] = openPipeReflection(ka);
      expect(Math.hypot(re, im)).toBeCloseTo(size, 6);
      // R = −|R| e^{−2jkL}
      const turn = Math.atan2(im, re) - Math.PI + 2 * ka * correction;
      expect(Math.cos(turn)).toBeCloseTo(1, 8);
    }
  });

  it("radiates less without a flange, and resists less", () => {
    for (const ka of [0.1, 0.5, 1]) {
      const [open, walled] = [matrix("unflanged", 4, ka), matrix("flanged", 4, ka)];
      expect(open[0]).toBeLessThan(walled[0]);
      expect(open[1]).toBeLessThan(walled[1]);
    }
  });
});
