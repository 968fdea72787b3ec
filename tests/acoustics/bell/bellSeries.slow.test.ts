/** The bell's reflection as a series in frequency: seconds to make for a range beyond the usual one, and for bores that are drawn. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { AirColumn } from "../../../src/acoustics/airColumn.ts";
import { BellFlare, flareReflection } from "../../../src/acoustics/bell/bellFlare.ts";
import { Line } from "../../../src/acoustics/duct/line.ts";
import type { Setup } from "../../../src/setup/setup.ts";
import { anySetup, demo } from "../setups.ts";

const mouth = { radiation: "unflanged", wallLossFactor: 1 } as const;
const { bore, flareAt } = new Line({ ...demo(), model: { ...demo().model, bell: "multimodal" } });
const flare = bore.lower.slice(flareAt);

describe("the bell's series", () => {
  it("goes on to complex frequencies analytically, and is exact on the axis", () => {
    const bell = new BellFlare(flare, mouth);
    const at = (re: number, im: number) => {
      const out = new Float64Array(2);
      bell.reflection(2 * Math.PI * re, 2 * Math.PI * im, out);
      return out;
    };
    const expected = new Float64Array(2);
    for (const hz of [35, 400, 1100, 2400, 4000]) {
      flareReflection(flare, mouth, hz, 8, expected);
      const [re, im] = expected;
      const [a, b] = at(hz, 0);
      expect(Math.hypot(a - re, b - im)).toBeLessThan(1e-4);
      for (const decay of [hz / 80, hz / 30]) {
        const d = 0.5;
        const [e, w, n, s] = [at(hz + d, decay), at(hz - d, decay), at(hz, decay + d), at(hz, decay - d)];
        expect(e[0] - w[0]).toBeCloseTo(n[1] - s[1], 4);
        expect(e[1] - w[1]).toBeCloseTo(s[0] - n[0], 4);
      }
    }
    expect(() => at(60_000, 0)).toThrow(/60000 Hz is too high .* give at most \d+ Hz/);
  });

  it("works for any bore that it does not refuse: the same resonances from the line and its series, Re Z ≥ 0", () => {
    /** null: too much to work out, which it says; another is drawn then. */
    const columnOrRefusal = (any: Setup): AirColumn | null => {
      try {
        return new AirColumn(any, 60, 1200);
      } catch (error) {
        expect(String(error)).toMatch(/cannot be worked out for this bell/);
        return null;
      }
    };
    fc.assert(
      fc.property(anySetup, (of) => {
        const any: Setup = { ...of, model: { ...of.model, bell: "multimodal" } };
        const column = columnOrRefusal(any);
        if (!column) return fc.pre(false);
        const gap = column.line.gap(Math.min(2, of.receiver.depthMm) / 1000);
        const state = new Float64Array(4);
        for (const hz of [61, 333, 900, 1190]) {
          column.line.rimState(gap, 0, 2 * Math.PI * hz, 0, state);
          const [pRe, pIm, uRe, uIm] = state;
          expect(pRe * uRe + pIm * uIm).toBeGreaterThan(-1e-6 * Math.hypot(pRe, pIm) * Math.hypot(uRe, uIm));
          const close = new Float64Array(4);
          column.rimState(gap, 0, hz, 0, close);
          const ratio = Math.hypot(close[0], close[1]) / Math.hypot(close[2], close[3]);
          expect(ratio / (Math.hypot(pRe, pIm) / Math.hypot(uRe, uIm))).toBeCloseTo(1, 4);
        }
      }),
      { numRuns: 3 },
    );
  });
});
