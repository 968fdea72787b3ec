import { describe, expect, it } from "vitest";
import { regionInertance } from "../../../src/acoustics/gap/gap.ts";
import { GapField, type StraightCavity } from "../../../src/acoustics/gap/gapField.ts";

const MM = 1e-3;
const shape = (a: number, c: number, b: number, gap: number): StraightCavity => ({
  shankExit: a * MM,
  cavity: c * MM,
  leadpipe: b * MM,
  gap: gap * MM,
});

const shapes = [shape(4.25, 5, 4.4, 1), shape(4.25, 5, 4.4, 6), shape(4.6, 5.5, 4.2, 2.5)];

describe("the flow through the gap", () => {
  it("goes on across both openings as it came: the two sides' modes say the same", () => {
    for (const one of shapes) {
      const field = new GapField(one);
      for (const [z, opening] of [
        [0, one.shankExit],
        [one.gap, one.leadpipe],
      ])
        for (const part of [0.2, 0.4, 0.6, 0.8, 0.95]) {
          const r = part * opening;
          expect(Math.abs(field.inside(z - 1e-9, r) - field.inside(z + 1e-9, r))).toBeLessThan(4e-3);
        }
    }
  });

  it("never passes through a wall, nor through the ring faces beside the openings", () => {
    for (const one of shapes) {
      const field = new GapField(one);
      for (const z of [-4 * MM, -0.3 * MM, 0.3 * one.gap, one.gap + 0.5 * MM])
        expect(field.inside(z, field.radius(z))).toBeCloseTo(1, 9);
      // in the cavity just behind the shank's face all of the flow is inside the opening
      expect(field.inside(1e-9, (one.shankExit + one.cavity) / 2)).toBeCloseTo(1, 2);
    }
  });

  it("finds the radius inside which a part passes: Ψ there is that part", () => {
    for (const one of shapes) {
      const field = new GapField(one);
      const parts = [0.1, 0.3, 0.5, 0.7, 0.9, 0.98];
      for (const z of [-5 * MM, -0.2 * MM, 0.4 * one.gap, one.gap + 0.3 * MM])
        field.radiiOf(parts, z).forEach((r, i) => {
          expect(Math.abs(field.inside(z, r) - parts[i])).toBeLessThan(5e-4);
        });
    }
  });

  it("is plane two diameters away", () => {
    const field = new GapField(shapes[0]);
    for (const r of [1, 2, 3, 4]) {
      expect(field.inside(-17 * MM, r * MM)).toBeCloseTo((r / 4.25) ** 2, 5);
      expect(field.inside(19 * MM, r * MM)).toBeCloseTo((r / 4.4) ** 2, 5);
    }
  });

  it("holds the kinetic energy that the inertance says, above the plane flow's: ∫|u|²dV by differences", () => {
    for (const one of shapes.slice(0, 2)) {
      const field = new GapField(one);
      const { shankExit, cavity, leadpipe, gap } = one;
      const [reach, dz, dr] = [7 * MM, 0.1 * MM, 0.1 * MM];
      let energy = 0;
      for (let z = -reach + dz / 2; z < gap + reach; z += dz) {
        const a = field.radius(z);
        for (let r = dr / 2; r < a; r += dr) {
          const top = Math.min(r + dr / 2, a);
          const axial = (field.inside(z, top) - field.inside(z, r - dr / 2)) / (top - r + dr / 2);
          const radial = (field.inside(z + dz / 4, r) - field.inside(z - dz / 4, r)) / (dz / 2);
          // u = (1/2πr) ∇Ψ; a step inside the difference is not a velocity
          const crosses = field.radius(z + dz / 4) !== field.radius(z - dz / 4);
          energy +=
            ((axial ** 2 + (crosses ? 0 : radial ** 2)) / (2 * Math.PI * r)) * (top - r + dr / 2) * dz;
        }
      }
      const plane = reach / (Math.PI * shankExit ** 2) + reach / (Math.PI * leadpipe ** 2);
      const expected = regionInertance({
        shankExit,
        cavityAtShank: cavity,
        cavityAtLeadpipe: cavity,
        leadpipe,
        gap,
      });
      expect(Math.abs((energy - plane) / expected - 1)).toBeLessThan(0.01);
    }
  });
});
