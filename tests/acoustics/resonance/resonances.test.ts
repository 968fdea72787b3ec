import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { AirColumn } from "../../../src/acoustics/airColumn.ts";
import { wallLoss } from "../../../src/acoustics/medium/wallLoss.ts";
import { residueOf, resonancesOf } from "../../../src/acoustics/resonance/resonances.ts";
import { readSetup } from "../../../src/setup/file/readSetup.ts";
import { anySetup, demo } from "../setups.ts";

const air = { density: 1.18, soundSpeed: 346, viscosity: 1.84e-5, heatRatio: 1.4, prandtl: 0.71 };

/** A cylinder of 1400 mm, closed at the rim and ideally open at the other end, written as an instrument. */
const cylinder = () => {
  const bore = (length: number) => [
    [0, 12],
    [length, 12],
  ];
  return readSetup({
    format: "annulus-setup",
    version: 1,
    units: "mm",
    air,
    mouthpiece: { profile: bore(80), insertion: 18 },
    receiver: { mouthDiameter: 12.000001, taper: 0, depth: 20 },
    leadpipe: { profile: bore(318) },
    body: { profile: bore(1000), slideAt: 100 },
    model: { junction: "plane", radiation: "open" },
  });
};

describe("resonances", () => {
  it("of a lossy cylinder solve ΓL = jπ(2n−1)/2", () => {
    const column = new AirColumn(cylinder(), 20, 1600);
    const modes = resonancesOf(column, column.line.gap(0.002), 10);
    expect(modes.length).toBe(10);
    const [a, L] = [0.006, 1.4];
    const [fv, ft] = [new Float64Array(2), new Float64Array(2)];
    modes.forEach(({ frequency, decay }, i) => {
      // Γ² = −(ω/c)² (1+(γ−1)F_t)/(1−F_v), at the complex frequency found
      const s = (a * a * 2 * Math.PI * air.density) / air.viscosity;
      wallLoss(s * frequency, s * decay, fv);
      wallLoss(s * frequency * air.prandtl, s * decay * air.prandtl, ft);
      const [nr, ni] = [1 + 0.4 * ft[0], 0.4 * ft[1]];
      const [dr, di] = [1 - fv[0], -fv[1]];
      const d = dr * dr + di * di;
      const [qr, qi] = [(nr * dr + ni * di) / d, (ni * dr - nr * di) / d];
      const k = (2 * Math.PI) / air.soundSpeed;
      const [wr, wi] = [k * k * (frequency ** 2 - decay ** 2), 2 * k * k * frequency * decay];
      const target = ((Math.PI * (2 * i + 1)) / 2 / L) ** 2;
      expect((wr * qr - wi * qi) / target).toBeCloseTo(1, 7);
      expect((wr * qi + wi * qr) / target).toBeCloseTo(0, 7);
    });
  });

  it("are zeros of the admittance through every section, not only of its interpolant", () => {
    const column = new AirColumn(demo(), 30, 1700);
    const gap = column.line.gap(0.0025);
    const state = new Float64Array(4);
    const found = resonancesOf(column, gap, 12);
    expect(found).toHaveLength(12);
    for (const { frequency, decay } of found) {
      column.line.rimState(gap, 0, 2 * Math.PI * frequency, 2 * Math.PI * decay, state);
      const admittance = Math.hypot(state[2], state[3]) / Math.hypot(state[0], state[1]);
      // against that a hundredth of a hertz away
      column.line.rimState(gap, 0, 2 * Math.PI * (frequency + 0.01), 2 * Math.PI * decay, state);
      expect(admittance / (Math.hypot(state[2], state[3]) / Math.hypot(state[0], state[1]))).toBeLessThan(
        1e-3,
      );
    }
  });

  it("add up to the impedance: residues over jω − jω_n, near each resonance", () => {
    const column = new AirColumn(demo(), 30, 1700);
    const gap = column.line.gap(0.0025);
    const state = new Float64Array(4);
    const found = resonancesOf(column, gap, 10);
    expect(found).toHaveLength(10);
    for (const mode of found) {
      const [cRe, cIm] = residueOf(column, gap, mode);
      const e = 0.05;
      column.rimState(gap, 0, mode.frequency + e, mode.decay, state);
      const [pr, pi, ur, ui] = state;
      const size = ur * ur + ui * ui;
      // Z·j2πe, e off the resonance along the real axis
      const z = [(pr * ur + pi * ui) / size, (pi * ur - pr * ui) / size];
      const product = [-2 * Math.PI * e * z[1], 2 * Math.PI * e * z[0]];
      expect(Math.hypot(product[0] - cRe, product[1] - cIm) / Math.hypot(cRe, cIm)).toBeLessThan(0.02);
    }
  });

  it("are found without gaps in any bore: numbers and peaks in step, none below Q 1.5", () => {
    fc.assert(
      fc.property(anySetup, (setup) => {
        const line = new AirColumn(setup, 60, 1200);
        const gap = line.line.gap((setup.receiver.depthMm - setup.mouthpiece.insertionMm) / 1000);
        const modes = resonancesOf(line, gap, 40);
        expect(modes.length).toBeGreaterThan(0);
        modes.forEach(({ frequency, Q, peak }, i) => {
          expect(Q).toBeGreaterThan(1.5);
          if (i > 0) expect(frequency).toBeGreaterThan(modes[i - 1].frequency);
          if (peak) expect(Math.abs(peak.frequency / frequency - 1)).toBeLessThan(0.3);
        });
        // asked again from what was learnt, the answer is the same
        expect(resonancesOf(line, gap, 40).length).toBe(modes.length);
      }),
      { numRuns: 25 },
    );
  });
});
