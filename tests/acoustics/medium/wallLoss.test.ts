import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { wallLoss } from "../../../src/acoustics/medium/wallLoss.ts";
import { numbers } from "../../reference/table.ts";

function at(rvRe: number, rvIm = 0): [number, number] {
  const out = new Float64Array(2);
  wallLoss(rvRe * rvRe - rvIm * rvIm, 2 * rvRe * rvIm, out);
  return [out[0], out[1]];
}

const error = ([re, im]: [number, number], re0: number, im0: number) =>
  Math.hypot(re - re0, im - im0) / Math.hypot(re0, im0);

describe("wall losses F = 2J₁(z)/(zJ₀(z))", () => {
  it("equals mpmath at real r_v to 2e-12", () => {
    for (const [rv, re, im] of numbers("medium/wall-loss-real.csv"))
      expect(error(at(rv), re, im)).toBeLessThan(2e-12);
  });

  it("equals mpmath at complex r_v, as resonances need, to 2e-12", () => {
    const rows = numbers("medium/wall-loss.csv");
    expect(rows.length).toBeGreaterThan(50);
    for (const [rvRe, rvIm, re, im] of rows) expect(error(at(rvRe, rvIm), re, im)).toBeLessThan(2e-12);
  });

  it("is at a real frequency what it is beside it, where it is computed in another way", () => {
    for (let rv = 0.01; rv < 30; rv += 0.037) {
      const beside = new Float64Array(2);
      wallLoss(rv * rv, 1e-200, beside);
      expect(error(at(rv), beside[0], beside[1])).toBeLessThan(2e-14);
    }
  });

  it("has its limits: 1 − js/8 in a narrow bore, (1−j)√2/r_v in a wide one", () => {
    expect(error(at(1e-3), 1, -1e-6 / 8)).toBeLessThan(1e-12);
    expect(error(at(1e5), Math.SQRT2 / 1e5, -Math.SQRT2 / 1e5)).toBeLessThan(1e-5);
  });

  it("is smooth where the method changes", () => {
    // Re y = 14 at r_v = 14√2
    for (const phase of [0, 0.1, 0.3]) {
      const rv = 14 / Math.cos(Math.PI / 4 + phase);
      const [a, b] = [0.9999999, 1.0000001].map((t) =>
        at(rv * t * Math.cos(phase), rv * t * Math.sin(phase)),
      );
      expect(error(a, b[0], b[1])).toBeLessThan(1e-6);
    }
  });

  it("only ever takes energy: Im F < 0 for every real r_v", () => {
    fc.assert(
      fc.property(fc.double({ min: -3, max: 5, noNaN: true }), (power) => {
        const [re, im] = at(10 ** power);
        expect(im).toBeLessThan(0);
        expect(re).toBeGreaterThan(0);
        expect(re).toBeLessThanOrEqual(1);
      }),
    );
  });
});
