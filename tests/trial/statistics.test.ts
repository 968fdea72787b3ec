/** Against SciPy and NumPy (`trial/analysis.py`), and worked examples in print. */
import { randomLcg } from "d3";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fProbability, fQuantile } from "../../src/statistics/distributions.ts";
import { friedman } from "../../src/trial/friedman.ts";
import { holm } from "../../src/trial/holm.ts";
import { permutationTest } from "../../src/trial/permutation.ts";
import { preferenceCurve } from "../../src/trial/preference.ts";
import { repeatability } from "../../src/trial/repeatability.ts";
import { AGREEMENT } from "../../src/words/trial/agreement.ts";
import { json } from "../reference/table.ts";

interface Outside {
  blocks: number[][];
  gapsMm: number[];
  chiSquare: number;
  p: number;
  exactP: number | null;
  repeatability: Agreement;
  parabola: { vertexMm: number; opensDown: boolean; atEnds: [number, number]; misfitP: number | null };
}
interface Agreement {
  standardDeviation: number;
  correlation: number;
  interval: [number, number];
  pNormal: number;
}
const outside: {
  sets: Outside[];
  fDistribution: [number, number, number, number, number][];
  shroutFleiss: Agreement;
} = json("trial/analysis.json");

/** Hollander & Wolfe, Nonparametric Statistical Methods (1973), p. 140: 22 players round first base in three ways. */
const ROUNDING_FIRST_BASE = [
  [5.4, 5.5, 5.55],
  [5.85, 5.7, 5.75],
  [5.2, 5.6, 5.5],
  [5.55, 5.5, 5.4],
  [5.9, 5.85, 5.7],
  [5.45, 5.55, 5.6],
  [5.4, 5.4, 5.35],
  [5.45, 5.5, 5.35],
  [5.25, 5.15, 5],
  [5.85, 5.8, 5.7],
  [5.25, 5.2, 5.1],
  [5.65, 5.55, 5.45],
  [5.6, 5.35, 5.45],
  [5.05, 5, 4.95],
  [5.5, 5.5, 5.4],
  [5.45, 5.55, 5.5],
  [5.55, 5.55, 5.35],
  [5.45, 5.5, 5.55],
  [5.5, 5.45, 5.25],
  [5.65, 5.6, 5.4],
  [5.7, 5.65, 5.55],
  [6.3, 6.3, 6.25],
];
/** Shrout & Fleiss 1979, table 2: six targets by four judges; here a row a judge. */
const SHROUT_FLEISS = [
  [9, 6, 8, 7, 10, 6],
  [2, 1, 4, 1, 5, 2],
  [5, 3, 6, 2, 6, 4],
  [8, 2, 8, 6, 9, 7],
];

describe("Friedman's test", () => {
  test("rounding first base: χ² = 11.143, 2 degrees of freedom, p = 0.003805 as printed", () => {
    const { chiSquare, degreesOfFreedom, p, concordance } = friedman(ROUNDING_FIRST_BASE);
    expect(chiSquare.toFixed(3)).toBe("11.143");
    expect(degreesOfFreedom).toBe(2);
    expect(p.toFixed(6)).toBe("0.003805");
    expect(concordance).toBeCloseTo(11.143 / 44, 4);
  });

  test("is SciPy's, with and without ties", () => {
    expect(outside.sets).toHaveLength(8);
    for (const { blocks, chiSquare, p } of outside.sets) {
      expect(friedman(blocks).chiSquare).toBeCloseTo(chiSquare, 10);
      expect(friedman(blocks).p).toBeCloseTo(p, 10);
    }
  });

  test("where all is tied nothing differs; where all repeats rank alike W is 1", () => {
    const tied = friedman([
      [3, 3, 3],
      [5, 5, 5],
    ]);
    expect(tied).toMatchObject({ chiSquare: 0, p: 1, concordance: 0 });
    const alike = friedman([
      [1, 2, 3],
      [10, 20, 90],
    ]);
    expect(alike.concordance).toBeCloseTo(1, 12);
  });
});

