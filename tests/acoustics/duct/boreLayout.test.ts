import fc from "fast-check";
import { expect, it } from "vitest";
import { layOut } from "../../../src/acoustics/duct/boreLayout.ts";
import { Line } from "../../../src/acoustics/duct/line.ts";
import { anySetup } from "../setups.ts";

it("cells of Simpson's rule widen by no more than 3 % and weigh what they are long", () => {
  fc.assert(
    fc.property(anySetup, (setup) => {
      const { bore } = new Line(setup);
      const { links, weights } = layOut(bore, bore.lower, 0.22, 0);
      const cones = links.flatMap(({ piece }) => (piece !== null && piece.length > 0 ? [piece] : []));
      expect(cones.length % 2).toBe(0);
      expect(cones.length).toBeGreaterThan(100);
      for (let i = 0; i < cones.length; i += 2) {
        expect(cones[i].length).toBe(cones[i + 1].length);
        expect(Math.abs(Math.log(cones[i + 1].radiusOut / cones[i].radiusIn))).toBeLessThan(0.03 + 1e-9);
      }
      const length = [...bore.mouthpiece, ...bore.upper, ...bore.lower].reduce(
        (sum, piece) => sum + piece.length,
        0,
      );
      expect(weights.reduce((sum, weight) => sum + weight, 0)).toBeCloseTo(length, 9);
    }),
    { numRuns: 20 },
  );
});
