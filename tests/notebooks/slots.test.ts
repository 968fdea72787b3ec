import { describe, expect, it } from "vitest";
import { referenceGapMm } from "../../notebooks/paper/demo.ts";
import { followLeap, middleOf, rate } from "../../notebooks/slots/leap.ts";
import {
  blownOn,
  instrument,
  stretchesUnder,
  thresholdCurves,
  valve,
  whatBegins,
} from "../../notebooks/slots/lipsOnColumn.ts";
import { attackAt, attacks, eigenvaluesAt, startingPressures } from "../../notebooks/slots/outside.ts";
import { Leap } from "../../src/lips/leap.ts";
import { Oscillator } from "../../src/lips/oscillator.ts";
import { slotsAt } from "../../src/study/feel/slots.ts";

describe("what is drawn beside SciPy", () => {
  it("has every threshold of the usual lips on its line", () => {
    const { lipHz, pascals, outside } = startingPressures();
    expect(outside.length).toBeGreaterThan(10);
    for (const one of outside) {
      const next = Math.max(
        1,
        lipHz.findIndex((hz) => hz >= one.lipHz),
      );
      const share = (one.lipHz - lipHz[next - 1]) / (lipHz[next] - lipHz[next - 1]);
      const line = pascals[next - 1] + share * (pascals[next] - pascals[next - 1]);
      // a straight line between points 1.1 % apart in frequency
      expect(Math.abs(line / one.pascals - 1), `${one.lipHz} Hz`).toBeLessThan(0.02);
    }
  });

  it("has LAPACK's eigenvalues, as many and in the same places", () => {
    for (const mouthPressure of [100, 3000, 15000]) {
      const { ours, outside } = eigenvaluesAt(434, mouthPressure);
      expect(ours.length).toBe(outside.length);
      ours.forEach(({ rate: grows, hz }, i) => {
        expect(Math.abs(grows - outside[i].rate)).toBeLessThan(1e-3);
        expect(hz / outside[i].hz).toBeCloseTo(1, 7);
      });
    }
  });

  it("passes SciPy's attack at every millisecond, within 1 % of its size", () => {
    expect(attacks.length).toBe(3);
    for (const hz of attacks) {
      const { milliseconds, pascals, outside } = attackAt(hz);
      const most = Math.max(...outside.map(Math.abs));
      expect(outside).toHaveLength(41);
      outside.forEach((pa: number, ms: number) => {
        const next = Math.max(
          1,
          milliseconds.findIndex((at) => at >= ms),
        );
        const share = (ms - milliseconds[next - 1]) / (milliseconds[next] - milliseconds[next - 1]);
        const line = pascals[next - 1] + share * (pascals[next] - pascals[next - 1]);
        expect(Math.abs(line - pa) / most, `${hz} Hz, ${ms} ms`).toBeLessThan(0.01);
      });
    }
  });
});

describe("lips on the demo", () => {
  const blown = blownOn(referenceGapMm);

  it("have a valley for every note, lowest where it starts most easily", () => {
    const curves = thresholdCurves(blown);
    expect(curves.length).toBeGreaterThanOrEqual(9);
    for (const { n, pascals, easiest } of curves) {
      const least = Math.min(...pascals.filter(Number.isFinite));
      expect(least, `note ${n}`).toBeGreaterThanOrEqual(easiest!.mouthPressure * (1 - 1e-9));
      expect(least / easiest!.mouthPressure).toBeLessThan(1.01);
    }
  });

  it("begin the same notes where the study has their slots", () => {
    const { notes } = slotsAt(instrument, referenceGapMm, { pressure: { pascals: 8000 } });
    const stretches = stretchesUnder(blown, 8000);
    const played = notes.filter(({ n }) => n >= 3 && n <= 9);
    expect(played).toHaveLength(7);
    for (const { n, slot } of played) {
      const own = stretches.filter((one) => one.n === n).flatMap(({ beginnings }) => beginnings);
      const step = 2 ** (20 / 1200);
      expect(own[0].lipHz / slot!.lipHz[0]).toBeGreaterThan(1 / step);
      expect(own[0].lipHz / slot!.lipHz[0]).toBeLessThan(step);
      expect(own[own.length - 1].lipHz / slot!.lipHz[1]).toBeGreaterThan(1 / step);
      expect(own[own.length - 1].lipHz / slot!.lipHz[1]).toBeLessThan(step);
      const middle = whatBegins(blown, slot!.centreHz, 8000);
      expect(middle.n).toBe(n);
      expect(middle.soundsHz / slot!.playingHz).toBeCloseTo(1, 9);
    }
  });

  it("land a followed leap on the note that the study's leap lands on", () => {
    const [from, to] = [6, 8];
    const start = middleOf(from, referenceGapMm);
    const leap = new Leap(
      () => new Oscillator(rate, valve, blown.modes, start),
      from,
      middleOf(to, referenceGapMm),
      { transition: 0.05, settle: 1 },
      blown.modes,
    );
    const landed = [-200, -160, 0, 80, 120, 200].map((cents) => {
      const followed = followLeap(from, to, referenceGapMm, cents);
      expect(followed.landed, `${cents} cents`).toBe(leap.land(cents, 0));
      expect(followed.pressures.length / rate).toBeCloseTo(1.45, 2);
      return followed.landed;
    });
    // a leap that lands wrong, one that lands right, one that is lost
    expect(landed).toEqual([7, 7, 8, 8, null, 9]);
  });
});
