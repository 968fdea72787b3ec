import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fitOf } from "../../../src/bench/fit/fit.ts";
import type { FitDimension, FitDimensions } from "../../../src/bench/fit/fitDimensions.ts";
import { fitUncertainty, gapSensitivities } from "../../../src/bench/fit/fitUncertainty.ts";
import { seat } from "../../../src/bench/fit/seat.ts";
import { parseTaper } from "../../../src/bench/fit/taper.ts";
import {
  anyDimensions,
  anyNumber,
  anyUncertainties,
  normalNumbers,
  notNumbers,
  seatedDimensions,
} from "./anyFit.ts";

const usual: FitDimensions = {
  shankEndDiameterMm: 9.7,
  shankTaper: 0.05,
  mouthDiameterMm: 10.8,
  receiverTaper: 0.05,
  depthMm: 24.5,
};

/** The smallest clearance between shank and receiver, on a fine grid and at both ends. */
function tightestMm(d: FitDimensions, insertionMm: number): number {
  const clearances = Array.from({ length: 101 }, (_, k) => {
    const x = (insertionMm * k) / 100;
    return (
      d.mouthDiameterMm - d.receiverTaper * x - (d.shankEndDiameterMm + d.shankTaper * (insertionMm - x))
    );
  });
  return Math.min(...clearances);
}

describe("where a shank seats", () => {
  it("in a Morse taper No. 1 (ISO 296: 1:20.047; 12.065 mm to 9.373 mm in 53.975 mm, from memory)", () => {
    const taper = parseTaper("1:20.047");
    const { insertionMm, gapMm, contact } = fitOf({
      shankEndDiameterMm: 9.373,
      shankTaper: taper,
      mouthDiameterMm: 12.065,
      receiverTaper: taper,
      depthMm: 60,
    });
    expect(insertionMm).toBeCloseTo(53.975, 1);
    expect(gapMm).toBeCloseTo(60 - 53.975, 1);
    expect(contact).toMatchObject({ touches: "length", freeClearanceMm: 0, rockingDegrees: 0 });
  });

  it("0.020 in further in for 0.001 in off the diameter (common practice, no source)", () => {
    const taper = 1 / 20.047;
    const { insertionPerDiameter } = fitOf({ ...usual, shankTaper: taper, receiverTaper: taper });
    expect(0.001 * insertionPerDiameter!).toBeCloseTo(0.02, 4);
    const deeper = fitOf({ ...usual, shankEndDiameterMm: 9.7 - 0.0254 }).insertionMm!;
    expect((deeper - 22) / 25.4).toBeCloseTo(0.02, 9);
  });

  it("touching at the mouth when its taper is the larger, at its end when it is the smaller", () => {
    const atMouth = fitOf({ ...usual, shankTaper: 0.055 });
    expect(atMouth.contact).toMatchObject({ touches: "mouth" });
    expect(atMouth.insertionMm).toBeCloseTo(20, 9);
    expect(atMouth.contact!.freeClearanceMm).toBeCloseTo(0.1, 9);
    expect(atMouth.contact!.contactLengthMm).toBeCloseTo(2, 9);
    expect(atMouth.contact!.rockingDegrees).toBeCloseTo((0.0025 * 180) / Math.PI, 9);
    const atEnd = fitOf({ ...usual, shankTaper: 0.04 });
    expect(atEnd.contact).toMatchObject({ touches: "end" });
    expect(atEnd.insertionMm).toBeCloseTo(22, 9);
  });

  it("nowhere inside the wall, and no further in without it", () =>
    fc.assert(
      fc.property(seatedDimensions, ({ dimensions }) => {
        const seated = seat(dimensions);
        expect(tightestMm(dimensions, seated.kind === "seated" ? seated.insertionMm : 0)).toBeGreaterThan(
          -1e-9,
        );
        if (seated.kind === "seated") {
          expect(tightestMm(dimensions, seated.insertionMm)).toBeLessThan(1e-9);
          expect(tightestMm(dimensions, seated.insertionMm + 0.01)).toBeLessThan(-1e-5);
        }
      }),
    ));

  it("with gap + insertion = depth, and as far in as it was made", () =>
    fc.assert(
      fc.property(seatedDimensions, ({ dimensions, insertionMm, gapMm }) => {
        const result = fitOf(dimensions);
        if (result.outcome === "impossible") return;
        expect(result.outcome).toBe("seated");
        expect(result.insertionMm).toBeCloseTo(insertionMm, 8);
        expect(result.gapMm).toBeCloseTo(gapMm, 8);
        expect(result.gapMm! + result.insertionMm!).toBeCloseTo(dimensions.depthMm, 10);
        expect(result.contact!.contactLengthMm).toBeLessThanOrEqual(result.insertionMm! + 1e-9);
      }),
    ));
});

