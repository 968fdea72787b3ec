import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { AirColumn } from "../../../src/acoustics/airColumn.ts";
import { modeGradients } from "../../../src/acoustics/resonance/modeGradient.ts";
import { resonancesOf } from "../../../src/acoustics/resonance/resonances.ts";
import { sensitivity } from "../../../src/acoustics/resonance/sensitivity.ts";
import { withBell } from "../../../src/setup/withBell.ts";
import { anySetup, demo } from "../setups.ts";
import { byTwoBores, expectBodyAsTwoBores, expectPointAsTwoBores } from "./twoBores.ts";

describe("gradient along the whole bore", () => {
  const plane = new AirColumn(withBell(demo(), "plane"), 30, 1700);
  const multimodal = new AirColumn(withBell(demo(), "multimodal"), 30, 1700);
  it.each([
    [["mouthpiece", 8, 2.5, 0], plane],
    [["mouthpiece", 22, 2.5, 0], plane],
    [["mouthpiece", 30, 0, 0], plane],
    [["leadpipe", 1, 2.5, 0], plane],
    [["leadpipe", 2, 0.4, 0.004], plane],
    [["leadpipe", 3, 6, -0.004], plane],
    [["body", 20, 2.5, 0], plane],
    [["body", 60, 2.5, 0.01], plane],
    [["body", 100, 2.5, 0], plane],
    [["leadpipe", 3, 6, -0.004], multimodal],
    [["body", 80, 6, 0], multimodal, 1e-2],
  ] as const)("%s: as two instruments", (place, column, within?) => {
    expectPointAsTwoBores(place, column, within);
  });
});

it("of any bore: the sum over a part is what widening all of it does", () => {
  fc.assert(
    fc.property(anySetup, fc.constantFrom("mouthpiece", "leadpipe", "body"), (setup, part) => {
      const column = new AirColumn(setup, 30, 1000);
      const gapMm = setup.receiver.depthMm - setup.mouthpiece.insertionMm;
      const here = { column, gap: column.line.gap(gapMm / 1000), draw: 0 };
      const resonances = resonancesOf(column, here.gap, 6);
      const derivative = byTwoBores(setup, `${part}.diameters`, gapMm, 0);
      const { places, modes } = modeGradients(column, here.gap, resonances);
      const pairs = resonances.map((resonance, n) => {
        const expected = sensitivity(here, resonance, derivative);
        const sum = (density: Float64Array | null, of = (value: number) => value) =>
          density &&
          density.reduce((total, value, i) => total + (places[i].part === part ? of(value) : 0), 0) / 2000;
        const { frequency, height } = modes[n];
        return {
          expected,
          frequency: sum(frequency),
          height: sum(height),
          gross: { frequency: sum(frequency, Math.abs)!, height: sum(height, Math.abs) ?? 0 },
        };
      });
      // places pull either way and mostly cancel: what is small is set by what was added up
      for (const key of ["frequency", "height"] as const) {
        const gross = Math.max(...pairs.map((pair) => pair.gross[key]));
        for (const pair of pairs) {
          expect(pair[key] === null).toBe(pair.expected[key] === null);
          if (pair[key] !== null)
            expect(Math.abs(pair[key] - pair.expected[key]!)).toBeLessThan(1e-4 * gross);
        }
      }
    }),
    { numRuns: 12, endOnFailure: true },
  );
});

it("of a bell with curved fronts: the sum over the body is what widening all of it does", () => {
  expectBodyAsTwoBores("b-flat-trumpet");
});

it("has places to the mouth in either bell, and to a multimodal bell's flare where no more is asked for", () => {
  const endOf = (bell: "plane" | "multimodal", flare: boolean) => {
    const column = new AirColumn(withBell(demo(), bell), 30, 1700);
    const gap = column.line.gap(0.0025);
    const { places } = modeGradients(column, gap, resonancesOf(column, gap, 1), 0, flare);
    expect(places[places.length - 1].part).toBe("body");
    return places[places.length - 1].x;
  };
  const { profileMm } = demo().body;
  const mouth = profileMm[profileMm.length - 1][0] / 1000;
  for (const bell of ["plane", "multimodal"] as const) expect(endOf(bell, true)).toBeCloseTo(mouth, 9);
  expect(endOf("plane", false)).toBeCloseTo(mouth, 9);
  // where the finite elements' flare starts (tests/reference/bell/flare.csv) plane waves are still enough
  expect(endOf("multimodal", false)).toBeGreaterThan(0.716);
  expect(endOf("multimodal", false)).toBeLessThan(0.98);
});
