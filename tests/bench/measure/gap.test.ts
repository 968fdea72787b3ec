import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { effectiveDegreesOfFreedom } from "../../../src/bench/measure/combinedUncertainty.ts";
import { coverageFactor } from "../../../src/bench/measure/coverage.ts";
import { gapFromReadings } from "../../../src/bench/measure/gap.ts";
import { ReadingError, summariseReadings } from "../../../src/bench/measure/readings.ts";
import { adviceWords } from "../../../src/words/bench/gapAdvice.ts";

describe("readings, against JCGM 100:2008", () => {
  // Table H.2: five simultaneous readings of voltage (V), current (mA) and phase (rad); means and standard
  // uncertainties of the means as printed there.
  it.each([
    ["V", [5.007, 4.994, 5.005, 4.99, 4.999], 4.999, 0.0032, 4],
    ["I", [19.663, 19.639, 19.64, 19.685, 19.678], 19.661, 0.0095, 4],
    ["φ", [1.0456, 1.0438, 1.0468, 1.0428, 1.0433], 1.04446, 0.00075, 5],
  ])("example H.2, %s", (_, readings, mean, uncertainty, digits) => {
    const summary = summariseReadings(readings, "depth");
    expect(summary.meanMm).toBeCloseTo(mean, 10);
    expect(summary.standardUncertaintyMm).toBeCloseTo(uncertainty, digits);
  });

  it("table 1 and 4.4.3: twenty temperatures", () => {
    const readings = [
      96.9, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07, 100.33, 100.42, 100.68, 100.95,
      101.11, 101.2, 101.57, 101.84, 102.36, 102.72,
    ];
    const summary = summariseReadings(readings, "depth");
    expect(summary.meanMm).toBeCloseTo(100.145, 3);
    expect(summary.standardDeviationMm).toBeCloseTo(1.489, 3);
    expect(summary.standardUncertaintyMm).toBeCloseTo(0.333, 3);
  });

  it("example of G.4.1: relative uncertainties 0.25, 0.57 and 0.82 % from 10, 5 and 15 readings", () => {
    const components = [
      { standardUncertainty: 0.25, degreesOfFreedom: 9 },
      { standardUncertainty: 0.57, degreesOfFreedom: 4 },
      { standardUncertainty: 0.82, degreesOfFreedom: 14 },
    ];
    expect(effectiveDegreesOfFreedom(components)).toBeCloseTo(19.0, 1);
    expect(coverageFactor(19)).toBeCloseTo(2.09, 2);
  });

  // Table G.2, columns 95 and 99 %.
  it.each([
    [1, 12.71, 63.66],
    [2, 4.3, 9.92],
    [4, 2.78, 4.6],
    [16, 2.12, 2.92],
    [50, 2.01, 2.68],
    [Number.POSITIVE_INFINITY, 1.96, 2.576],
  ])("table G.2, ν = %d", (degreesOfFreedom, t95, t99) => {
    expect(coverageFactor(degreesOfFreedom)).toBeCloseTo(t95, 2);
    expect(coverageFactor(degreesOfFreedom, 0.99)).toBeCloseTo(t99, 2);
  });
});

