import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { lowestOf as lowestFrequencyOf } from "../../src/lips/note.ts";
import { Stability } from "../../src/lips/stability.ts";
import { type Threshold, Thresholds } from "../../src/lips/threshold.ts";
import { json } from "../reference/table.ts";
import { anyModes, anyValve, COLUMN, valveNamed } from "./columns.ts";

const { thresholds } = json("lips/stability.json");

function lowestOf(search: Thresholds, lipHz: number): Threshold | null {
  let best: Threshold | null = null;
  for (let n = 1; n <= search.notes; n++) {
    const found = search.at(n, lipHz);
    if (found && (!best || found.mouthPressure < best.mouthPressure)) best = found;
  }
  return best;
}

describe("threshold", () => {
  // scipy: brentq on the largest real part of LAPACK's eigenvalues, after a scan of 800 pressures to 100 kPa
  it("pressure and frequency of what starts first agree with SciPy, and so does where nothing starts", () => {
    let compared = 0;
    expect(thresholds).toHaveLength(60);
    for (const { lips, lipHz, pressure, frequency } of thresholds) {
      const found = lowestOf(new Thresholds(valveNamed(lips), COLUMN), lipHz);
      if (pressure === null) expect(found).toBe(null);
      else {
        expect(found!.mouthPressure / pressure).toBeCloseTo(1, 7);
        expect(found!.frequencyHz / frequency).toBeCloseTo(1, 8);
        compared++;
      }
    }
    expect(compared).toBeGreaterThan(40);
  });

  it("any column and lips: at the lowest threshold an eigenvalue crosses the axis; below it all decay", () => {
    let crossed = 0;
    fc.assert(
      fc.property(
        anyModes,
        anyValve,
        fc.double({ min: 40, max: 1500, noNaN: true }),
        (modes, valve, lipHz) => {
          const search = new Thresholds(valve, modes);
          const found = lowestOf(search, lipHz);
          if (!found) return;
          const stability = new Stability(valve, modes);
          const { rate, frequencyHz } = stability.fastest(lipHz, found.mouthPressure);
          // the topmost resonance is no note: nothing above it says where it would end
          if (frequencyHz >= lowestFrequencyOf(modes, search.notes + 1)) return;
          crossed++;
          expect(Math.abs(rate)).toBeLessThan(1e-6 * 2 * Math.PI * found.frequencyHz);
          expect(frequencyHz / found.frequencyHz).toBeCloseTo(1, 6);
          expect(stability.fastest(lipHz, 0.97 * found.mouthPressure).rate).toBeLessThan(0);
          expect(stability.fastest(lipHz, 0.5 * found.mouthPressure).rate).toBeLessThan(0);
        },
      ),
      { numRuns: 500 },
    );
    expect(crossed).toBeGreaterThan(10);
  });

  it("finds a start that ends again with a little more pressure, between two of the frequencies looked at", () => {
    // met by the search for any column: unstable from 38.6 to 48 kPa alone, by eigenvalues that move 0.8 Hz meanwhile
    const poles = [-6.4360745047105095, 407.9347313639629, -65.23676276542355, 1465.265501196802];
    poles.push(-22.561037854972366, 2035.652873409121, -208.81249468598693, 2759.543277476927);
    const residues = [
      222074854.15344802, 0, 4206730624.907859, 0, 1967568692.9327672, 0, 847410135.0819988, 0,
    ];
    const modes = { poles: Float64Array.from(poles), residues: Float64Array.from(residues) };
    const valve = {
      massPerArea: 50,
      massExponent: 0.14,
      quality: 38.283533982910186,
      restOpening: 0.002256079113196348,
      width: 0.012313929408464371,
      density: 1.17,
    };
    const lipHz = 284.83958757893566;
    const found = lowestOf(new Thresholds(valve, modes), lipHz)!;
    const stability = new Stability(valve, modes);
    expect(found.mouthPressure).toBeGreaterThan(38_000);
    expect(found.mouthPressure).toBeLessThan(39_185);
    expect(Math.abs(stability.fastest(lipHz, found.mouthPressure).rate)).toBeLessThan(1e-6);
    expect(stability.fastest(lipHz, 43_000).rate).toBeGreaterThan(0);
    expect(stability.fastest(lipHz, 50_000).rate).toBeLessThan(0);
  });

  it("finds a start whose two ends lie between a zero of Im Y and the frequency looked at beside it", () => {
    // met by a search over 60,000 columns and lips: the rest is unstable about 620 Pa, and no point of the even band shows it
    const poles = [
      -7.359586345906794, 662.230831440962, -23.9089398986008, 2519.2224927806838, -149.5533783494658,
      2818.0147288086923, -83.30696923912782, 2950.0651424186353, -177.4367412982527, 3298.818359472932,
    ];
    const sizes = [
      790791928.2025067, 1802872205.955619, 103379581.83506185, 2814629876.811516, 3606322382.8481493,
    ];
    const modes = {
      poles: Float64Array.from(poles),
      residues: Float64Array.from(sizes.flatMap((size) => [size, 0])),
    };
    const valve = {
      massPerArea: 0.6,
      massExponent: 1.1546021460247378,
      quality: 17.190031441472765,
      restOpening: 0.00005,
      width: 0.008741049332098284,
      density: 1.17,
    };
    const lipHz = 63.58576561173147;
    const found = lowestOf(new Thresholds(valve, modes), lipHz)!;
    const stability = new Stability(valve, modes);
    expect(found.mouthPressure).toBeCloseTo(620.05, 2);
    expect(Math.abs(stability.fastest(lipHz, found.mouthPressure).rate)).toBeLessThan(1e-6);
    expect(stability.fastest(lipHz, 0.97 * found.mouthPressure).rate).toBeLessThan(0);
    expect(stability.fastest(lipHz, 1.0001 * found.mouthPressure).rate).toBeGreaterThan(0);
  });

  it("a note's easiest start is no higher than at lip frequencies around it", () => {
    const search = new Thresholds(valveNamed("usual"), COLUMN);
    for (let n = 1; n <= 10; n++) {
      const onset = search.lowest(n)!;
      for (let cents = -300; cents <= 300; cents += 7) {
        const other = search.at(n, onset.lipHz * 2 ** (cents / 1200));
        if (other) expect(other.mouthPressure).toBeGreaterThanOrEqual(onset.mouthPressure * (1 - 1e-9));
      }
    }
  });
});
