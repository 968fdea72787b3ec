import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { AirColumn } from "../../../src/acoustics/airColumn.ts";
import { Line } from "../../../src/acoustics/duct/line.ts";
import { resonancesOf } from "../../../src/acoustics/resonance/resonances.ts";
import { readSetup } from "../../../src/setup/file/readSetup.ts";
import type { Setup } from "../../../src/setup/setup.ts";
import { json } from "../../reference/table.ts";
import { anySetup, demo } from "../setups.ts";

interface Case {
  readonly gap_mm: number;
  readonly frequency_Hz: number[];
  readonly re_Pa_s_m3: number[];
  readonly im_Pa_s_m3: number[];
  readonly peaks: { frequency_Hz: number; magnitude_Pa_s_m3: number }[];
}

function impedance(line: Line, gapMm: number, f: number): [re: number, im: number] {
  const state = new Float64Array(4);
  line.rimState(line.gap(gapMm / 1000), 0, 2 * Math.PI * f, 0, state);
  const [pr, pi, ur, ui] = state;
  const size = ur * ur + ui * ui;
  return [(pr * ur + pi * ui) / size, (pi * ur - pr * ui) / size];
}

function expectCase(setup: Setup, { gap_mm, frequency_Hz, re_Pa_s_m3, im_Pa_s_m3, peaks }: Case): void {
  const line = new Line(setup);
  frequency_Hz.forEach((f, i) => {
    const [re, im] = impedance(line, gap_mm, f);
    const [re0, im0] = [re_Pa_s_m3[i], im_Pa_s_m3[i]];
    expect(Math.abs(20 * Math.log10(Math.hypot(re, im) / Math.hypot(re0, im0)))).toBeLessThan(1e-4);
    const turn = Math.atan2(im * re0 - re * im0, re * re0 + im * im0);
    expect(Math.abs((turn * 180) / Math.PI)).toBeLessThan(1e-3);
  });
  const spacing = line.soundSpeed / (2 * line.length);
  const column = new AirColumn(setup, spacing / 4, (peaks.length + 2) * spacing, line);
  const modes = resonancesOf(column, line.gap(gap_mm / 1000), peaks.length);
  peaks.forEach(({ frequency_Hz, magnitude_Pa_s_m3 }, i) => {
    const peak = modes[i].peak!;
    expect(Math.abs(1200 * Math.log2(peak.frequency / frequency_Hz))).toBeLessThan(1e-3);
    expect(Math.abs(20 * Math.log10(peak.magnitude / magnitude_Pa_s_m3))).toBeLessThan(1e-4);
  });
}

describe("the line from rim to bell", () => {
  // Integration of the horn equation by SciPy (DOP853); both tables name their scripts.
  const start = json("duct/start-horn.json");
  it.each(start.cases as Case[])("equals the integrated horn equation, gap $gap_mm mm", (reference) => {
    expectCase(readSetup(json("duct/start-horn.setup.json")), reference);
  });

  const horns = json("duct/horns.json").cases as (Case & { setup: { name: string } })[];
  it.each(horns)("equals the integrated horn equation: $setup.name, gap $gap_mm mm", (reference) => {
    expectCase(readSetup(reference.setup), reference);
  });

  it("has the peaks of the 3000 mm cone (Nederveen 2019; Ernoult & Kergomard 2020) within 0.5 cent", () => {
    const { air, peaks } = json("duct/cone-3000.json");
    const d = (x: number) => 4.2 + (42.7 * x) / 3000;
    const setup = readSetup({
      format: "annulus-setup",
      version: 1,
      units: "mm",
      air,
      mouthpiece: {
        profile: [
          [0, d(0)],
          [50, d(50)],
        ],
        insertion: 20,
      },
      receiver: { mouthDiameter: 12, taper: 0, depth: 20 },
      leadpipe: {
        profile: [
          [0, d(50)],
          [950, d(1000)],
        ],
      },
      body: {
        profile: [
          [0, d(1000)],
          [2000, 46.9],
        ],
      },
      model: { junction: "plane", radiation: "open" },
    });
    const line = new Line(setup);
    const column = new AirColumn(setup, 15, 560, line);
    const modes = resonancesOf(column, line.gap(0), peaks.length);
    expect(peaks).toHaveLength(9);
    peaks.forEach((peak: { frequency_Hz: number; magnitude_Pa_s_m3: number }, i: number) => {
      expect(Math.abs(1200 * Math.log2(modes[i].peak!.frequency / peak.frequency_Hz))).toBeLessThan(0.2);
      expect(modes[i].peak!.magnitude / peak.magnitude_Pa_s_m3).toBeCloseTo(1, 4);
    });
  });

  it("never reflects more than it gets, for any bore, gap and air: Re Z ≥ 0", () => {
    fc.assert(
      fc.property(anySetup, fc.double({ min: 20, max: 3000, noNaN: true }), (setup, f) => {
        const [re, im] = impedance(new Line(setup), setup.receiver.depthMm - setup.mouthpiece.insertionMm, f);
        expect(Number.isFinite(re) && Number.isFinite(im)).toBe(true);
        expect(re).toBeGreaterThan(-1e-7 * Math.hypot(re, im));
      }),
      { numRuns: 60 },
    );
  });

  it("joins shank and leadpipe directly as the gap closes, modal and plane", () => {
    for (const junction of ["modal", "plane"] as const) {
      const setup = { ...demo(), model: { ...demo().model, junction } };
      const line = new Line(setup);
      for (const f of [116, 350, 930, 1700]) {
        const [re, im] = impedance(line, 0, f);
        const [re1, im1] = impedance(line, 1e-4, f);
        expect(Math.hypot(re - re1, im - im1) / Math.hypot(re, im)).toBeLessThan(2e-5);
      }
    }
  });

  it("warms the bore with a breath: resonances rise, most where the breath is", () => {
    const cold = demo();
    if (cold.air.kind !== "conditions") throw new Error("the demo gives its air as conditions");
    const warm = { ...cold, air: { ...cold.air, breath: { temperatureC: 36, reachMm: 400 } } };
    const all = { ...cold, air: { ...cold.air, temperatureC: 36 } };
    const [a, b, c] = [cold, warm, all].map((setup) => {
      const column = new AirColumn(setup, 40, 1000);
      return resonancesOf(column, column.line.gap(0.0025), 6)[3].frequency;
    });
    expect(b).toBeGreaterThan(a);
    expect(c).toBeGreaterThan(b);
  });

  it("loses more behind a rough wall", () => {
    const rough = { ...demo(), model: { ...demo().model, wallLossFactor: 1.5 } };
    const [a, b] = [demo(), rough].map((setup) => {
      const column = new AirColumn(setup, 40, 1000);
      return resonancesOf(column, column.line.gap(0.0025), 6).map(({ Q }) => Q);
    });
    expect(a).toHaveLength(6);
    a.forEach((Q, i) => {
      expect(b[i]).toBeLessThan(Q);
    });
  });
});
