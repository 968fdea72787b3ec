import { describe, expect, it } from "vitest";
import { gapSweep } from "../../../src/study/instrument/gapSweep.ts";
import { impedanceCurve } from "../../../src/study/instrument/impedanceCurve.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import { commonFundamental, inContext } from "../../../src/study/instrument/modeTable.ts";
import { cents } from "../../../src/study/instrument/pitch.ts";
import { standingWave } from "../../../src/study/instrument/standingWave.ts";
import { demo } from "../../acoustics/setups.ts";

const instrument = new Instrument(demo());

describe("the demo instrument", () => {
  it("has resonances 2 to 10 within ±12 cents of a common harmonic series at 27 °C and 2.5 mm of gap", () => {
    expect(instrument.gapMm).toBe(2.5);
    const modes = inContext(instrument.modes(2.5));
    expect(modes.length).toBe(12);
    for (const { equivalentCents } of modes.slice(1, 10)) expect(Math.abs(equivalentCents)).toBeLessThan(12);
    // B-flat: the second resonance sounds B♭3 (233.1 Hz at A = 440) within a quarter of a semitone
    expect(Math.abs(cents(2 * commonFundamental(modes), 233.08))).toBeLessThan(25);
  });

  it("says that it is invented", () => {
    expect(demo().about).toMatch(/invented/i);
  });
});

describe("a gap sweep", () => {
  const gapsMm = [0, 1, 2.5, 4, 8];
  const sweep = gapSweep(instrument, { gapsMm });

  it("measures from the setup's own gap, where nothing changes", () => {
    expect(sweep.referenceGapMm).toBe(2.5);
    expect(sweep.rows[2].modes.length).toBeGreaterThan(0);
    for (const { shiftCents, heightDb } of sweep.rows[2].modes) {
      expect(shiftCents).toBeCloseTo(0, 9);
      expect(heightDb).toBeCloseTo(0, 9);
    }
  });

  it("lowers every resonance as the gap makes the instrument longer", () => {
    for (let i = 1; i < gapsMm.length; i++)
      sweep.rows[i].modes.forEach(({ frequencyHz }, n) => {
        expect(frequencyHz).toBeLessThan(sweep.rows[i - 1].modes[n].frequencyHz);
      });
  });

  it("changes a tenth of an inch by a few cents and tenths of a decibel, as a linear model must", () => {
    const row = gapSweep(instrument, { gapsMm: [5.04] }).rows[0];
    expect(row.modes.length).toBeGreaterThan(0);
    for (const { shiftCents, heightDb } of row.modes) {
      expect(Math.abs(shiftCents)).toBeLessThan(10);
      expect(Math.abs(heightDb!)).toBeLessThan(1);
    }
  });

  it("says what the spacing is: the difference of neighbours, in Hz and in cents", () => {
    const { modes } = sweep.rows[3];
    expect(modes[4].spacingHz).toBeCloseTo(modes[5].frequencyHz - modes[4].frequencyHz, 9);
    expect(modes[4].spacingCents).toBeCloseTo(cents(modes[5].frequencyHz, modes[4].frequencyHz), 9);
    expect(modes[11].spacingHz).toBeNull();
  });

  it("brings the chosen resonance back when retuned, with the slide going in as the gap widens", () => {
    const retuned = gapSweep(instrument, { gapsMm, retune: 4 });
    expect(retuned.rows.length).toBeGreaterThan(0);
    for (const { modes } of retuned.rows) expect(modes[3].shiftCents).toBeCloseTo(0, 6);
    const slides = retuned.rows.map(({ slideMm }) => slideMm);
    expect(slides[2]).toBeCloseTo(0, 6);
    for (let i = 1; i < slides.length; i++) expect(slides[i]).toBeLessThan(slides[i - 1]);
    // what the gap adds in length the slide gives back, within the cavity's extra volume
    expect(slides[0]).toBeGreaterThan(2.5);
    expect(slides[0]).toBeLessThan(5);
  });

  it("refuses to retune what it cannot, in words", () => {
    const { slideAtMm, ...fixed } = demo().body;
    expect(slideAtMm).toBeDefined();
    const without = new Instrument({ ...demo(), body: fixed });
    expect(() => gapSweep(without, { gapsMm: [1], retune: 4 })).toThrow(/body\.slideAt is missing/);
    const short = new Instrument({ ...demo(), body: { ...demo().body, slideAtMm: 900 } });
    expect(() => gapSweep(short, { gapsMm: [8], retune: 4 })).toThrow(/only 0\.0 mm long/);
    expect(() => gapSweep(instrument, { gapsMm: [1], retune: 40 })).toThrow(/from 1 to 12/);
    expect(() => gapSweep(instrument, { gapsMm: [30] })).toThrow(/24\.5/);
  });

  it("tells its progress and stops when told to", () => {
    const seen: number[] = [];
    const stopped = gapSweep(instrument, { gapsMm }, (done) => {
      seen.push(done);
      return done < 2 ? undefined : false;
    });
    expect(seen).toEqual([1, 2]);
    expect(stopped.rows.length).toBe(2);
  });
});

describe("an impedance curve", () => {
  it("is the same read off the interpolant and through every section", () => {
    const many = impedanceCurve(
      demo(),
      Float64Array.from({ length: 400 }, (_, i) => 50 + 4 * i),
    );
    const few = impedanceCurve(
      demo(),
      Float64Array.from({ length: 50 }, (_, i) => 50 + 32 * i),
    );
    for (let i = 0; i < 50; i++) expect(many.re[8 * i] / few.re[i]).toBeCloseTo(1, 4);
  });

  it("has its peaks where the modes say", () => {
    const mode = instrument.modes(2.5)[3];
    const curve = impedanceCurve(
      demo(),
      Float64Array.of(mode.peakHz! - 0.2, mode.peakHz!, mode.peakHz! + 0.2),
    );
    const size = Array.from(curve.re, (re, i) => Math.hypot(re, curve.im[i]));
    expect(size[1]).toBeGreaterThan(size[0]);
    expect(size[1]).toBeGreaterThan(size[2]);
    expect(size[1] / mode.peakImpedance!).toBeCloseTo(1, 5);
  });
});

describe("a standing wave", () => {
  it("has as many pressure nodes as its number says, and the gap where it is", () => {
    for (const n of [2, 4, 7]) {
      const { pressure, flow, xMm, gapMm, atGap } = standingWave(instrument, n, 2.5);
      let nodes = 0;
      for (let i = 1; i < pressure.length - 1; i++)
        if (pressure[i] < pressure[i - 1] && pressure[i] <= pressure[i + 1] && xMm[i] < 1340) nodes++;
      expect(nodes).toBe(n - 1);
      expect(gapMm).toEqual([86, 88.5]);
      expect(Math.max(...pressure)).toBe(1);
      expect(Math.max(...flow)).toBe(1);
      for (const value of [atGap.pressure, atGap.flow]) {
        expect(value).toBeGreaterThan(0);
        expect(value).toBeLessThan(1);
      }
      expect(xMm[0]).toBe(0);
    }
  });
});
