import { describe, expect, it } from "vitest";
import { STATE } from "../../../src/acoustics/duct/twoPort.ts";
import { DEFAULT_LIPS, massPerAreaAt } from "../../../src/lips/lips.ts";
import { impedanceOf, resonanceCount, resonanceHz, staticResistance } from "../../../src/lips/modes.ts";
import { Thresholds } from "../../../src/lips/threshold.ts";
import { breathOf } from "../../../src/study/blown/breath.ts";
import { MODAL_COUNT, modalColumn } from "../../../src/study/feel/modalColumn.ts";
import { valveIn } from "../../../src/study/feel/slots.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import { cents, decibels } from "../../../src/study/instrument/pitch.ts";
import { demo } from "../../acoustics/setups.ts";

const instrument = new Instrument(demo(), { modes: MODAL_COUNT });
const valve = valveIn(instrument, DEFAULT_LIPS);

const blown = new Instrument(instrument.setup, {
  like: instrument,
  breath: breathOf(instrument.setup, 20),
});

/** Z of the line itself, no sum of modes. */
function exact(gapMm: number, omega: number, instrument: Instrument): readonly [re: number, im: number] {
  const state = new Float64Array(STATE);
  instrument.column.rimState(instrument.gap(gapMm), 0, omega / (2 * Math.PI), 0, state);
  const size = state[2] ** 2 + state[3] ** 2;
  return [
    (state[0] * state[2] + state[1] * state[3]) / size,
    (state[1] * state[2] - state[0] * state[3]) / size,
  ];
}

/**
 * Lowest mouth pressure that starts something between two frequencies on the line itself: Y + G + W v/(μ L) = 0 bisected on a
 * fine grid, at one lip frequency. `steady` is the resistance the rest is found with.
 */
function thresholdOn(
  gapMm: number,
  lipHz: number,
  [lowHz, highHz]: readonly [number, number],
  steady: number,
  instrument: Instrument,
) {
  const { density, width, quality, restOpening } = valve;
  const lip = 2 * Math.PI * lipHz;
  const mass = massPerAreaAt(valve, lipHz);
  const at = (omega: number) => {
    const [re, im] = exact(gapMm, omega, instrument);
    const size = re * re + im * im;
    const bow = (lip * lip - omega * omega) ** 2 + ((lip * omega) / quality) ** 2;
    const v = ((-im / size) * mass * bow * quality) / (width * omega * lip);
    const opening = restOpening + (density * v * v) / (2 * mass * lip * lip);
    const miss =
      v > 0
        ? re / size +
          (width * opening) / (density * v) +
          (width * v * (lip * lip - omega * omega)) / (mass * bow)
        : Infinity;
    return { miss, pressure: 0.5 * density * v * v + steady * width * opening * v };
  };
  let least = Infinity;
  const step = 2 * Math.PI * 0.5;
  for (let a = 2 * Math.PI * lowHz; a < 2 * Math.PI * highHz; a += step) {
    let [low, high] = [a, a + step];
    const sign = at(low).miss > 0;
    if (sign === at(high).miss > 0) continue;
    for (let i = 0; i < 50; i++) {
      const middle = (low + high) / 2;
      if (at(middle).miss > 0 === sign) low = middle;
      else high = middle;
    }
    least = Math.min(least, at(low).pressure);
  }
  return least;
}

describe("modal column", () => {
  it.each([
    ["still", instrument],
    ["blown", blown],
  ])("starts every note to the twelfth within 0.5 %% of the line itself, at any gap: %s", (_, instrument) => {
    for (const gapMm of [0, 2.5, 5, 8]) {
      const modes = modalColumn(instrument, gapMm);
      expect(resonanceCount(modes)).toBe(MODAL_COUNT);
      const thresholds = new Thresholds(valve, modes);
      for (const n of [2, 3, 5, 8, 10, 11, 12]) {
        const { lipHz, mouthPressure, frequencyHz } = thresholds.lowest(n)!;
        const line = thresholdOn(
          gapMm,
          lipHz,
          [frequencyHz - 25, frequencyHz + 25],
          staticResistance(modes),
          instrument,
        );
        expect(Math.abs(mouthPressure / line - 1), `note ${n} at ${gapMm} mm`).toBeLessThan(0.005);
      }
    }
  });

  it("has at 0 Hz what the stream adds to the line, at any gap: what it gives and takes at the notes is none of it", () => {
    expect(blown.still).toBe(instrument);
    for (const gapMm of [0, 1, 2.5, 4, 5, 6, 8]) {
      const added = exact(gapMm, 2 * Math.PI, blown)[0] - exact(gapMm, 2 * Math.PI, instrument)[0];
      const [still, now] = [instrument, blown].map((one) => staticResistance(modalColumn(one, gapMm)));
      expect(added).toBeGreaterThan(0.5 * still);
      expect((now - still) / added).toBeCloseTo(1, 2);
    }
  });

  it("has the peaks of |Z|, 1 to 12, within 0.03 dB and 0.2 cents, and no negative resistance", () => {
    for (const gapMm of [0, 2.54, 12]) {
      const modes = modalColumn(instrument, gapMm);
      const peaks = instrument.modes(gapMm).slice(0, 12);
      expect(peaks).toHaveLength(12);
      const height = (f: number) => Math.hypot(...impedanceOf(modes, 2 * Math.PI * f));
      for (const { n, frequencyHz, peakHz, peakImpedance } of peaks) {
        expect(resonanceHz(modes, n) / frequencyHz).toBeCloseTo(1, 12);
        expect(Math.abs(decibels(height(peakHz!), peakImpedance!)), `peak ${n}`).toBeLessThan(0.03);
        // the sum's own peak: the vertex of its logarithm round the true one
        const h = 0.5;
        const [a, b, c] = [-h, 0, h].map((d) => Math.log(height(peakHz! + d)));
        const peak = peakHz! + (0.5 * h * (c - a)) / (2 * b - a - c);
        expect(Math.abs(cents(peak, peakHz!)), `peak ${n}`).toBeLessThan(0.2);
      }
      for (let f = 0; f < 20000; f += 5)
        expect(impedanceOf(modes, 2 * Math.PI * f)[0]).toBeGreaterThanOrEqual(0);
    }
  });
});
