import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { AirColumn } from "../../../src/acoustics/airColumn.ts";
import type { BorePart } from "../../../src/acoustics/duct/boreLayout.ts";
import { Line } from "../../../src/acoustics/duct/line.ts";
import { type ModeGradients, modeGradients } from "../../../src/acoustics/resonance/modeGradient.ts";
import { resonancesOf } from "../../../src/acoustics/resonance/resonances.ts";
import { type StateDerivative, sensitivity } from "../../../src/acoustics/resonance/sensitivity.ts";
import { dimensionAt } from "../../../src/setup/dimension/dimension.ts";
import { readSetup } from "../../../src/setup/file/readSetup.ts";
import type { Setup } from "../../../src/setup/setup.ts";
import { anySetup, demo } from "../setups.ts";

/** The hat of one profile point over the places of its part: what moving that point does to the polyline. */
function hat({ places }: ModeGradients, setup: Setup, part: BorePart, point: number): number[] {
  const { profileMm } = setup[part];
  const at = (i: number): number => (profileMm[i] ? (profileMm[i][0] - profileMm[0][0]) / 1000 : Number.NaN);
  const [before, here, next] = [at(point - 1), at(point), at(point + 1)];
  return places.map(({ part: its, x }) => {
    if (its !== part) return 0;
    if (Math.abs(x - here) < 1e-9) return 1;
    if (x < here && x >= before) return (x - before) / (here - before);
    return x > here && x <= next ? (next - x) / (next - here) : 0;
  });
}

/**
 * The rim's state by a dimension, per mm, from two bores that differ by it, section by section: a column's series would have
 * its own error divided by the small step.
 */
function byTwoBores(setup: Setup, path: string, gapMm: number, draw: number): StateDerivative {
  const by = 2e-3;
  const [less, more] = [-by, by].map((step) => new Line(dimensionAt(setup, path)!.moved(step)));
  const before = new Float64Array(4);
  return (fRe, fIm, out) => {
    const state = (line: Line, into: Float64Array) =>
      line.rimState(line.gap(gapMm / 1000), draw, 2 * Math.PI * fRe, 2 * Math.PI * fIm, into);
    state(less, before);
    state(more, out);
    for (let i = 0; i < out.length; i++) out[i] = (out[i] - before[i]) / (2 * by);
  };
}

const standIn = (name: string): Setup =>
  readSetup(
    JSON.parse(readFileSync(new URL(`../../../shared/standins/${name}.setup.json`, import.meta.url), "utf8")),
  );

const withBell = (setup: Setup, bell: Setup["model"]["bell"]): Setup => ({
  ...setup,
  model: { ...setup.model, bell },
});

describe("gradient along the whole bore", () => {
  const plane = new AirColumn(withBell(demo(), "plane"), 30, 1700);
  const multimodal = new AirColumn(withBell(demo(), "multimodal"), 30, 1700);
  it.each([
    ["mouthpiece", 8, 2.5, 0, plane],
    ["mouthpiece", 22, 2.5, 0, plane],
    ["mouthpiece", 30, 0, 0, plane],
    ["leadpipe", 1, 2.5, 0, plane],
    ["leadpipe", 2, 0.4, 0.004, plane],
    ["leadpipe", 3, 6, -0.004, plane],
    ["body", 20, 2.5, 0, plane],
    ["body", 60, 2.5, 0.01, plane],
    ["body", 100, 2.5, 0, plane],
    ["leadpipe", 2, 2.5, 0, multimodal],
    ["leadpipe", 3, 6, -0.004, multimodal],
    ["body", 20, 2.5, 0.01, multimodal],
    ["body", 60, 2.5, 0, multimodal, 1e-2],
    ["body", 80, 6, 0, multimodal, 1e-2],
    ["body", 100, 2.5, 0.01, multimodal, 1e-2],
    ["body", 106, 2.5, 0, multimodal, 1e-2],
  ] as const)("%s point %i at a gap of %f mm: as two instruments", (...row) => {
    const [part, point, gapMm, draw, column, within = 2e-4] = row;
    const { setup } = column;
    const gap = column.line.gap(gapMm / 1000);
    const resonances = resonancesOf(column, gap, 12, draw);
    const derivative = byTwoBores(setup, `${part}.profile[${point}][1]`, gapMm, draw);
    const gradients = modeGradients(column, gap, resonances, draw);
    const weights = hat(gradients, setup, part, point);
    const pairs = resonances.map((resonance, i) => {
      const expected = sensitivity({ column, gap, draw }, resonance, derivative);
      // a mm of diameter is half a mm of radius
      const sum = (density: Float64Array) =>
        density.reduce((total, value, k) => total + value * weights[k], 0) / 2000;
      const { frequency, height } = gradients.modes[i];
      return { expected, frequency: sum(frequency), height: sum(height!) };
    });
    for (const key of ["frequency", "height"] as const) {
      const largest = Math.max(...pairs.map(({ expected }) => Math.abs(expected[key]!)));
      expect(largest).toBeGreaterThan(0);
      expect(pairs).toHaveLength(12);
      for (const pair of pairs)
        expect(Math.abs(pair[key] - pair.expected[key]!) / largest).toBeLessThan(within);
    }
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

it.each(["b-flat-trumpet", "tenor-trombone-small", "horn-f"])(
  "of a bell with curved fronts: the sum over the body is what widening all of it does: %s",
  (name) => {
    const setup = standIn(name);
    expect(setup.model.bell).toBe("multimodal");
    const column = new AirColumn(setup, 20, 1100);
    const gapMm = setup.receiver.depthMm - setup.mouthpiece.insertionMm;
    const here = { column, gap: column.line.gap(gapMm / 1000), draw: 0 };
    const resonances = resonancesOf(column, here.gap, 8);
    const derivative = byTwoBores(setup, "body.diameters", gapMm, 0);
    const { places, modes } = modeGradients(column, here.gap, resonances);
    expect(resonances).toHaveLength(8);
    resonances.forEach((resonance, n) => {
      const expected = sensitivity(here, resonance, derivative);
      const sums = (density: Float64Array) => {
        const own = density.filter((_, i) => places[i].part === "body");
        const add = (of: (value: number) => number) => own.reduce((sum, value) => sum + of(value), 0) / 2000;
        return { sum: add((value) => value), gross: add(Math.abs) };
      };
      const frequency = sums(modes[n].frequency);
      expect(Math.abs(frequency.sum - expected.frequency)).toBeLessThan(2e-3 * frequency.gross);
      // the highest of a long instrument have no peak
      expect(modes[n].height === null).toBe(expected.height === null);
      if (expected.height === null) return;
      const height = sums(modes[n].height!);
      expect(Math.abs(height.sum - expected.height)).toBeLessThan(2e-3 * height.gross);
    });
  },
);

it("has places to the mouth in either bell, and to a multimodal bell's flare where no more is asked for", () => {
  const endOf = (bell: Setup["model"]["bell"], flare: boolean) => {
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
  // where the finite elements' flare starts (tests/reference/bell-flare.csv) plane waves are still enough
  expect(endOf("multimodal", false)).toBeGreaterThan(0.716);
  expect(endOf("multimodal", false)).toBeLessThan(0.98);
});