describe("gapFromReadings", () => {
  it("subtracts means and combines their uncertainties", () => {
    const result = gapFromReadings({ depthMm: [24.53, 24.54, 24.55], insertionMm: [21.98, 22, 22.02] });
    expect(result.gapMm).toBeCloseTo(2.54, 12);
    const u = Math.hypot(0.01, 0.02) / Math.sqrt(3);
    expect(result.standardUncertaintyMm).toBeCloseTo(u, 12);
    // Two components of 2 degrees of freedom, one twice the other: (1 + 4)² / (1/2 + 16/2).
    expect(result.degreesOfFreedom).toBeCloseTo(25 / 8.5, 10);
    const [low, high] = result.intervalMm!;
    // For 97.5 % and 25/8.5 degrees of freedom, by scipy.stats.t.ppf.
    const t = 3.218758614532882;
    expect(result.coverageFactor).toBeCloseTo(t, 8);
    expect(low).toBeCloseTo(2.54 - t * u, 8);
    expect(high).toBeCloseTo(2.54 + t * u, 8);
    expect(result).toMatchObject({ isNegative: false, advice: [], confidence: 0.95 });
  });

  it("counts the tool's resolution for both lengths", () => {
    const result = gapFromReadings({ depthMm: [24.5, 24.5], insertionMm: [22, 22], resolutionMm: 0.1 });
    expect(result.standardUncertaintyMm).toBeCloseTo((0.1 * Math.SQRT2) / Math.sqrt(12), 12);
    expect(result.degreesOfFreedom).toBe(Number.POSITIVE_INFINITY);
    expect(result.coverageFactor).toBeCloseTo(1.96, 3);
  });

  it.each([
    [[24.54], [22], "repeat the depth and the insertion reading"],
    [[24.54], [22, 22.1], "repeat the depth reading"],
    [[24.5, 24.6], [22], "repeat the insertion reading"],
  ])("does not know the uncertainty of %j and %j", (depthMm, insertionMm, words) => {
    const result = gapFromReadings({ depthMm, insertionMm, resolutionMm: 0.01 });
    expect(result.standardUncertaintyMm).toBeUndefined();
    expect(result.intervalMm).toBeUndefined();
    expect(result.advice).toHaveLength(1);
    expect(adviceWords(result.advice[0], "mm")).toContain(words);
  });

  it("does not take agreement for certainty", () => {
    const result = gapFromReadings({ depthMm: [24.5, 24.5], insertionMm: [22, 22] });
    expect(result.standardUncertaintyMm).toBeUndefined();
    expect(adviceWords(result.advice[0], "mm")).toContain("smallest step");
  });

  it("names the readings to repeat when the gap comes out negative", () => {
    const result = gapFromReadings({ depthMm: [24.54, 24.55], insertionMm: [24.5, 26.1, 24.6] });
    expect(result.isNegative).toBe(true);
    expect(adviceWords(result.advice[0], "mm")).toBe(
      "The gap comes out at -0.52 mm, which cannot be: repeat the depth readings and the insertion readings (first number 2, 26.10 mm).",
    );
  });

  it.each([
    [[], [22], /no depth reading/],
    [[24], [], /no insertion reading/],
    [[24, Number.NaN], [22], /depth reading 2 is not a length/],
    [[24], [-1], /insertion reading 1 is not a length/],
    [[Number.POSITIVE_INFINITY], [22], /depth reading 1/],
  ])("refuses %j and %j", (depthMm, insertionMm, words) => {
    expect(() => gapFromReadings({ depthMm, insertionMm })).toThrow(ReadingError);
    expect(() => gapFromReadings({ depthMm, insertionMm })).toThrow(words);
  });

  it("gives numbers or nothing for any readings, with the gap inside its interval", () => {
    const readings = fc.array(fc.double({ min: 0, max: 1000, noNaN: true }), { minLength: 1, maxLength: 8 });
    fc.assert(
      fc.property(
        readings,
        readings,
        fc.double({ min: 0, max: 1, noNaN: true }),
        (depthMm, insertionMm, resolutionMm) => {
          const result = gapFromReadings({ depthMm, insertionMm, resolutionMm });
          expect(Number.isFinite(result.gapMm)).toBe(true);
          expect(result.isNegative).toBe(result.gapMm < 0);
          if (result.intervalMm === undefined) expect(result.advice.length).toBeGreaterThan(0);
          else {
            expect(result.standardUncertaintyMm).toBeGreaterThan(0);
            expect(result.coverageFactor).toBeGreaterThan(1.9);
            expect(result.intervalMm[0]).toBeLessThanOrEqual(result.gapMm);
            expect(result.intervalMm[1]).toBeGreaterThanOrEqual(result.gapMm);
          }
        },
      ),
    );
  });
});
