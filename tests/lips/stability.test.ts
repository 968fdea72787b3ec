import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { equilibriumOf } from "../../src/lips/equilibrium.ts";
import { staticResistance } from "../../src/lips/modes.ts";
import { Stability } from "../../src/lips/stability.ts";
import { json } from "../reference/table.ts";
import { anyModes, anyValve, COLUMN, valveNamed } from "./columns.ts";

const { cases } = json("lips/stability.json");

/** Largest distance from any of the expected numbers to the nearest found, each found one taken once. */
function farthest(found: Float64Array, expected: readonly number[]): number {
  const left = Array.from({ length: found.length / 2 }, (_, k) => [found[2 * k], found[2 * k + 1]]);
  let worst = 0;
  for (let k = 0; k < expected.length; k += 2) {
    const distances = left.map(([re, im]) => Math.hypot(re - expected[k], im - expected[k + 1]));
    const nearest = distances.indexOf(Math.min(...distances));
    worst = Math.max(worst, distances[nearest]);
    left.splice(nearest, 1);
  }
  return worst;
}

describe("lips at rest", () => {
  // scipy.optimize.brentq on the nonlinear balance
  it("opening, flow and cup pressure agree with SciPy", () => {
    const resistance = staticResistance(COLUMN);
    expect(cases.length).toBeGreaterThan(0);
    for (const { lips, lipHz, mouthPressure, ...expected } of cases) {
      const rest = equilibriumOf(valveNamed(lips), resistance, lipHz, mouthPressure);
      expect(rest.opening / expected.opening).toBeCloseTo(1, 11);
      expect(rest.flow / expected.flow).toBeCloseTo(1, 11);
      expect(rest.cupPressure / expected.cupPressure).toBeCloseTo(1, 9);
      expect(rest.mouthPressure / mouthPressure).toBeCloseTo(1, 12);
    }
  });
});

describe("eigenvalues", () => {
  // LAPACK dgeev through numpy.linalg.eigvals
  it("all of them agree with LAPACK's, cold and continued from case to case", () => {
    const continued = new Map<string, Stability>();
    expect(cases.length).toBeGreaterThan(0);
    for (const { lips, lipHz, mouthPressure, eigenvalues } of cases) {
      const scale = 2 * Math.PI * lipHz;
      const cold = new Stability(valveNamed(lips), COLUMN);
      const warm = continued.get(lips) ?? cold;
      continued.set(lips, warm);
      // dgeev's own error is of the order of 1e-16 of the matrix's size, which the pressures' scale makes large
      for (const stability of [cold, warm]) {
        const found = stability.eigenvalues(lipHz, mouthPressure);
        expect(found.length).toBe(eigenvalues.length);
        expect(farthest(found, eigenvalues) / scale).toBeLessThan(1e-7);
      }
      const rates = eigenvalues.filter(
        (_: number, k: number) => k % 2 === 0 && Math.abs(eigenvalues[k + 1]) > 1,
      );
      expect(Math.abs(cold.fastest(lipHz, mouthPressure).rate - Math.max(...rates))).toBeLessThan(1e-3);
    }
  });

  it("any column and lips: they come in conjugate pairs and settle", () => {
    fc.assert(
      fc.property(
        anyModes,
        anyValve,
        fc.double({ min: 10, max: 4000, noNaN: true }),
        fc.double({ min: 1e-3, max: 1e6, noNaN: true }),
        (modes, valve, lipHz, mouthPressure) => {
          const stability = new Stability(valve, modes);
          const found = stability.eigenvalues(lipHz, mouthPressure);
          const mirrored = found.map((x, k) => (k % 2 ? -x : x));
          const scale = Math.hypot(...found);
          expect(farthest(found, [...mirrored]) / scale).toBeLessThan(1e-6);
        },
      ),
      { numRuns: 300 },
    );
  });
});
