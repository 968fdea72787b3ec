import { describe, expect, it } from "vitest";
import { mostGapMm, referenceGapMm } from "../../notebooks/paper/demo.ts";
import { throatWiderBy, withWiderThroat } from "../../notebooks/resistance/bench.ts";
import { spanOf } from "../../notebooks/resistance/drawings.ts";
import { contractionSeries, diffuserSeries, frictionSeries } from "../../notebooks/resistance/handbook.ts";
import { addedByElements, addedByGap } from "../../notebooks/resistance/laminarGap.ts";
import {
  givingRange,
  kappaAlong,
  kappaBetween,
  mayGive,
  notesAt,
  PUBLISHED,
  streamAcross,
  strouhals,
} from "../../notebooks/resistance/layer.ts";
import { strouhalsOf, variantsOf, variantsTable } from "../../notebooks/resistance/layerDrawings.ts";
import { gapEffect, playedPeaks } from "../../notebooks/resistance/peaks.ts";
import { edgeInWords, overGaps, shankExitMm, withEntry } from "../../notebooks/resistance/stream.ts";
import { changesPercent, largestChange, thresholdsAt } from "../../notebooks/resistance/threshold.ts";
import { cupAndThroat, cupByElements, mostEdgeMm, overEdges } from "../../notebooks/resistance/throat.ts";
import { ASSUMED_EDGE_RADIUS } from "../../src/flow/throatEdge.ts";
import { breathOf, streamAtShankEnd } from "../../src/study/blown/breath.ts";
import { blownInstruments, breathEffect } from "../../src/study/blown/breathEffect.ts";
import { flowOf, resistance } from "../../src/study/blown/resistance.ts";
import { Instrument } from "../../src/study/instrument/instrument.ts";
import { decibels } from "../../src/study/instrument/pitch.ts";
import { demo } from "../acoustics/setups.ts";
import { numbers } from "../reference/table.ts";

