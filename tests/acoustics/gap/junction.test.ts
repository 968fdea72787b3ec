import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cavityInertance, regionInertance } from "../../../src/acoustics/gap/gap.ts";
import { stepInertance } from "../../../src/acoustics/gap/junction.ts";
import { numbers } from "../../reference/table.ts";

const MM = 1e-3;
const cavity = (a: number, near: number, far: number, b: number, gap: number) => ({
  shankExit: a * MM,
  cavityAtShank: near * MM,
  cavityAtLeadpipe: far * MM,
  leadpipe: b * MM,
  gap: gap * MM,
});

describe("inertance of the gap", () => {
  // Axisymmetric finite elements (FreeFEM), hard walls: the tables name their scripts.
  it("is within 0.1 % of finite elements in straight cavities, 0.05 to 12 mm", () => {
    const rows = numbers("gap/inertance.csv");
    expect(rows.length).toBe(16);
    for (const [a, c, b, g, inertance] of rows)
      expect(Math.abs((regionInertance(cavity(a, c, c, b, g)) * MM) / inertance - 1)).toBeLessThan(5e-4);
  });

  it("is within 0.04 % of finite elements in cavities of other shapes, sizes and the usual taper, 0.15 % in steeper ones", () => {
    const rows = numbers("gap/region.csv").filter(([, , , , g]) => g > 0);
    expect(rows.length).toBeGreaterThan(20);
    for (const [a, near, far, b, g, inertance] of rows) {
      // first order in the wall's slope: less good for twice the usual taper, and where the taper swallows a step
      const hard = Math.abs(near - far) / g > 0.026 || far <= b;
      const error = (regionInertance(cavity(a, near, far, b, g)) * MM) / inertance - 1;
      expect(Math.abs(error)).toBeLessThan(hard ? 1.5e-3 : 4e-4);
    }
  });

  it("is the same to the last digit whatever was asked before, and of one shape in proportion", () => {
    const one = cavity(8.4, 9.95, 9.8, 8.75, 2.5);
    const before = regionInertance(one);
    for (let k = 1; k <= 600; k++) {
      const size = 1 + 0.00137 * k;
      const other = cavity(8.4 * size, 9.95 * size, 9.8 * size, 8.75 * size, 2.5 * size);
      const inProportion = regionInertance(other) * size;
      // its straight cavity has a round radius, and the taper upon it is of first order
      expect(Math.abs(inProportion / before - 1)).toBeLessThan(1e-4);
      expect(regionInertance(one)).toBe(before);
    }
  });

  it("is that of one step when the gap is closed, within 0.3 % of finite elements", () => {
    const rows = numbers("gap/region.csv").filter(([, , , , g]) => g === 0);
    expect(rows.length).toBeGreaterThan(2);
    for (const [a, , , b, , inertance] of rows)
      expect(Math.abs((stepInertance(a * MM, b * MM) * MM) / inertance - 1)).toBeLessThan(3e-3);
  });

  it("goes over to one step as the gap closes", () => {
    for (const [a, c, b] of [
      [4.25, 5, 4.4],
      [4.6, 5, 4.3],
      [4, 6, 5],
    ]) {
      const closed = regionInertance(cavity(a, c, c, b, 0));
      const open = [1e-1, 1e-2, 1e-3, 1e-4].map((g) => regionInertance(cavity(a, c, c, b, g)) - closed);
      // monotone towards it, and there within the truncation of both
      for (let i = 1; i < open.length; i++) expect(Math.abs(open[i])).toBeLessThan(Math.abs(open[i - 1]));
      expect(Math.abs(open[3]) / closed).toBeLessThan(0.012);
    }
  });

  it("goes over to two separate steps as the gap grows", () => {
    const [m11, m12, m22] = cavityInertance(cavity(4.25, 5, 5, 4.4, 40));
    expect(Math.abs(m12) / m11).toBeLessThan(1e-9);
    expect(m11 / stepInertance(4.25 * MM, 5 * MM)).toBeCloseTo(1, 2);
    expect(m22 / stepInertance(5 * MM, 4.4 * MM)).toBeCloseTo(1, 2);
  });

  it("is no different seen from the other side", () => {
    const there = regionInertance(cavity(4.25, 5, 4.9, 4.4, 2));
    const back = regionInertance(cavity(4.4, 4.9, 5, 4.25, 2));
    expect(there / back).toBeCloseTo(1, 6);
  });

  it("of a small hole in a wide duct is the flanged end correction, 0.8216 a (Norris & Sheng 1989)", () => {
    const b = 1;
    const correction = (ratio: number) => stepInertance(ratio * b, b) * Math.PI * ratio * b;
    // linear in the ratio at first: extrapolated to an infinite baffle
    const [x, y] = [correction(0.02), correction(0.04)];
    expect(Math.abs(2 * x - y - 0.8216) / 0.8216).toBeLessThan(4e-3);
  });

  it("costs kinetic energy whatever flows: M is positive, and more gap is more mass", () => {
    const length = fc.double({ min: 3, max: 12, noNaN: true });
    fc.assert(
      fc.property(
        length,
        fc.double({ min: 0.05, max: 4, noNaN: true }),
        fc.double({ min: 0.7, max: 1.1, noNaN: true }),
        fc.double({ min: 0.05, max: 12, noNaN: true }),
        (a, wider, ratio, g) => {
          const c = a + wider;
          const b = Math.min(a * ratio, c - 0.01);
          const [m11, m12, m22] = cavityInertance(cavity(a, c, c, b, g));
          expect(m11).toBeGreaterThanOrEqual(0);
          expect(m22).toBeGreaterThanOrEqual(0);
          expect(m11 * m22 - m12 * m12).toBeGreaterThanOrEqual(-1e-9 * m11 * m22);
          expect(regionInertance(cavity(a, c, c, b, 1.2 * g))).toBeGreaterThan(
            regionInertance(cavity(a, c, c, b, g)),
          );
        },
      ),
      { numRuns: 40 },
    );
  });
});
