import { describe, expect, it } from "vitest";
import { readSetup } from "../../../src/setup/file/readSetup.ts";
import { levelLoss } from "../../../src/study/blown/levelLoss.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import { demo } from "../../acoustics/setups.ts";
import { exampleFile } from "../../setup/example.ts";

const instrument = new Instrument(demo());

describe("peaks from soft to loud", () => {
  const [near, wide] = levelLoss(instrument, { gapsMm: [2.5, 8], levelsDb: [0, 60, 120, 140, 160, 180] });

  it("are the linear ones when soft, found here through the mouthpiece cut in two", () => {
    for (const { gapMm, modes } of [near, wide]) {
      const linear = instrument.modes(gapMm);
      expect(modes.length).toBe(linear.length);
      expect(modes.length).toBeGreaterThanOrEqual(12);
      modes.forEach(({ softImpedance, levels: [silent, soft] }, i) => {
        expect(softImpedance).toBe(linear[i].peakImpedance);
        expect(silent.peakHz! / linear[i].peakHz!).toBeCloseTo(1, 6);
        expect(Math.abs(silent.heightDb!)).toBeLessThan(1e-5);
        expect(Math.abs(soft.heightDb!)).toBeLessThan(1e-4);
      });
    }
  });

  it("lose height with level, ten times the amplitude about ten times the decibels while that is small", () => {
    for (const { modes } of [near, wide]) {
      expect(modes.length).toBeGreaterThan(2);
      for (const { levels } of modes.slice(2)) {
        const [, , at120, at140, at160, at180] = levels.map(({ heightDb }) => heightDb!);
        expect(at140).toBeLessThan(at120);
        expect(at160).toBeLessThan(at140);
        expect(at180).toBeLessThan(at160);
        expect(at140 / at120).toBeGreaterThan(9);
        expect(at140 / at120).toBeLessThan(11);
      }
    }
  });

  it("owe next to nothing of it to the gap, by any of its figures, in order of the figures", () => {
    for (const { modes } of [near, wide]) {
      const middle = modes.filter(({ n }) => n >= 3 && n <= 8);
      expect(middle).toHaveLength(6);
      for (const { n, levels } of middle) {
        const { gapAloneDb, heightDb } = levels[4];
        expect(gapAloneDb.estimate!, `${n}`).toBeLessThanOrEqual(gapAloneDb.lower!);
        expect(gapAloneDb.upper!).toBeLessThanOrEqual(gapAloneDb.estimate!);
        expect(gapAloneDb.upper!).toBeLessThan(0);
        expect(Math.abs(gapAloneDb.upper!)).toBeLessThan(0.5 * Math.abs(heightDb!));
      }
    }
  });

  it("lose at the throat what first-order perturbation of the plain standing wave says", () => {
    // cup, throat and backbore are one cone each, so that their losses are four terms: a vena contracta past the cup's wall, by
    // von Mises and quadrature, of an edge rounded to 0.5 mm, and three of the handbook
    const plain = new Instrument(readSetup(exampleFile()));
    const { bore } = plain.column.line;
    const [cup, throat, exit] = [0.0082, 0.00185, 0.00425];
    const wall = Math.atan((cup - throat) / 0.011);
    const turned = (gamma: number) => Math.sin((wall * gamma) / Math.PI) / Math.tan(gamma / 2);
    const spread = Array.from({ length: 5000 }, (_, i) => turned(((i + 0.5) * Math.PI) / 5000) / 5000);
    const contracted = spread.reduce((sum, one) => sum + one, 0) ** 2;
    const slender = Math.atan((exit - throat) / 0.063);
    const K =
      (contracted * (0.03 + 0.47 * 10 ** (-7.7 * (0.5 / 3.7)))) / 0.5 +
      3.2 * Math.tan(slender) ** 1.25 * (1 - (throat / exit) ** 2) ** 2 +
      1.6 * Math.sin(slender) * 0.5 * (1 - (throat / exit) ** 2) ** 0.75 +
      (1 - (throat / cup) ** 2) ** 2;
    const area = Math.PI * throat ** 2;
    const [{ modes }] = levelLoss(plain, { gapsMm: [2.54], levelsDb: [120] });
    expect(modes.length).toBeGreaterThan(0);
    for (const { softHz, softImpedance, levels } of modes.slice(3, 9)) {
      const seen: { x: number; p: number[]; u: number[] }[] = [];
      plain.column.line.trace(
        plain.gap(2.54),
        0,
        2 * Math.PI * softHz,
        (x, _, s) => seen.push({ x, p: [s[0], s[1]], u: [s[2], s[3]] }),
        0.05,
      );
      const rim = seen[seen.length - 1];
      const inThroat = seen.find(({ x }) => Math.abs(x - (rim.x - 0.011)) < 1e-9)!;
      // amplitude at 120 dB: 20 Pa rms
      const flow = (Math.hypot(...inThroat.u) / Math.hypot(...rim.p)) * 20 * Math.SQRT2;
      // mean of both ways: K/2
      const R = ((4 / (3 * Math.PI)) * bore.gapAir.density * (K / 2) * flow) / area ** 2;
      // ΔZ/Z = R (U_throat/U_rim)² / Z; only phases are left to work out
      const phase = 2 * (Math.atan2(inThroat.u[1], inThroat.u[0]) - Math.atan2(rim.u[1], rim.u[0]));
      const Z = Math.atan2(rim.p[1], rim.p[0]) - Math.atan2(rim.u[1], rim.u[0]);
      const ratio = (Math.hypot(...inThroat.u) / Math.hypot(...rim.u)) ** 2;
      const expected = (20 / Math.LN10) * ((R * ratio) / softImpedance) * Math.cos(phase - Z);
      const [{ heightDb, gapAloneDb }] = levels;
      expect((heightDb! - gapAloneDb.estimate!) / expected).toBeCloseTo(1, 1);
    }
  });

  it("refuse a level that is none", () => {
    for (const level of [-1, 181, Number.NaN])
      expect(() => levelLoss(instrument, { gapsMm: [2.5], levelsDb: [level] })).toThrow(/give 0 to 180 dB/);
    expect(() => levelLoss(instrument, { gapsMm: [40] })).toThrow(/24\.5/);
  });
});