describe("what is drawn beside the handbook", () => {
  it("are the table's rows, each with what is computed for it, as near as the flow's own tests ask", () => {
    const drawn = frictionSeries.flatMap(({ rows }) => rows);
    const printed = numbers("flow/friction.csv").map(([reynolds, , factor]) => `${reynolds} ${factor}`);
    expect(drawn.length).toBeGreaterThan(30);
    for (const row of drawn) {
      expect(printed).toContain(`${row.at} ${row.printed}`);
      expect(Math.abs(row.ours / row.printed - 1)).toBeLessThan(1e-4);
    }
    const sudden = numbers("flow/contraction.csv").filter(([angle, ratio]) => angle === 180 && ratio < 1);
    expect(contractionSeries.rows.map(({ at, printed }) => [at, printed])).toEqual(
      sudden.map(([, ratio, K]) => [ratio, K]),
    );
    expect(contractionSeries.rows.length).toBeGreaterThan(0);
    for (const { ours, printed } of contractionSeries.rows)
      expect(Math.abs(ours / printed - 1)).toBeLessThan(0.01);
  });

  it("has diffusers within two digits up to 30° and within a sixth above, none mistaken for another", () => {
    const table = numbers("flow/diffuser.csv");
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

  it("takes a share at the gap that lies between the least and the most, whatever the throat's edge takes", () => {
    for (const litresPerMinute of [5, 20, 60])
      for (const gapMm of [0, 5, mostGapMm]) {
        const drop = resistance(demo(), { gapMm, litresPerMinute });
        const { lower, estimate, upper } = drop.gap.share;
        expect(lower).toBeGreaterThan(0);
        expect(lower).toBeLessThan(estimate);
        expect(estimate).toBeLessThanOrEqual(upper);
        expect(upper).toBeLessThan(0.06);
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
});

describe("the throat's edge", () => {
  it("loses less the rounder it is, estimated and at most, and far more than any gap where it is sharp", () => {
    const edges = overEdges(referenceGapMm, 20);
    expect(edges[0].radiusMm).toBe(0);
    expect(edges[edges.length - 1].radiusMm).toBe(mostEdgeMm);
    for (const [i, { drop }] of edges.slice(1).entries())
      for (const figure of ["estimate", "upper"] as const)
        expect(drop.throatEdge.dropPa[figure]).toBeLessThan(edges[i].drop.throatEdge.dropPa[figure]);
    const assumed = resistance(demo(), { gapMm: referenceGapMm, litresPerMinute: 20 });
    const stated = edges.find(({ radiusMm }) => Math.abs(1000 * ASSUMED_EDGE_RADIUS - radiusMm) < 1e-9)!;
    expect(stated.drop.throatEdge.dropPa.estimate).toBeCloseTo(assumed.throatEdge.dropPa.estimate, 9);
    expect(stated.drop.throatEdge.isMeasured).toBe(true);
    const gapSpan = spanOf(overGaps(demo(), 20));
    expect(gapSpan).toBeGreaterThan(0);
    expect(gapSpan).toBeLessThan(0.1 * edges[0].drop.throatEdge.dropPa.upper);
  });

  it("is drawn beside every row of the finite elements, which lie between its bounds or within a factor of 1.3 of the estimate", () => {
    expect(cupByElements.map(({ radiusMm, reynolds, loss }) => [radiusMm, reynolds, loss])).toEqual(
      numbers("flow/stream/cup.csv"),
    );
    expect(cupByElements.length).toBeGreaterThan(4);
    for (const { reynolds, loss } of cupByElements) {
      const { lower, estimate, upper } = cupAndThroat(reynolds);
      expect(lower).toBeLessThanOrEqual(estimate);
      expect(Math.max(loss / estimate, estimate / loss)).toBeLessThan(1.3);
      expect(loss).toBeLessThan(upper);
    }
  });

  it("may rest on a hundredth of a millimetre of the throat, which outweighs a millimetre of gap", () => {
    for (const litresPerMinute of [10, 20, 40]) {
      const gapDrop = (gapMm: number) => resistance(demo(), { gapMm, litresPerMinute }).gap.dropPa.estimate;
      expect(throatWiderBy(0.01, referenceGapMm, litresPerMinute)).toBeGreaterThan(
        gapDrop(referenceGapMm + 1) - gapDrop(referenceGapMm),
      );
    }
    const [before, after] = [demo(), withWiderThroat(0.01)].map(({ mouthpiece }) => mouthpiece.profileMm);
    expect(after.filter(([, diameter], i) => diameter !== before[i][1])).toHaveLength(2);
  });
});

describe("a laminar stream across the gap", () => {
  it("is drawn beside every row of the finite elements: within 1.3 below Re 1500 for a long pipe's profile, more for a fuller, never beyond the most", () => {
    expect(
      addedByElements.map(({ gapOverDiameter, reynolds, fullness, loss }) => [
        gapOverDiameter,
        reynolds,
        fullness,
        loss,
      ]),
    ).toEqual(numbers("flow/stream/gap-steady.csv"));
    const longPipe = addedByElements.filter(({ fullness }) => fullness === 2);
    expect(longPipe.length).toBeGreaterThan(20);
    for (const { gapOverDiameter, reynolds, loss } of longPipe) {
      const { estimate, upper } = addedByGap(gapOverDiameter, reynolds);
      if (reynolds < 1500) expect(Math.max(loss / estimate, estimate / loss)).toBeLessThan(1.3);
      expect(loss).toBeLessThan(upper);
      const fuller = addedByElements.find(
        (one) => one.gapOverDiameter === gapOverDiameter && one.reynolds === reynolds && one.fullness > 2,
      )!;
      expect(fuller.loss).toBeGreaterThan(loss);
    }
  });

  it("is known far better over all gaps than the throat's edge lets the whole be", () => {
    const sweep = overGaps(demo(), 20);
    const [{ dropPa }] = sweep;
    expect(spanOf(sweep)).toBeLessThan(0.1 * (dropPa.upper - dropPa.lower));
  });
});

describe("the layer across the gap", () => {
  const blown = (gapMm: number, litresPerMinute: number) => ({
    gapMm,
    litresPerMinute,
    stream: streamAcross(gapMm, litresPerMinute),
    notes: notesAt(gapMm),
  });

  it("has its stream and its notes from the model", () => {
    const { stream, notes } = blown(5, 20);
    const { radius } = streamAtShankEnd(demo(), 20);
    expect(stream.gapOverDiameter).toBeCloseTo(5 / shankExitMm, 9);
    expect(stream.speed).toBeCloseTo(flowOf(20) / (Math.PI * radius ** 2), 9);
    const modes = new Instrument(demo()).modes(5);
    expect(notes.map(({ n }) => n)).toEqual([2, 3, 4, 5, 6, 7, 8, 9, 10]);
    for (const { n, frequencyHz } of notes) expect(frequencyHz).toBe(modes[n - 1].frequencyHz);
    const st = strouhalsOf(blown(5, 20));
    expect(st[2]).toBeCloseTo((notes[2].frequencyHz * 0.005) / stream.speed, 12);
  });

  it("is crossed by a trumpet: at a tenth of an inch the notes lie on either side of where the layer takes most", () => {
    const one = blown(referenceGapMm, 20);
    const kappas = kappaAlong(one.stream);
    const most = strouhals[kappas.indexOf(Math.max(...kappas))];
    const st = strouhalsOf(one);
    expect(Math.min(...st)).toBeLessThan(most);
    expect(Math.max(...st)).toBeGreaterThan(most);
    // half the breath is twice the St
    strouhalsOf(blown(referenceGapMm, 10)).forEach((at, i) => {
      expect(at / st[i]).toBeCloseTo(2, 9);
    });
  });

  it("takes first and may give after, about where published pipes whistle; a narrow gap under little breath gives nowhere", () => {
    for (const gapMm of [2.54, 5, 8]) {
      const giving = mayGive(streamAcross(gapMm, 20))!;
      expect(giving.deepest).toBeLessThan(0);
      expect(giving.from).toBeLessThan(PUBLISHED.whistlesTo);
      expect(giving.to).toBeGreaterThan(PUBLISHED.whistlesFrom);
      const { least } = kappaBetween(streamAcross(gapMm, 20));
      const from = strouhals.indexOf(giving.from);
      expect(least[from]).toBeLessThan(0);
      expect(least[from - 1]).toBeGreaterThanOrEqual(0);
    }
    expect(mayGive(streamAcross(0.5, 8))).toBeNull();
  });

  it("has its estimate between the least and the most of all layers, and a range that is below 0 throughout", () => {
    const stream = streamAcross(5, 20);
    const { least, most } = kappaBetween(stream);
    kappaAlong(stream).forEach((kappa, i) => {
      expect(kappa).toBeGreaterThanOrEqual(least[i] - 0.02);
      expect(kappa).toBeLessThanOrEqual(most[i] + 0.02);
    });
    expect(givingRange([0.1, 0.3, 0.1, -0.1, -0.2, -0.05, 0.1, -0.01])).toEqual({
      from: strouhals[3],
      to: strouhals[5],
      deepest: -0.2,
      at: strouhals[4],
    });
    expect(givingRange([-0.1, 0.3, 0.2, 0.1])).toBeNull();
  });

  it("does more where it is thinner and where the gap is wider, as the tables' figures say", () => {
    const stream = streamAcross(5, 20);
    for (const by of ["layer", "gap"] as const) {
      const heights = variantsOf(stream, by).map((one) => Math.max(...kappaAlong(one.stream)));
      expect(heights.length).toBeGreaterThan(2);
      expect(heights).toEqual([...heights].sort((a, b) => a - b));
    }
    const table = variantsTable(stream, "reynolds");
    expect(table.rows).toHaveLength(4);
    expect(table.rows[3][0]).toMatch(/from memory/);
  });
});

describe("peaks under breath", () => {
  const still = new Instrument(demo());
  const estimate = new Instrument(demo(), { like: still, breath: breathOf(demo(), 20) });
  const instruments = blownInstruments(still, estimate, 20);
  const effect = (gapMm: number) => breathEffect(instruments, 20, gapMm, 0);

  it("are lower than in still air at every note, and note 6 by as much as the study says", () => {
    const peaks = playedPeaks(effect(5));
    expect(peaks.map(({ n }) => n)).toEqual([2, 3, 4, 5, 6, 7, 8, 9, 10]);
    for (const { breathDb } of peaks) {
      expect(breathDb.estimate).toBeLessThan(0);
      expect(breathDb.upper).toBeLessThan(breathDb.estimate);
    }
    const six = (instrument: Instrument) => instrument.modes(5)[5].peakImpedance!;
    expect(peaks[4].breathDb.estimate).toBeCloseTo(decibels(six(estimate), six(still)), 9);
  });

  it("are changed by every gap by less than is noticed, some up and some down, blown or not", () => {
    const widest = gapEffect(effect(mostGapMm));
    for (const [low, high] of [widest.still, widest.blown]) {
      expect(low).toBeLessThan(0);
      expect(high).toBeGreaterThan(0);
    }
    expect(widest.most).toBeLessThan(demo().thresholds.decibels);
    expect(widest.otherBy).toBeGreaterThan(0);
    expect(widest.otherBy).toBeLessThan(0.5);
    expect(gapEffect(effect(0))).toEqual({ still: [0, 0], blown: [0, 0], otherBy: 0, most: 0 });
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
    expect(largestChange(changesPercent(from, to))!.percent).toBe(
      changes.find((change) => Math.abs(change) === Math.max(...changes.map(Math.abs))),
    );
    expect(largestChange([])).toBeNull();
  });

  it("are higher under a breath, and the gap moves them then little otherwise than in still air", () => {
    const gapsMm = [0, 2.5, 5, 8];
    const [still, blown] = [0, 20].map((breath) => gapsMm.map((gapMm) => thresholdsAt(gapMm, breath)));
    gapsMm.forEach((_, i) => {
      const byBreath = changesPercent(still[i], blown[i]);
      expect(byBreath).toHaveLength(9);
      for (const { percent } of byBreath) {
        expect(percent).toBeGreaterThan(1);
        expect(percent).toBeLessThan(8);
      }
    });
    for (let i = 1; i < gapsMm.length; i++) {
      const [before, after] = [still, blown].map((at) => changesPercent(at[0], at[i]));
      after.forEach(({ n, percent }, k) => {
        expect(before[k].n).toBe(n);
        expect(Math.abs(percent - before[k].percent)).toBeLessThan(1.5);
      });
    }
  });
});
