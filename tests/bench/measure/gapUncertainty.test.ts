import { describe, expect, it } from "vitest";
import { coverageFactor } from "../../../src/bench/measure/coverage.ts";
import { gapUncertainty } from "../../../src/bench/measure/gapUncertainty.ts";
import { readSetup } from "../../../src/setup/file/readSetup.ts";
import { unknownGapWords } from "../../../src/words/bench/gapUncertainty.ts";
import { exampleFile } from "../../setup/example.ts";

const withUncertainties = (uncertainties: object) =>
  gapUncertainty(readSetup({ ...exampleFile(), uncertainties }), coverageFactor);

describe("how well a setup knows its gap", () => {
  it("is depth and insertion in quadrature, with the factor of a table of Student's t", () => {
    const u = withUncertainties({
      "receiver.depth": { standard: 0.03, degreesOfFreedom: 4 },
      "mouthpiece.insertion": { standard: 0.04, degreesOfFreedom: 4 },
    });
    expect(u.standardMm).toBeCloseTo(0.05, 12);
    // u⁴ / (a⁴/4 + b⁴/4) by hand: 625 / (81/4 + 256/4)
    expect(u.degreesOfFreedom).toBeCloseTo(7.418, 3);
    // between the tabled 2.365 for 7 and 2.306 for 8 (JCGM 100:2008, table G.2)
    expect(u.coverageFactor!).toBeLessThan(2.365);
    expect(u.coverageFactor!).toBeGreaterThan(2.306);
    expect(u.expandedMm).toBeCloseTo(u.coverageFactor! * 0.05, 12);
    expect(u.missing).toEqual([]);
  });

  it("has the normal factor where neither is itself in doubt", () => {
    const u = withUncertainties({ "receiver.depth": 0.02, "mouthpiece.insertion": "0.03 mm" });
    expect(u.degreesOfFreedom).toBe(Number.POSITIVE_INFINITY);
    expect(u.coverageFactor).toBeCloseTo(1.96, 3);
  });

  it.each([
    [{}, /how well receiver depth and insertion are known/],
    [{ "receiver.mouthDiameter": 0.02 }, /how well receiver depth and insertion are known/],
    [{ "receiver.depth": 0.02 }, /how well the insertion is known/],
    [{ "mouthpiece.insertion": 0.02 }, /how well the receiver depth is known/],
    [{ "receiver.depth": 0, "mouthpiece.insertion": 0 }, /no measurement can claim/],
  ])("is unknown, in words, with %j", (uncertainties, words) => {
    const u = withUncertainties(uncertainties);
    expect(unknownGapWords(u)).toMatch(words);
    expect(u).toMatchObject({ standardMm: undefined, coverageFactor: undefined, expandedMm: undefined });
  });
});
