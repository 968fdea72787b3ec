import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { partOfSudden, suddenLoss } from "../../src/flow/areaChange.ts";
import { type Cone, dynamicPressure, pipeLoss } from "../../src/flow/pipe.ts";
import { numbers } from "../reference/table.ts";

const gas = { density: 1.2, viscosity: 1.8e-5 };
const FLOW = 1e-3;

const halfTangent = (angleDeg: number): number =>
  angleDeg === 180 ? Infinity : Math.tan((angleDeg * Math.PI) / 360);

/** Area-change loss of one cone of a total angle between two radii, by the whole way through `pipeLoss`. */
function loss(radiusIn: number, radiusOut: number, angleDeg: number): number {
  const length = angleDeg === 180 ? 0 : Math.abs(radiusOut - radiusIn) / halfTangent(angleDeg);
  return pipeLoss([{ length, radiusIn, radiusOut }], gas, FLOW).areaChange;
}

describe("losses of area changes against a hydraulics handbook", () => {
  it("diffusers: Idelchik's diagram 5-2, within its two digits up to 30°, within a sixth above", () => {
    const rows = numbers("flow/diffuser.csv");
    expect(rows.length).toBe(11 * 14);
    for (const [angle, ratio, printed] of rows) {
      // area ratio 0: into a very large room
      const out = ratio === 0 ? 1e4 : 1 / Math.sqrt(ratio);
      const K = loss(0.01, 0.01 * out, angle) / dynamicPressure(FLOW, 0.01, gas.density);
      if (angle <= 30) expect(Math.abs(K - printed)).toBeLessThan(0.012 + 0.055 * printed);
      else expect(Math.abs(K - printed)).toBeLessThan(0.01 + 0.14 * printed);
    }
  });

  it("contractions: Idelchik's diagram 4-9 for sudden ones, Crane's angles for gradual ones", () => {
    for (const [angle, ratio, printed] of numbers("flow/contraction.csv")) {
      if (ratio === 1) continue;
      const before = ratio === 0 ? 100 : 0.01 / Math.sqrt(ratio);
      const K = loss(before, 0.01, angle) / dynamicPressure(FLOW, 0.01, gas.density);
      expect(Math.abs(K / printed - 1)).toBeLessThan(angle === 180 ? 0.01 : 0.02);
    }
  });

  it("is Borda–Carnot's ½ρ(u₁−u₂)² for a step, and nothing without one", () => {
    expect(suddenLoss(10, 4, 1.2)).toBeCloseTo(0.5 * 1.2 * 36, 12);
    expect(suddenLoss(10, 0, 1.2)).toBeCloseTo(60, 12);
    expect(suddenLoss(7, 7, 1.2)).toBe(0);
    // a plenum: half of the dynamic pressure behind
    expect(suddenLoss(0, 10, 1.2)).toBeCloseTo(30, 12);
  });

  it("goes from nothing at no angle to the whole step at 180°, never falling", () => {
    for (const widening of [true, false]) {
      expect(partOfSudden(0, widening)).toBe(0);
      expect(partOfSudden(Infinity, widening)).toBe(1);
      for (let angle = 1; angle < 180; angle++)
        expect(partOfSudden(halfTangent(angle + 0.999), widening)).toBeGreaterThanOrEqual(
          partOfSudden(halfTangent(angle), widening),
        );
    }
  });
});

describe("a pipe", () => {
  // to the micrometre: a step of rounding alone has no loss that could be the same to 1e-9
  const radius = fc.integer({ min: 2_000, max: 30_000 }).map((um) => um / 1e6);
  const profile = fc.array(radius, { minLength: 2, maxLength: 8 });
  const cones = (radii: readonly number[]): Cone[] =>
    radii.slice(1).map((radiusOut, i) => ({ length: i % 3 === 2 ? 0 : 0.02, radiusIn: radii[i], radiusOut }));

  it("loses the same however finely it is drawn", () => {
    fc.assert(
      fc.property(profile, fc.integer({ min: 2, max: 9 }), (radii, n) => {
        const coarse = cones(radii);
        const fine = coarse.flatMap(({ length, radiusIn, radiusOut }) =>
          Array.from({ length: n }, (_, k) => ({
            length: length / n,
            radiusIn: radiusIn + ((radiusOut - radiusIn) * k) / n,
            radiusOut: radiusIn + ((radiusOut - radiusIn) * (k + 1)) / n,
          })),
        );
        const [a, b] = [coarse, fine].map((pieces) => pipeLoss(pieces, gas, 2e-4));
        expect(Math.abs(b.areaChange - a.areaChange)).toBeLessThan(1e-9 * a.areaChange + 1e-12);
        expect(Math.abs(b.friction / a.friction - 1)).toBeLessThan(1e-3);
      }),
    );
  });

  it("never gains pressure, and loses more the more flows", () => {
    fc.assert(
      fc.property(profile, fc.double({ min: -7, max: -2, noNaN: true }), (radii, power) => {
        const at = (flow: number) => pipeLoss(cones(radii), gas, flow);
        const [less, more] = [at(10 ** power), at(1.05 * 10 ** power)];
        for (const part of ["friction", "areaChange"] as const) {
          expect(less[part]).toBeGreaterThanOrEqual(0);
          expect(more[part]).toBeGreaterThanOrEqual(less[part] * (1 - 1e-9) - 1e-12);
        }
        expect(at(0)).toMatchObject({ friction: 0, areaChange: 0 });
      }),
    );
  });
});
