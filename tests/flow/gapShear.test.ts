import { describe, expect, it } from "vitest";
import { fullnessOf, gapShear } from "../../src/flow/gapShear.ts";
import { numbers } from "../reference/table.ts";

const rows = numbers("flow/stream/gap-oscillating.csv");

describe("κ of the shear layer across the gap", () => {
  it("is the finite elements' at every node of the table (flow/stream/gap-oscillating.csv)", () => {
    expect(rows).toHaveLength(360);
    for (const [gapOverDiameter, reynolds, fullness, strouhal, re, im] of rows) {
      const kappa = gapShear({ gapOverDiameter, reynolds, fullness })(strouhal);
      expect(Math.abs(kappa[0] - re)).toBeLessThan(5e-4 * Math.abs(re) + 1e-6);
      expect(Math.abs(kappa[1] - im)).toBeLessThan(5e-4 * Math.abs(im) + 1e-6);
    }
  });

  it("takes about St 0.2 and gives about 0.4 to 0.5 in a thin layer, where corrugated pipes damp and whistle; a long pipe's only takes", () => {
    for (const reynolds of [1600, 3200]) {
      const thin = gapShear({ gapOverDiameter: 0.3, reynolds, fullness: 16 });
      expect(thin(0.22)[0]).toBeGreaterThan(0.1);
      expect(thin(0.42)[0]).toBeLessThan(-0.015);
      const long = gapShear({ gapOverDiameter: 0.3, reynolds, fullness: 2 });
      for (const [, , , strouhal] of rows) expect(long(strouhal)[0]).toBeGreaterThan(-0.002);
    }
  });

  it("is quasi-steady as St goes to 0: half of the loss's slope, by the steady table", () => {
    const steady = numbers("flow/stream/gap-steady.csv");
    for (const fullness of [2, 6, 16]) {
      const at = (re: number) =>
        steady.find(([gap, r, full]) => gap === 0.6 && r === re && full === fullness)![3];
      const slope = Math.log(at(2200) / at(1290)) / Math.log(2200 / 1290);
      const [re] = gapShear({ gapOverDiameter: 0.6, reynolds: 1600, fullness })(0);
      expect(Math.abs(re / (at(1600) * (1 + slope / 2)) - 1)).toBeLessThan(0.03);
    }
  });

  it("vanishes with the gap, and at high frequencies; is smooth between the nodes", () => {
    const stream = { reynolds: 2000, fullness: 8 };
    expect(gapShear({ ...stream, gapOverDiameter: 0 })(0.3)).toEqual([0, 0]);
    const kappa = gapShear({ ...stream, gapOverDiameter: 0.45 });
    expect(Math.abs(kappa(20)[0])).toBeLessThan(1e-3);
    for (let strouhal = 0; strouhal < 2; strouhal += 1e-3)
      expect(Math.abs(kappa(strouhal + 1e-3)[0] - kappa(strouhal)[0])).toBeLessThan(5e-3);
  });

  it("knows a parabola from a flat profile", () => {
    expect(fullnessOf(2)).toBe(2);
    expect(fullnessOf(1.25)).toBeCloseTo(8, 12);
    expect(fullnessOf(1.001)).toBe(16);
    expect(fullnessOf(1)).toBe(16);
  });
});
