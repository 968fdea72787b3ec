import { describe, expect, it } from "vitest";
import { mostGapMm, referenceGapMm } from "../../notebooks/paper/demo.ts";
import { contractionSeries, diffuserSeries, frictionSeries } from "../../notebooks/resistance/handbook.ts";
import {
  edgeInWords,
  overChamfers,
  overGaps,
  shankExitMm,
  withChamfer,
  withEntry,
} from "../../notebooks/resistance/stream.ts";
import { changesPercent, thresholdsAt } from "../../notebooks/resistance/threshold.ts";
import { resistance } from "../../src/study/blown/resistance.ts";
import { demo } from "../acoustics/setups.ts";
import { numbers } from "../reference/table.ts";

describe("what is drawn beside the handbook", () => {
  it("are the table's rows, each with what is computed for it, as near as the flow's own tests ask", () => {
    const drawn = frictionSeries.flatMap(({ rows }) => rows);
    const printed = numbers("flow-friction.csv").map(([reynolds, , factor]) => `${reynolds} ${factor}`);
    expect(drawn.length).toBeGreaterThan(30);
    for (const row of drawn) {
      expect(printed).toContain(`${row.at} ${row.printed}`);
      expect(Math.abs(row.ours / row.printed - 1)).toBeLessThan(1e-4);
    }
    const sudden = numbers("flow-contraction.csv").filter(([angle, ratio]) => angle === 180 && ratio < 1);
    expect(contractionSeries.rows.map(({ at, printed }) => [at, printed])).toEqual(
      sudden.map(([, ratio, K]) => [ratio, K]),
    );
    expect(contractionSeries.rows.length).toBeGreaterThan(0);
    for (const { ours, printed } of contractionSeries.rows)
      expect(Math.abs(ours / printed - 1)).toBeLessThan(0.01);
  });

  it("has diffusers within two digits up to 30° and within a sixth above, none mistaken for another", () => {
    const table = numbers("flow-diffuser.csv");
    for (const [i, ratio] of [0, 0.25, 0.5].entries()) {
      const of = table.filter(([, r]) => r === ratio);
      expect(diffuserSeries[i].rows.map(({ at, printed }) => [at, printed])).toEqual(
        of.map(([angle, , K]) => [angle, K]),
      );
      expect(diffuserSeries[i].rows.length).toBeGreaterThan(0);
      for (const { at, printed, ours } of diffuserSeries[i].rows)
        expect(Math.abs(ours - printed)).toBeLessThan(
          at <= 30 ? 0.012 + 0.055 * printed : 0.01 + 0.14 * printed,
        );
    }
  });
});

describe("the stream through the demo", () => {
  it("is the study's, its figures in order, one at gap 0, and every gap within the whole's own", () => {
    const sweep = overGaps(demo(), 20);
    expect(sweep[0].gapMm).toBe(0);
    expect(sweep[sweep.length - 1].gapMm).toBe(mostGapMm);
    expect(sweep[0].gap.dropPa.upper).toBe(sweep[0].gap.dropPa.lower);
    expect(sweep.length).toBeGreaterThan(0);
    for (const { gapMm, gap, dropPa } of sweep) {
      expect(gap.dropPa.lower).toBeLessThanOrEqual(gap.dropPa.estimate);
      expect(gap.dropPa.estimate).toBeLessThanOrEqual(gap.dropPa.upper);
      expect(dropPa).toEqual(resistance(demo(), { gapMm, litresPerMinute: 20 }).dropPa);
    }
  });

  it("meets an edge where the leadpipe's entry is narrower than the shank's bore", () => {
    expect(edgeInWords(shankExitMm)).toMatch(/flush/);
    expect(edgeInWords(shankExitMm - 0.2)).toBe("edge 0.10 mm in the stream");
    expect(edgeInWords(shankExitMm + 0.2)).toBe("edge 0.10 mm outside the stream");
    const at = (mm: number) => resistance(withEntry(mm), { gapMm: 4, litresPerMinute: 20 }).gap;
    expect(at(shankExitMm - 0.2).edge).toBe("faces the air flow");
    expect(at(shankExitMm - 0.2).dropPa.estimate).toBeGreaterThan(at(shankExitMm + 0.2).dropPa.estimate);
  });

  it("loses less with every chamfer, and the demo's own wall is one of them", () => {
    const drops = overChamfers(referenceGapMm, 20);
    expect(drops.length).toBeGreaterThan(0);
    for (const [i, [, drop]] of drops.slice(1).entries()) expect(drop).toBeLessThan(drops[i][1] + 1e-6);
    const own = resistance(demo(), { gapMm: referenceGapMm, litresPerMinute: 20 }).dropPa.estimate;
    const chamfered = resistance(withChamfer(0.3), { gapMm: referenceGapMm, litresPerMinute: 20 });
    expect(chamfered.dropPa.estimate).toBeCloseTo(own, 4);
    expect(drops[0][1]).toBeGreaterThan(own);
    // the whole way from rim to throat stays as long
    const last = ({ mouthpiece }: { mouthpiece: { profileMm: readonly (readonly [number, number])[] } }) =>
      mouthpiece.profileMm[mouthpiece.profileMm.length - 1];
    expect(last(withChamfer(2))).toEqual(last(demo()));
  });
});

describe("thresholds as the other meaning", () => {
  it("lie far above what the bore takes of them, and go both ways with the gap", () => {
    const [from, to] = [thresholdsAt(referenceGapMm), thresholdsAt(5)];
    expect(from.map(({ n }) => n)).toEqual([2, 3, 4, 5, 6, 7, 8, 9, 10]);
    expect(from.length).toBeGreaterThan(0);
    for (const { mouthPa, borePa, litresPerMinute } of from) {
      expect(borePa).toBeLessThan(0.2 * mouthPa);
      expect(litresPerMinute).toBeGreaterThan(5);
      expect(litresPerMinute).toBeLessThan(60);
    }
    const changes = changesPercent(from, to).map(({ percent }) => percent);
    expect(Math.min(...changes)).toBeLessThan(0);
    expect(Math.max(...changes)).toBeGreaterThan(0);
    expect(Math.max(...changes.map(Math.abs))).toBeLessThan(2);
  });
});
