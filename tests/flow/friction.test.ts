import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { DRAWN_TUBING, frictionFactor } from "../../src/flow/friction.ts";
import { pipeLoss } from "../../src/flow/pipe.ts";
import { numbers } from "../reference/table.ts";

describe("Darcy's friction factor", () => {
  it("is 64/Re where laminar and the root of Colebrook's equation, to 0.01 %, where turbulent", () => {
    const rows = numbers("flow/friction.csv");
    expect(rows.length).toBeGreaterThan(50);
    for (const [reynolds, roughness, factor] of rows)
      expect(Math.abs(frictionFactor(reynolds, roughness) / factor - 1)).toBeLessThan(1e-4);
  });

  it("has the printed values of a smooth pipe (Prandtl's law as tabulated in textbooks, from memory)", () => {
    for (const [reynolds, printed] of [
      [4e3, 0.0399],
      [1e4, 0.0309],
      [1e5, 0.018],
      [1e6, 0.0116],
      [1e7, 0.0081],
    ])
      expect(Math.abs(frictionFactor(reynolds, 0) - printed)).toBeLessThan(1e-4);
  });

  it("joins the two without a jump in value or slope", () => {
    for (const at of [2300, 4000]) {
      const [far, near, here, after, later] = [-2, -1, 0, 1, 2].map((k) =>
        Math.log(frictionFactor(at * (1 + k * 1e-4), 1e-4)),
      );
      expect(Math.abs(near - here)).toBeLessThan(1e-3);
      expect(Math.abs(later - after - (near - far)) / 1e-4).toBeLessThan(0.02);
    }
  });

  it("always lets a larger flow lose more: f Re² rises", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -3, max: 7, noNaN: true }),
        fc.double({ min: 0, max: 0.05, noNaN: true }),
        (power, roughness) => {
          const at = (reynolds: number) => frictionFactor(reynolds, roughness) * reynolds ** 2;
          expect(at(10 ** power * 1.01)).toBeGreaterThan(at(10 ** power));
        },
      ),
    );
  });
});

describe("friction along a cone", () => {
  it("equals SciPy's quadrature with Colebrook's roots", () => {
    const gas = { density: 1.17, viscosity: 1.85e-5 };
    for (const [d1, d2, length, litres, drop] of numbers("flow/cone-friction.csv")) {
      const cone = { length: length / 1000, radiusIn: d1 / 2000, radiusOut: d2 / 2000 };
      const { friction } = pipeLoss([cone], gas, litres / 60_000);
      expect(Math.abs(friction / drop - 1)).toBeLessThan(2e-4);
    }
  });

  it("is Hagen–Poiseuille's law where laminar, also for a cone: 128 μQ/π ∫dx/D⁴", () => {
    const gas = { density: 1.2, viscosity: 1.8e-5 };
    const flow = 2e-6;
    const [d1, d2, length] = [0.004, 0.009, 0.1];
    const { friction } = pipeLoss([{ length, radiusIn: d1 / 2, radiusOut: d2 / 2 }], gas, flow);
    const integral = (length * (d1 * d1 + d1 * d2 + d2 * d2)) / (3 * d1 ** 3 * d2 ** 3);
    expect(friction / ((128 * gas.viscosity * flow * integral) / Math.PI)).toBeCloseTo(1, 5);
    // drawn tubing is smooth to a laminar stream
    expect(frictionFactor(500, DRAWN_TUBING / d1)).toBe(64 / 500);
  });
});
