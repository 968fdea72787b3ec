import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { AirColumn } from "../../src/acoustics/airColumn.ts";
import { Interpolant } from "../../src/acoustics/numerics/chebyshev.ts";
import { anySetup } from "./setups.ts";

describe("the interpolated air column", () => {
  it("is the line within 0.001 dB everywhere, for any bore and gap", () => {
    fc.assert(
      fc.property(anySetup, fc.double({ min: 0, max: 12, noNaN: true }), (setup, gapMm) => {
        const column = new AirColumn(setup, 40, 2000);
        const grid = column.grid(Float64Array.from({ length: 400 }, (_, i) => 40 + 4.9 * i));
        const gap = column.line.gap(Math.min(gapMm, setup.receiver.depthMm) / 1000);
        const curve = column.curve(grid, gap);
        const state = new Float64Array(4);
        for (let i = 3; i < 400; i += 37) {
          column.line.rimState(gap, 0, 2 * Math.PI * grid.frequencies[i], 0, state);
          const exact = Math.hypot(state[0], state[1]) / Math.hypot(state[2], state[3]);
          expect(Math.abs(20 * Math.log10(Math.hypot(curve.re[i], curve.im[i]) / exact))).toBeLessThan(1e-3);
        }
      }),
      { numRuns: 15 },
    );
  });
});

describe("Chebyshev interpolation", () => {
  const wave = (x: number, out: Float64Array) => {
    out[0] = Math.cos(40 * x);
    out[1] = Math.sin(40 * x);
  };
  it("doubles its nodes until the series has fallen, and follows the function into the complex plane", () => {
    const interpolant = new Interpolant(1, 3, 1, 8, wave);
    expect(interpolant.nodes).toBeGreaterThan(40);
    const out = new Float64Array(2);
    for (const [re, im] of [
      [1.3, 0],
      [2.2, 0.02],
      [2.9, 0.01],
    ]) {
      interpolant.evaluate(re, im, out);
      const size = Math.exp(-40 * im);
      expect(out[0]).toBeCloseTo(size * Math.cos(40 * re), 8);
      expect(out[1]).toBeCloseTo(size * Math.sin(40 * re), 8);
    }
  });

  it("evaluates any number of functions, of whatever length their series are", () => {
    const waves = [40, 3, 0, 17, 25];
    const sample = (x: number, out: Float64Array) =>
      waves.forEach((k, i) => {
        out.set([Math.cos(k * x), Math.sin(k * x)], 2 * i);
      });
    const interpolant = new Interpolant(1, 3, waves.length, 64, sample);
    for (const count of [1, 2, 3, 4, 5])
      for (const im of [0, 0.02]) {
        const out = new Float64Array(2 * waves.length).fill(9);
        interpolant.evaluate(2.2, im, out, count);
        waves.slice(0, count).forEach((k, i) => {
          expect(out[2 * i]).toBeCloseTo(Math.exp(-k * im) * Math.cos(2.2 * k), 9);
          expect(out[2 * i + 1]).toBeCloseTo(Math.exp(-k * im) * Math.sin(2.2 * k), 9);
        });
        expect([...out.subarray(2 * count)]).toEqual(Array(2 * (waves.length - count)).fill(9));
      }
  });

  it("knows where it may be trusted", () => {
    const interpolant = new Interpolant(1, 3, 1, 64, wave);
    expect(interpolant.isAccurateAt(2, 0)).toBe(true);
    expect(interpolant.isAccurateAt(2, 0.1)).toBe(true);
    expect(interpolant.isAccurateAt(2, 2)).toBe(false);
    expect(interpolant.isAccurateAt(4, 0)).toBe(false);
    const [re, im] = interpolant.edge(1);
    expect(interpolant.isAccurateAt(re, 0.99 * im)).toBe(true);
    expect(interpolant.isAccurateAt(re, 1.01 * im)).toBe(false);
  });
});
