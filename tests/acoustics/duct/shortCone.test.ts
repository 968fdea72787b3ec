import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Chain } from "../../../src/acoustics/duct/chain.ts";
import { coneTwoPort, Medium, Station } from "../../../src/acoustics/duct/cone.ts";
import { shortConeTwoPort } from "../../../src/acoustics/duct/shortCone.ts";
import { numbers } from "../../reference/table.ts";

const air = { density: 1.18, soundSpeed: 346, viscosity: 1.84e-5, heatRatio: 1.4, prandtl: 0.71 };

/** One of the two forms, in so many equal steps. */
function inSteps(
  form: typeof shortConeTwoPort,
  [length, radiusIn, radiusOut]: readonly [number, number, number],
  steps: number,
  omegaRe: number,
  omegaIm = 0,
): Float64Array {
  const medium = new Medium(air, 1);
  medium.setFrequency(omegaRe, omegaIm);
  const [near, middle, far] = [new Station(), new Station(), new Station()];
  const port = new Float64Array(8);
  let out: Float64Array = Float64Array.of(1, 0, 0, 0, 0, 0, 1, 0);
  const radius = (k: number) => radiusIn + ((radiusOut - radiusIn) * k) / steps;
  for (let k = 0; k < steps; k++) {
    near.set(radius(k), medium);
    middle.set(radius(k + 0.5), medium);
    far.set(radius(k + 1), medium);
    form(near, middle, far, length / steps, port);
    out = product(out, port);
  }
  return out;
}

function product(x: Float64Array, y: Float64Array): Float64Array {
  const out = new Float64Array(8);
  for (const [i, j] of [
    [0, 0],
    [0, 1],
    [1, 0],
    [1, 1],
  ])
    for (let k = 0; k < 2; k++) {
      const [aRe, aIm] = x.subarray(4 * i + 2 * k);
      const [bRe, bIm] = y.subarray(4 * k + 2 * j);
      out[4 * i + 2 * j] += aRe * bRe - aIm * bIm;
      out[4 * i + 2 * j + 1] += aRe * bIm + aIm * bRe;
    }
  return out;
}

/** A, B, C, D with B and C counted as the table has them. */
function scaled(port: Float64Array, radiusIn: number, radiusOut: number): number[] {
  const z = (air.density * air.soundSpeed) / (Math.PI * radiusIn * radiusOut);
  return Array.from(port, (value, i) => value * [1, 1, 1 / z, 1 / z, z, z, 1, 1][i]);
}

const distance = (a: readonly number[], b: readonly number[]): number =>
  Math.max(...a.map((value, i) => Math.abs(value - b[i])));

describe("a cone short against the wavelength", () => {
  it("has the two-port that SciPy integrates, however steep, in the steps a chain takes", () => {
    const rows = numbers("duct/steep-cone.csv");
    expect(rows).toHaveLength(28);
    for (const [lengthMm, entranceMm, exitMm, hz, ...expected] of rows) {
      const [length, radiusIn, radiusOut] = [lengthMm / 1e3, entranceMm / 1e3, exitMm / 1e3];
      const port = new Float64Array(8);
      new Chain([{ length, radiusIn, radiusOut, air }], 1, "plane").twoPort(2 * Math.PI * hz, 0, port);
      expect(distance(scaled(port, radiusIn, radiusOut), expected)).toBeLessThan(1.5e-7);
      const fine = inSteps(shortConeTwoPort, [length, radiusIn, radiusOut], 256, 2 * Math.PI * hz);
      expect(distance(scaled(fine, radiusIn, radiusOut), expected)).toBeLessThan(1e-9);
    }
  });

  it("where a cup runs into its throat it takes a tenth of the steps", () => {
    const cup = { length: 0.456e-3, radiusIn: 3.33e-3, radiusOut: 1.85e-3, air };
    const { sections } = new Chain([cup], 1, "plane");
    expect(sections).toBeLessThanOrEqual(8);
    const whole = [cup.length, cup.radiusIn, cup.radiusOut] as const;
    const omega = 2 * Math.PI * 40;
    const exact = scaled(inSteps(coneTwoPort, whole, 4096, omega), cup.radiusIn, cup.radiusOut);
    const off = (form: typeof shortConeTwoPort, steps: number) =>
      distance(scaled(inSteps(form, whole, steps, omega), cup.radiusIn, cup.radiusOut), exact);
    expect(off(shortConeTwoPort, sections)).toBeLessThan(off(coneTwoPort, 8 * sections));
  });

  it("is of fourth order, reciprocal, and the other form's, at any complex frequency", () => {
    const radius = fc.double({ min: 1.5e-3, max: 1e-2, noNaN: true });
    const length = fc.double({ min: 3e-4, max: 1e-2, noNaN: true });
    const omega = fc.double({ min: 300, max: 12_000, noNaN: true });
    fc.assert(
      fc.property(
        radius,
        radius,
        length,
        omega,
        fc.double({ min: 0, max: 0.05, noNaN: true }),
        (r0, r1, h, w, damping) => {
          const shape = [h, r0, r1] as const;
          const at = (form: typeof shortConeTwoPort, steps: number) =>
            scaled(inSteps(form, shape, steps, w, damping * w), r0, r1);
          const exact = at(shortConeTwoPort, 256);
          expect(distance(at(coneTwoPort, 1024), exact)).toBeLessThan(1e-7);
          const [coarse, fine] = [16, 32].map((steps) => distance(at(shortConeTwoPort, steps), exact));
          expect(fine).toBeLessThan(Math.max(coarse / 12, 1e-11));
          const [a, b, c, d] = [0, 2, 4, 6].map((i) => exact.slice(i, i + 2));
          expect(a[0] * d[0] - a[1] * d[1] - b[0] * c[0] + b[1] * c[1]).toBeCloseTo(1, 10);
          expect(a[0] * d[1] + a[1] * d[0] - b[0] * c[1] - b[1] * c[0]).toBeCloseTo(0, 10);
        },
      ),
      { numRuns: 60 },
    );
  });
});
