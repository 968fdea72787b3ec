import { describe, expect, it } from "vitest";
import { AirColumn } from "../../../src/acoustics/airColumn.ts";
import { resonancesOf } from "../../../src/acoustics/resonance/resonances.ts";
import {
  atRim,
  betweenSides,
  byGap,
  bySlide,
  frequencyDerivative,
  sensitivity,
} from "../../../src/acoustics/resonance/sensitivity.ts";
import { dimensionAt } from "../../../src/setup/dimension/dimension.ts";
import { demo } from "../setups.ts";

const column = new AirColumn(demo(), 30, 1700);
const gapOf = (gapMm: number, of = column) => of.line.gap(gapMm / 1000);
const found = (gapMm: number, of = column, draw = 0) => resonancesOf(of, gapOf(gapMm, of), 12, draw);

describe("how resonances and peaks move", () => {
  it("with the gap: as two searches a little apart", () => {
    for (const gapMm of [0.4, 2.5, 6]) {
      const [below, here, above] = [found(gapMm - 0.02), found(gapMm), found(gapMm + 0.02)];
      const side = { column, gap: gapOf(gapMm), draw: 0 };
      expect(here.length).toBeGreaterThan(0);
      here.forEach((mode, i) => {
        const [re, im] = frequencyDerivative(atRim(side, mode), byGap(column, side.gap));
        expect(re).toBeCloseTo((above[i].frequency - below[i].frequency) / 4e-5, 1);
        expect(im).toBeCloseTo((above[i].decay - below[i].decay) / 4e-5, 1);
        const { frequency, height } = sensitivity(side, mode, byGap(column, side.gap));
        expect(frequency).toBe(re / mode.frequency);
        const heights = here.map(
          (_, k) => Math.log(above[k].peak!.magnitude / below[k].peak!.magnitude) / 4e-5,
        );
        expect(Math.abs(height! - heights[i]) / Math.max(...heights.map(Math.abs))).toBeLessThan(1e-3);
      });
    }
  });

  it("with the tuning slide", () => {
    const side = { column, gap: gapOf(2.5), draw: 0 };
    const [inwards, outwards] = [found(2.5, column, -1e-3), found(2.5, column, 1e-3)];
    found(2.5).forEach((mode, i) => {
      const { frequency } = sensitivity(side, mode, bySlide(column, side.gap));
      const expected = Math.log(outwards[i].frequency / inwards[i].frequency) / 2e-3;
      expect(frequency / expected).toBeCloseTo(1, 3);
    });
  });

  it.each(["leadpipe.diameters", "mouthpiece.profile[22][1]", "receiver.mouthDiameter", "air.temperature"])(
    "with %s: as two instruments a little apart",
    (path) => {
      const by = path === "air.temperature" ? 0.1 : 0.01;
      const at = (step: number) => new AirColumn(dimensionAt(demo(), path)!.moved(step), 30, 1700);
      const [less, more] = [at(-by), at(by)];
      const side = { column, gap: gapOf(2.5), draw: 0 };
      const derivative = betweenSides(
        { column: less, gap: gapOf(2.5, less), draw: 0 },
        { column: more, gap: gapOf(2.5, more), draw: 0 },
        2 * by,
      );
      const [below, above] = [found(2.5, less), found(2.5, more)];
      // of all twelve, the largest movement sets what is small
      const shifts = found(2.5).map((mode, i) => ({
        ours: sensitivity(side, mode, derivative),
        frequency: Math.log(above[i].frequency / below[i].frequency) / (2 * by),
        height: Math.log(above[i].peak!.magnitude / below[i].peak!.magnitude) / (2 * by),
      }));
      const largest = {
        frequency: Math.max(...shifts.map((one) => Math.abs(one.frequency))),
        height: Math.max(...shifts.map((one) => Math.abs(one.height))),
      };
      expect(largest.frequency).toBeGreaterThan(0);
      expect(shifts.length).toBeGreaterThan(0);
      for (const { ours, frequency, height } of shifts) {
        expect(Math.abs(ours.frequency - frequency) / largest.frequency).toBeLessThan(1e-3);
        expect(Math.abs(ours.height! - height) / largest.height).toBeLessThan(1e-3);
      }
    },
  );
});
