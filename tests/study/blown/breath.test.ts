import { describe, expect, it } from "vitest";
import { breathOf } from "../../../src/study/blown/breath.ts";
import { resistance } from "../../../src/study/blown/resistance.ts";
import { impedanceCurve } from "../../../src/study/instrument/impedanceCurve.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import { decibels } from "../../../src/study/instrument/pitch.ts";
import { demo } from "../../acoustics/setups.ts";

const setup = demo();
const still = new Instrument(setup);

/** Change of every peak's height from still air, dB, notes 2 to 10. */
const damped = (litresPerMinute: number, figure: "lower" | "estimate" | "upper"): number[] => {
  const blown = new Instrument(setup, { breath: breathOf(setup, litresPerMinute, figure) });
  const before = still.modes(2.5);
  return blown
    .modes(2.5)
    .slice(1, 10)
    .map(({ n, peakImpedance }) => decibels(peakImpedance!, before[n - 1].peakImpedance!));
};

describe("peaks under breath", () => {
  it("are those of still air, to the last bit, without a stream", () => {
    expect(breathOf(setup, 0)).toBeNull();
    const unblown = new Instrument(setup, { breath: breathOf(setup, 0) });
    expect(unblown.modes(2.5)).toEqual(still.modes(2.5));
    const frequencies = Float64Array.from({ length: 300 }, (_, i) => 60 + 5 * i);
    expect(impedanceCurve(setup, frequencies, 2.5, null)).toEqual(impedanceCurve(setup, frequencies, 2.5));
  });

  it("are damped, more the more flows, the least and the most on either side; note 6 by 0 to 3 dB at 20 L/min", () => {
    const at = (["lower", "estimate", "upper"] as const).map((figure) => damped(20, figure));
    expect(at[0]).toHaveLength(9);
    at[1].forEach((estimate, i) => {
      expect(estimate).toBeLessThan(0);
      expect(estimate).toBeLessThanOrEqual(at[0][i]);
      expect(estimate).toBeGreaterThanOrEqual(at[2][i]);
    });
    expect(at[1][4]).toBeLessThan(-0.3);
    expect(at[2][4]).toBeGreaterThan(-3.4);
    expect(at[2][4]).toBeLessThan(-0.7);
    const more = damped(30, "estimate");
    at[1].forEach((estimate, i) => {
      expect(more[i]).toBeLessThan(estimate);
    });
  });

  it("meet at the throat the slope of its quadratic loss", () => {
    const [a, b] = [19.99, 20.01].map((litresPerMinute) => resistance(setup, { litresPerMinute }));
    const lost = ({ parts, throatEdge }: typeof a) =>
      throatEdge.dropPa.upper + parts.find(({ part }) => part === "backbore")!.areaChangePa;
    const slope = (lost(b) - lost(a)) / (0.02 / 60_000);
    // at this flow the stream in the throat is turbulent, and its losses go as the square
    expect(breathOf(setup, 20, "upper")!.throatResistance / slope).toBeCloseTo(1, 3);
  });

  it("are changed by the gap otherwise than in still air, by some tenths of a decibel: the shear layer's part", () => {
    const blown = new Instrument(setup, { breath: breathOf(setup, 20) });
    const change = (instrument: Instrument, gapMm: number) => {
      const closed = instrument.modes(0);
      return instrument
        .modes(gapMm)
        .slice(1, 10)
        .map(({ n, peakImpedance }) => decibels(peakImpedance!, closed[n - 1].peakImpedance!));
    };
    const other = change(blown, 8).map((one, i) => one - change(still, 8)[i]);
    const most = Math.max(...other.map(Math.abs));
    expect(most).toBeGreaterThan(0.03);
    expect(most).toBeLessThan(0.5);
  });

  it("follow a gap without being made anew, and answer any gap the receiver can have", () => {
    const blown = new Instrument(setup, { breath: breathOf(setup, 25) });
    for (const gapMm of [0, 0.1, 2.5, 8, 12]) {
      const modes = blown.modes(gapMm);
      expect(modes).toHaveLength(12);
      for (const { frequencyHz, Q } of modes) expect(frequencyHz * Q).toBeGreaterThan(0);
    }
    const like = new Instrument(setup, { like: blown });
    expect(like.modes(2.5)).toEqual(blown.modes(2.5));
  });
});