describe("what cannot be, or does not seat", () => {
  it.each<[Partial<FitDimensions>, string, string]>([
    [{ shankEndDiameterMm: 11 }, "not-entering", "too-large"],
    [{ shankEndDiameterMm: 10.8 }, "not-entering", "too-large"],
    [{ shankEndDiameterMm: 9 }, "on-leadpipe", "falls-through"],
    [{ depthMm: 10 }, "on-leadpipe", "falls-through"],
    [{ depthMm: 22 }, "on-leadpipe", "just-seats"],
    [{ shankTaper: 0, receiverTaper: 0 }, "on-leadpipe", "untapered"],
    [{ receiverTaper: 0.5 }, "impossible", "impossible"],
    [{ shankTaper: -0.05 }, "impossible", "impossible"],
    [{ depthMm: 0 }, "impossible", "impossible"],
    [{ mouthDiameterMm: Number.NaN }, "impossible", "impossible"],
    [{ shankEndDiameterMm: -3 }, "impossible", "impossible"],
  ])("%j: %s", (change, outcome, kind) => {
    const result = fitOf({ ...usual, ...change });
    expect(result.outcome).toBe(outcome);
    expect(result.findings.map((finding) => finding.kind)).toEqual([kind]);
    expect(result.gapMm).toBe(outcome === "on-leadpipe" ? 0 : undefined);
  });

  it("one part may be a cylinder", () => {
    expect(fitOf({ ...usual, shankTaper: 0 }).contact?.touches).toBe("end");
    expect(fitOf({ ...usual, receiverTaper: 0 }).contact?.touches).toBe("mouth");
  });

  it("never gives a number that is none", () =>
    fc.assert(
      fc.property(anyDimensions, anyUncertainties, anyNumber, (dimensions, uncertainties, clearanceMm) => {
        for (const d of [dimensions, { ...usual, ...dimensions, shankTaper: 0.05 }, usual]) {
          const result = fitOf(d, { uncertainties, clearanceMm });
          expect(notNumbers(result)).toEqual([]);
          expect(result.findings.length).toBeGreaterThan(0);
        }
      }),
    ));
});

describe("the uncertainty of a foreseen gap", () => {
  const uncertainties = {
    shankEndDiameterMm: 0.004,
    shankTaper: 0.0002,
    mouthDiameterMm: 0.005,
    receiverTaper: 0.0003,
    depthMm: 0.02,
  };

  it("has derivatives as differences have them", () =>
    fc.assert(
      fc.property(seatedDimensions, ({ dimensions }) => {
        fc.pre(Math.abs(dimensions.shankTaper - dimensions.receiverTaper) > 1e-3);
        const gapMm = (d: FitDimensions) => {
          const seated = seat(d);
          return d.depthMm - (seated.kind === "seated" ? seated.insertionMm : Number.NaN);
        };
        const slopes = Object.entries(gapSensitivities(dimensions));
        expect(slopes).toHaveLength(Object.keys(dimensions).length);
        for (const [dimension, slope] of slopes) {
          const h = 1e-7;
          const at = (step: number) =>
            gapMm({ ...dimensions, [dimension]: dimensions[dimension as FitDimension] + step });
          expect((at(h) - at(-h)) / (2 * h)).toBeCloseTo(slope, 1);
        }
      }),
    ));

  /** Monte Carlo (JCGM 101:2008): root mean square distance from the gap of the estimates. */
  function monteCarloMm(d: FitDimensions, trials = 100_000): number {
    const normal = normalNumbers(4);
    const centre =
      d.depthMm - (d.mouthDiameterMm - d.shankEndDiameterMm) / Math.max(d.shankTaper, d.receiverTaper);
    let squares = 0;
    for (let k = 0; k < trials; k++) {
      const draw = (dimension: FitDimension) => d[dimension] + uncertainties[dimension] * normal();
      const t = Math.max(draw("shankTaper"), draw("receiverTaper"));
      const gapMm = draw("depthMm") - (draw("mouthDiameterMm") - draw("shankEndDiameterMm")) / t;
      squares += (gapMm - centre) ** 2;
    }
    return Math.sqrt(squares / trials);
  }

  it.each([
    ["at the mouth", 0.053, 0.05],
    ["at its end", 0.05, 0.053],
    ["equal", 0.05, 0.05],
  ])("agrees with Monte Carlo: %s", (_, shankTaper, receiverTaper) => {
    const d = { ...usual, shankTaper, receiverTaper };
    // 100 000 trials: 0.2 % of a standard deviation, and the second order is about as large
    expect(fitUncertainty(d, uncertainties)!.standardUncertaintyMm / monteCarloMm(d)).toBeCloseTo(1, 1.7);
  });

  it("is on the safe side where it is not known which end touches", () => {
    for (const difference of [-0.0007, -0.0004, -0.0002, -0.00005, 0.00005, 0.0002, 0.0004, 0.0007]) {
      const d = { ...usual, shankTaper: 0.05 + difference };
      const { standardUncertaintyMm, isTouchKnown } = fitUncertainty(d, uncertainties)!;
      expect(isTouchKnown).toBe(false);
      expect(standardUncertaintyMm).toBeGreaterThan(0.97 * monteCarloMm(d, 40_000));
    }
  });

  it("shares sum to 1; what has no uncertainty is named", () => {
    const result = fitOf(usual, { uncertainties: { depthMm: 0.02, shankTaper: 0.0002 } });
    expect(result.budget.reduce((sum, { varianceShare }) => sum + varianceShare, 0)).toBeCloseTo(1, 12);
    expect(result.findings.slice(1)).toEqual([
      { kind: "taken-as-exact", dimensions: ["shankEndDiameterMm", "mouthDiameterMm", "receiverTaper"] },
      { kind: "touch-unknown" },
    ]);
    expect(fitOf(usual).findings[1]).toEqual({ kind: "unknown-uncertainty" });
  });
});

describe("tapers as they are written", () => {
  it.each([
    ["0.05", 0.05],
    ["0,05", 0.05],
    [".05", 0.05],
    ["1:20", 0.05],
    ["1 : 20.047", 1 / 20.047],
    ["1/20", 0.05],
    ["5 %", 0.05],
    ["0.6 in/ft", 0.05],
    ["0.6 per foot", 0.05],
  ])("%s", (text, taper) => {
    expect(parseTaper(text)).toBeCloseTo(taper, 12);
  });
  it.each(["", "steep", "1:0", "-0.05", "1:20:3", "0.05 mm"])("refuses %j", (text) => {
    expect(() => parseTaper(text)).toThrow(/is not a taper; give/);
  });
});
