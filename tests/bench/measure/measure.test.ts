import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { uncertaintyBudget } from "../../../src/bench/measure/budget.ts";
import { coverageFactor } from "../../../src/bench/measure/coverage.ts";
import { gapFromReadings } from "../../../src/bench/measure/gap.ts";
import type { GapAdvice } from "../../../src/bench/measure/gapAdvice.ts";
import { grubbsCriticalValue, outlyingReading } from "../../../src/bench/measure/outlier.ts";
import type { LengthUnit } from "../../../src/units/length.ts";
import { componentName } from "../../../src/words/bench/budget.ts";
import { adviceWords } from "../../../src/words/bench/gapAdvice.ts";

const inWords = (advice: readonly GapAdvice[], unit: LengthUnit = "mm") =>
  advice.map((one) => adviceWords(one, unit)).join();
const component = (name: string, standardUncertainty: number, degreesOfFreedom: number) => ({
  component: name,
  standardUncertainty,
  degreesOfFreedom,
});

describe("a budget, against JCGM 100:2008", () => {
  it("example H.1, the end gauge (table H.1; figures from memory)", () => {
    // d: repeated observations, comparator's random and systematic effects, nm
    const difference = uncertaintyBudget([
      component("repeated observations", 5.8, 24),
      component("random effects of comparator", 3.9, 5),
      component("systematic effects of comparator", 6.7, 8),
    ]);
    expect(difference.standardUncertainty).toBeCloseTo(9.7, 1);
    expect(difference.degreesOfFreedom).toBeCloseTo(25.6, 0);
    const whole = uncertaintyBudget([
      component("calibration of the standard", 25, 18),
      component("measured difference", 9.7, 25.6),
      component("difference of expansion coefficients", 2.9, 50),
      component("difference of temperatures", 16.6, 2),
    ]);
    expect(whole.standardUncertainty! ** 2).toBeCloseTo(1002, -1);
    expect(Math.round(whole.standardUncertainty!)).toBe(32);
    expect(Math.floor(whole.degreesOfFreedom!)).toBe(16);
    // U₉₉ = 2.92 · 32 nm = 93 nm
    expect(coverageFactor(16, 0.99) * 32).toBeCloseTo(93, 0);
  });

  it("shares sum to 1, or are unknown together", () =>
    fc.assert(
      fc.property(
        fc.array(fc.oneof(fc.constant(0), fc.double({ min: 1e-9, max: 10, noNaN: true })), {
          minLength: 1,
          maxLength: 6,
        }),
        (uncertainties) => {
          const { rows, standardUncertainty } = uncertaintyBudget(
            uncertainties.map((u, i) => component(`${i}`, u, 3)),
          );
          if (standardUncertainty === undefined)
            expect(rows.every(({ varianceShare }) => varianceShare === undefined)).toBe(true);
          else expect(rows.reduce((sum, { varianceShare }) => sum + varianceShare!, 0)).toBeCloseTo(1, 9);
        },
      ),
    ));
});

describe("an outlying reading", () => {
  // Two-sided 5 % values as tabulated in ISO 5725-2, table 5, and in analytical chemistry textbooks.
  it.each([
    [3, 1.155],
    [4, 1.481],
    [5, 1.715],
    [6, 1.887],
    [8, 2.126],
    [9, 2.215],
    [10, 2.29],
    [12, 2.412],
  ])("has the tabulated critical value for %d readings", (n, tabulated) => {
    // tables round up now and then
    expect(Math.abs(grubbsCriticalValue(n) - tabulated)).toBeLessThan(1.1e-3);
  });

  it("is pointed out and kept", () => {
    const readingsMm = [24.53, 24.54, 24.55, 24.54, 24.95];
    expect(outlyingReading(readingsMm)).toMatchObject({ index: 4, readingMm: 24.95 });
    const { outliers, advice, depthMm } = gapFromReadings({ depthMm: readingsMm, insertionMm: [22, 22.01] });
    expect(outliers.depth?.index).toBe(4);
    expect(outliers.insertion).toBeUndefined();
    expect(depthMm).toBeCloseTo(24.622, 9);
    expect(inWords(advice)).toMatch(/depth reading number 5, 24\.950 mm, stands apart .* It is kept/);
  });

  it("is told in the unit asked for", () => {
    const { advice } = gapFromReadings({
      depthMm: [24.53, 24.54, 24.55, 24.54, 24.95],
      insertionMm: [26],
    });
    expect(inWords(advice, "in")).toMatch(/comes out at -0\.054 in.*first number 5, 0\.982 in/);
    expect(inWords(advice, "in")).toMatch(/depth reading number 5, 0\.9823 in/);
    expect(inWords(advice, "in")).not.toMatch(/mm/);
  });

  it("is not a reading one step of the tool away, whatever the test says", () => {
    expect(outlyingReading([24.54, 24.54, 24.55])).toBeUndefined();
    expect(outlyingReading([24.5, 24.5, 24.5, 24.55], 0.05)).toBeUndefined();
    expect(outlyingReading([24.5, 24.5, 24.5, 24.55], 0.01)).toMatchObject({ index: 3 });
  });

  it("needs three readings that differ", () => {
    expect(outlyingReading([1, 2])).toBeUndefined();
    expect(outlyingReading([2, 2, 2, 2])).toBeUndefined();
  });
});

