import { describe, expect, it } from "vitest";
import { dimensionAt } from "../../../src/setup/dimension/dimension.ts";
import type { Setup } from "../../../src/setup/setup.ts";
import { Instrument, type Mode } from "../../../src/study/instrument/instrument.ts";
import { cents, decibels } from "../../../src/study/instrument/pitch.ts";
import { demo } from "../setups.ts";

/** Where each resonance has gone, cents and dB. */
const moved = (from: readonly Mode[], to: readonly Mode[]) =>
  to.map(({ frequencyHz, peakImpedance }, i) => ({
    cents: cents(frequencyHz, from[i].frequencyHz),
    dB: decibels(peakImpedance!, from[i].peakImpedance!),
  }));

describe("curved fronts taken over from an instrument that differs a little", () => {
  const setup: Setup = { ...demo(), model: { ...demo().model, bell: "multimodal" } };
  const like = new Instrument(setup);

  it.each([
    // what a repairer does not know of an instrument, and several times that
    ["air.temperature", 1, 0.02],
    ["air.temperature", -8, 0.02],
    ["body.diameters", 0.1, 0.06],
    ["body.diameters", 0.5, 0.06],
    ["model.wallLossFactor", 0.1, 0.005],
  ] as const)(
    "%s off by %f: moves as with its own bell worked out, to %f of the largest",
    (path, by, part) => {
      const other = dimensionAt(setup, path)!.moved(by);
      const from = like.modes(2.5);
      const own = moved(from, new Instrument(other).modes(2.5));
      const taken = moved(from, new Instrument(other, { like }).modes(2.5));
      expect(own).toHaveLength(12);
      for (const key of ["cents", "dB"] as const) {
        const largest = Math.max(...own.map((one) => Math.abs(one[key])));
        own.forEach((one, i) => {
          expect(Math.abs(taken[i][key] - one[key])).toBeLessThan(part * largest + 1e-6);
        });
      }
    },
  );

  it("a like body is its own: nothing is lost on the way, bit for bit", () => {
    const same = new Instrument(
      { ...setup, receiver: { ...setup.receiver, depthMm: setup.receiver.depthMm + 0.1 } },
      { like },
    );
    const alone = new Instrument(same.setup);
    expect(same.modes(2.6).map((mode) => mode.n)).toEqual(alone.modes(2.6).map((mode) => mode.n));
    same.modes(2.6).forEach(({ frequencyHz }, i) => {
      expect(frequencyHz / alone.modes(2.6)[i].frequencyHz).toBeCloseTo(1, 9);
    });
  });

  it("of one like another like it: the first's", () => {
    const warmer = (by: number) => dimensionAt(setup, "air.temperature")!.moved(by);
    const second = new Instrument(warmer(1), { like });
    const third = new Instrument(warmer(2), { like: second });
    const direct = new Instrument(warmer(2), { like });
    third.modes(2.5).forEach(({ frequencyHz }, i) => {
      expect(frequencyHz).toBe(direct.modes(2.5)[i].frequencyHz);
    });
  });

  it("a bell of plane waves has nothing to take over, nor to give", () => {
    const plane: Setup = { ...setup, model: { ...setup.model, bell: "plane" } };
    const alone = new Instrument(plane);
    expect(new Instrument(plane, { like: alone }).modes(2.5)).toEqual(alone.modes(2.5));
    const curved = new Instrument(setup, { like: alone });
    curved.modes(2.5).forEach(({ frequencyHz }, i) => {
      expect(frequencyHz / like.modes(2.5)[i].frequencyHz).toBeCloseTo(1, 9);
    });
  });
});
