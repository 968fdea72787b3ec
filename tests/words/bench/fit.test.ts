import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type FitOptions, fitOf } from "../../../src/bench/fit/fit.ts";
import type { FitDimensions } from "../../../src/bench/fit/fitDimensions.ts";
import { fitWords } from "../../../src/words/bench/fit.ts";
import { anyDimensions, anyNumber, anyUncertainties, notNumbers } from "../../bench/fit/anyFit.ts";

const usual: FitDimensions = {
  shankEndDiameterMm: 9.7,
  shankTaper: 0.05,
  mouthDiameterMm: 10.8,
  receiverTaper: 0.05,
  depthMm: 24.5,
};
const wordsOf = (dimensions: FitDimensions, options: FitOptions = {}) =>
  fitWords(fitOf(dimensions, options), "mm");

describe("a pair in sentences", () => {
  it("says which end touches, and where the crevice is open", () => {
    expect(wordsOf({ ...usual, shankTaper: 0.055 })[0]).toMatch(/face only.*open to the gap/);
    expect(wordsOf({ ...usual, shankTaper: 0.04 })[0]).toMatch(/end only.*open to the room/);
  });

  it.each<[Partial<FitDimensions>, RegExp]>([
    [{ shankEndDiameterMm: 11 }, /0\.200 mm larger than the receiver at its face/],
    [{ shankEndDiameterMm: 10.8 }, /as large as/],
    [{ shankEndDiameterMm: 9 }, /falls through.*0\.575 mm/],
    [{ depthMm: 10 }, /falls through/],
    [{ depthMm: 22 }, /just as it seats/],
    [{ shankTaper: 0, receiverTaper: 0 }, /Neither part has a taper/],
    [{ receiverTaper: 0.5 }, /taper to a diameter of/],
    [{ shankTaper: -0.05 }, /shank taper is -0\.05/],
    [{ depthMm: 0 }, /receiver depth is 0 mm/],
    [{ mouthDiameterMm: Number.NaN }, /receiver mouth diameter is not a number/],
    [{ shankEndDiameterMm: -3 }, /shank end diameter is -3 mm/],
  ])("%j", (change, words) => {
    expect(wordsOf({ ...usual, ...change }).join(" ")).toMatch(words);
  });

  it("names what has no uncertainty", () => {
    expect(wordsOf(usual, { uncertainties: { depthMm: 0.02, shankTaper: 0.0002 } }).join(" ")).toMatch(
      /exact: shank end diameter, receiver mouth diameter, receiver taper\..*which end touches/,
    );
    expect(wordsOf(usual).join(" ")).toMatch(/that of the gap is unknown/);
  });

  it("never shows a number that is none", () =>
    fc.assert(
      fc.property(anyDimensions, anyUncertainties, anyNumber, (dimensions, uncertainties, clearanceMm) => {
        for (const d of [dimensions, { ...usual, ...dimensions, shankTaper: 0.05 }, usual])
          expect(notNumbers(wordsOf(d, { uncertainties, clearanceMm }))).toEqual([]);
      }),
    ));
});