describe("tools", () => {
  const depthMm = [24.53, 24.54, 24.55];
  const insertionMm = [21.98, 22, 22.02];

  it("have their zero subtracted, with its uncertainty in the budget", () => {
    const result = gapFromReadings({
      depthMm,
      insertionMm,
      depthTool: { zeroMm: 0.02, zeroUncertaintyMm: 0.005, resolutionMm: 0.01 },
      insertionTool: { zeroMm: -0.01, zeroUncertaintyMm: 0.003 },
      resolutionMm: 0.02,
    });
    expect(result.depthMm).toBeCloseTo(24.52, 9);
    expect(result.insertionMm).toBeCloseTo(22.01, 9);
    expect(result.gapMm).toBeCloseTo(2.51, 9);
    const expected = Math.hypot(
      0.01 / Math.sqrt(3),
      0.02 / Math.sqrt(3),
      0.01 / Math.sqrt(12),
      0.02 / Math.sqrt(12),
      0.005,
      0.003,
    );
    expect(result.standardUncertaintyMm).toBeCloseTo(expected, 12);
    expect(result.budget.map(({ component }) => componentName(component))).toEqual([
      "depth: repeat readings",
      "insertion: repeat readings",
      "depth: step of the tool",
      "depth: zero of the tool",
      "insertion: step of the tool",
      "insertion: zero of the tool",
    ]);
    expect(result.budget.reduce((sum, { varianceShare }) => sum + varianceShare!, 0)).toBeCloseTo(1, 12);
  });

  it("that are one tool leave no zero error in a difference (JCGM 100:2008, 5.2.4)", () => {
    const plain = gapFromReadings({ depthMm, insertionMm });
    const one = gapFromReadings({
      depthMm,
      insertionMm,
      depthTool: { zeroMm: 0.3, zeroUncertaintyMm: 0.1 },
      sameTool: true,
    });
    expect(one.gapMm).toBe(plain.gapMm);
    expect(one.standardUncertaintyMm).toBeCloseTo(plain.standardUncertaintyMm!, 12);
    expect(one.insertionMm).toBeCloseTo(21.7, 9);
    expect(inWords(one.advice)).toMatch(/drops out/);
    expect(() => gapFromReadings({ depthMm, insertionMm, insertionTool: {}, sameTool: true })).toThrow(
      /only the depth's tool/,
    );
  });

  it.each([
    [{ resolutionMm: -1 }, /resolution of the depth/],
    [{ zeroMm: Number.NaN }, /zero error of the depth/],
    [{ zeroUncertaintyMm: -0.1 }, /zero uncertainty of the depth/],
    [{ zeroMm: 30 }, /larger than its readings/],
  ])("refuse %j", (depthTool, words) => {
    expect(() => gapFromReadings({ depthMm, insertionMm, depthTool })).toThrow(words);
  });
});

describe("what a negative or a small gap may be", () => {
  it("contact, where the interval reaches 0", () => {
    const { advice } = gapFromReadings({ depthMm: [22, 22.3], insertionMm: [22.1, 22.4] });
    expect(inWords(advice)).toMatch(/may be touching the leadpipe/);
  });
  it("a mistake, where it does not", () => {
    const { advice } = gapFromReadings({
      depthMm: [20, 20.01, 20.02],
      insertionMm: [22, 22.01, 22.02],
    });
    expect(inWords(advice)).toMatch(/a reading is wrong/);
  });
  it("either, where the uncertainty is unknown", () => {
    expect(inWords(gapFromReadings({ depthMm: [20], insertionMm: [22] }).advice)).toMatch(/Either/);
  });
  it("perhaps no gap at all, where it is small", () => {
    const { advice } = gapFromReadings({ depthMm: [22, 22.3], insertionMm: [22, 22.1] });
    expect(inWords(advice)).toMatch(/cannot tell a gap from a shank that touches/);
  });
});