describe("the permutation test", () => {
  test("counts as many orders as Python's itertools", () => {
    expect(outside.sets).toHaveLength(8);
    for (const { blocks, exactP } of outside.sets) {
      if (exactP === null) continue;
      const test = permutationTest(blocks);
      expect(test.isExact).toBe(true);
      expect(test.p).toBeCloseTo(exactP, 12);
    }
  });

  test("drawn, agrees with the exact one within its stated error, and the same seed draws the same", () => {
    const { blocks, exactP } = outside.sets[5];
    const drawn = permutationTest(blocks, { mostExact: 0, random: randomLcg(8) });
    expect(drawn).toMatchObject({ isExact: false, orders: 20_000 });
    expect(Math.abs(drawn.p - exactP!)).toBeLessThan(4 * drawn.standardError);
    expect(permutationTest(blocks, { mostExact: 0, random: randomLcg(8) })).toEqual(drawn);
  });

  test("a drift from repeat to repeat and the items' order change nothing; p is never 0", () => {
    const rating = fc.integer({ min: 0, max: 100 });
    const block = fc.tuple(rating, rating, rating, rating);
    fc.assert(
      fc.property(fc.tuple(block, block, block), rating, (blocks, drift) => {
        const { p } = permutationTest(blocks);
        expect(p).toBeGreaterThanOrEqual(1 / 576);
        expect(p).toBeLessThanOrEqual(1);
        const drifted = blocks.map((row, i) => [...row].reverse().map((one) => one + i * drift));
        expect(permutationTest(drifted).p).toBeCloseTo(p, 12);
      }),
      { numRuns: 60 },
    );
  });
});

describe("agreement with oneself", () => {
  test("Shrout & Fleiss: ICC(3,1) = 0.71 as printed", () => {
    const { correlation, interval } = repeatability(SHROUT_FLEISS);
    expect(correlation!.toFixed(2)).toBe("0.71");
    expect(interval![0]).toBeCloseTo(outside.shroutFleiss.interval[0], 8);
    expect(interval![1]).toBeCloseTo(outside.shroutFleiss.interval[1], 8);
  });

  test("is SciPy's for every set", () => {
    expect(outside.sets).toHaveLength(8);
    for (const { blocks, repeatability: known } of outside.sets) {
      const own = repeatability(blocks);
      expect(own.standardDeviation).toBeCloseTo(known.standardDeviation, 10);
      expect(own.correlation).toBeCloseTo(known.correlation, 10);
      expect(own.interval![0]).toBeCloseTo(known.interval[0], 8);
      expect(own.interval![1]).toBeCloseTo(known.interval[1], 8);
      expect(own.pNormal).toBeCloseTo(known.pNormal, 10);
    }
  });

  test("without any scatter, and without any difference, it is said without dividing by 0", () => {
    const same = repeatability([
      [1, 2, 3],
      [11, 12, 13],
    ]);
    expect(same).toMatchObject({ standardDeviation: 0, interval: [1, 1], pNormal: null });
    const flat = repeatability([
      [5, 5, 5],
      [5, 5, 5],
    ]);
    expect(flat).toMatchObject({
      correlation: null,
      interval: null,
      agreement: "all-alike",
    });
    expect(AGREEMENT[flat.agreement]).toBe("Every turn got the same rating.");
  });
});

test("F: quantiles and probabilities are SciPy's", () => {
  expect(outside.fDistribution).toHaveLength(28);
  for (const [probability, d1, d2, quantile, below] of outside.fDistribution) {
    expect(fQuantile(probability, d1, d2) / quantile).toBeCloseTo(1, 8);
    expect(fProbability(1.7, d1, d2)).toBeCloseTo(below, 10);
  }
});

test("Holm: p = 0.01, 0.04, 0.03, 0.005 become 0.03, 0.06, 0.06, 0.02 by hand", () => {
  expect(holm([0.01, 0.04, 0.03, 0.005]).map((p) => Number(p.toFixed(10)))).toEqual([0.03, 0.06, 0.06, 0.02]);
});

test("the parabola is that of NumPy's least squares with an effect of each repeat", () => {
  expect(outside.sets).toHaveLength(8);
  for (const { gapsMm, blocks, parabola } of outside.sets) {
    const curve = preferenceCurve(gapsMm, blocks);
    const [least, most] = [gapsMm[0], gapsMm[gapsMm.length - 1]];
    expect(curve.points[0].rating).toBeCloseTo(parabola.atEnds[0], 8);
    expect(curve.points[40].rating).toBeCloseTo(parabola.atEnds[1], 8);
    const isBetween = parabola.vertexMm > least && parabola.vertexMm < most;
    expect(curve.shape).toBe(isBetween ? (parabola.opensDown ? "peak" : "valley") : "end");
    if (curve.shape === "peak") expect(curve.bestGapMm).toBeCloseTo(parabola.vertexMm, 8);
    else expect([least, most]).toContainEqual(expect.closeTo(curve.bestGapMm, 9));
    if (parabola.misfitP === null) expect(curve.misfitP).toBeNull();
    else expect(curve.misfitP).toBeCloseTo(parabola.misfitP, 8);
  }
});
