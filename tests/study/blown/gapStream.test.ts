import { describe, expect, test } from "vitest";
import { gapStreamNumbers, nearestGapStream, streamlineRadii } from "../../../src/study/blown/gapStream.ts";
import { demo } from "../../acoustics/setups.ts";

describe("the computed stream", () => {
  test("is the case nearest by ratio, whatever is asked for", () => {
    const of = (gapOverDiameter: number, reynolds: number) => {
      const near = nearestGapStream({ gapOverDiameter, reynolds });
      return [near.gapOverDiameter, near.reynolds];
    };
    expect(of(0.001, 10)).toEqual([0.12, 800]);
    expect(of(0.2, 1500)).toEqual([0.3, 800]);
    expect(of(0.5, 1700)).toEqual([0.6, 3200]);
    expect(of(9, 90_000)).toEqual([0.6, 3200]);
  });

  test.each([
    [0.12, 800],
    [0.12, 3200],
    [0.3, 800],
    [0.3, 3200],
    [0.6, 800],
    [0.6, 3200],
  ])(
    "at gap %f, Re %i keeps the flow, comes in as u ∝ 1 − r⁶ and stands still at walls",
    (gapOverDiameter, reynolds) => {
      const { along, radii, speed, stream, layer, turning } = nearestGapStream({ gapOverDiameter, reynolds });
      const wall = radii.indexOf(1);
      expect(wall).toBeGreaterThan(0);
      along.forEach((place, i) => {
        expect(stream[i][0]).toBe(0);
        const isGap = place > 0 && place < 2 * gapOverDiameter;
        const last = isGap ? radii.length - 1 : wall;
        expect(speed[i][last]).toBe(0);
        expect(stream[i][last]).toBe(1);
        // flow through the ring between two radii is the mean speed there by its area
        const passes = radii
          .slice(1)
          .reduce((sum, r, j) => sum + ((speed[i][j] + speed[i][j + 1]) / 2) * (r ** 2 - radii[j] ** 2), 0);
        if (!isGap) expect(passes).toBeCloseTo(1, 1);
      });
      // the core a little faster than (m + 2)/m, as the wall holds the rest back
      expect(speed[0][0]).toBeGreaterThan(8 / 6);
      expect(speed[0][0]).toBeLessThan(1.42);
      expect(turning).toBeGreaterThan(0.003);
      expect(turning).toBeLessThan(0.01);
      // the parting line goes from edge to edge, and the layer about it grows on the way
      expect(layer[0].dividing).toBeCloseTo(1, 2);
      expect(layer.at(-1)!.dividing).toBeCloseTo(1, 2);
      for (const { half, dividing, tenth } of layer.slice(1, -1)) {
        expect(half).toBeLessThan(dividing);
        expect(half).toBeLessThan(tenth);
      }
      const outer = streamlineRadii(nearestGapStream({ gapOverDiameter, reynolds }), 0.95);
      expect(Math.min(...outer)).toBeGreaterThan(0.85);
      expect(Math.max(...outer)).toBeLessThan(1);
    },
  );

  test("an instrument's own numbers come from its bore; without gap or breath there are none", () => {
    const own = gapStreamNumbers(demo(), 2.5, 20)!;
    expect(own.gapOverDiameter).toBeGreaterThan(0.2);
    expect(own.gapOverDiameter).toBeLessThan(0.4);
    expect(own.reynolds).toBeCloseTo(3200, -2);
    expect(gapStreamNumbers(demo(), 0, 20)).toBeNull();
    expect(gapStreamNumbers(demo(), 2.5, 0)).toBeNull();
  });
});
