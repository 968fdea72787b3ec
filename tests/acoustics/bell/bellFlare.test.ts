import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { AirColumn } from "../../../src/acoustics/airColumn.ts";
import {
  bellFlare,
  characteristicImpedance,
  flareReflection,
  flareStart,
} from "../../../src/acoustics/bell/bellFlare.ts";
import { radiationState } from "../../../src/acoustics/bell/radiation.ts";
import { type Bore, boreOf } from "../../../src/acoustics/duct/bore.ts";
import { Chain } from "../../../src/acoustics/duct/chain.ts";
import { Line } from "../../../src/acoustics/duct/line.ts";
import { applyTo } from "../../../src/acoustics/duct/twoPort.ts";
import { Interpolant } from "../../../src/acoustics/numerics/chebyshev.ts";
import { resonancesOf } from "../../../src/acoustics/resonance/resonances.ts";
import type { Setup } from "../../../src/setup/setup.ts";
import { numbers } from "../../reference/table.ts";
import { anySetup, demo } from "../setups.ts";

const START_MM = 717.56;
/** Air of the finite elements: no losses. */
const air = { density: 1.2, soundSpeed: 345, viscosity: 1e-12, heatRatio: 1.4, prandtl: 0.71 };
const lossless = (bell: "plane" | "multimodal", radiation: "unflanged" | "flanged" = "unflanged"): Setup => ({
  ...demo(),
  air: { kind: "constants", ...air },
  model: { ...demo().model, bell, radiation },
});
/** frequency, R of the free bell, R of the flanged one, re and im. */
const table = numbers("bell/flare.csv");

/** The pieces of the lower bore before and after the finite elements' start. */
function parted({ lower, slide }: Bore, setup: Setup) {
  expect(slide).not.toBeNull();
  let x = setup.body.slideAtMm!;
  const at = lower.findIndex(({ length }) => {
    const here = Math.abs(x - START_MM) < 1e-6;
    x += 1000 * length;
    return here;
  });
  expect(at).toBeGreaterThan(0);
  return { before: lower.slice(0, at), flare: lower.slice(at) };
}

const setup = lossless("multimodal");
const { before, flare } = parted(boreOf(setup), setup);
const reflection = (
  radiation: "unflanged" | "flanged" | "open",
  hz: number,
  count = 5,
  wallLossFactor = 1,
) => {
  const out = new Float64Array(2);
  flareReflection(flare, { radiation, wallLossFactor }, hz, count, out);
  return out;
};

/** Real frequencies of resonances 2 to 10 at a gap of 2.5 mm. */
const resonances = (of: Setup, gap = 0.0025): number[] => {
  const column = new AirColumn(of, 40, 1700);
  return resonancesOf(column, column.line.gap(gap), 10)
    .slice(1)
    .map(({ frequency }) => frequency);
};

/** e^{−2jkL} of most of the flare, at complex frequency: without it R has few enough turns for the table's points. */
const turned = (re: number, im: number): [number, number] => {
  const phase = (-4 * Math.PI * 0.27) / 345;
  const size = Math.exp(-phase * im);
  return [size * Math.cos(phase * re), size * Math.sin(phase * re)];
};

/** The same with the finite elements' R at the start of the flare, each from a start nearby: the secant method on U at the rim. */
function finiteElementResonances(column: 1 | 3, starts: readonly number[], gap = 0.0025): number[] {
  const r = new Interpolant(
    40,
    2000,
    1,
    table.length - 1,
    (f, out) => {
      const row = table.find(([hz]) => Math.abs(hz - f) < 1e-3)!;
      const [re, im] = turned(f, 0);
      // over e^{−2jkL}
      out[0] = row[column] * re + row[column + 1] * im;
      out[1] = row[column + 1] * re - row[column] * im;
    },
    // the points are those of the table, no more
    1,
  );
  const line = new Line(setup);
  const { mouthpiece, upper, wallLossFactor, junction } = line.bore;
  const [cup, pipe, tube] = [mouthpiece, upper, before].map(
    (part) => new Chain(part, wallLossFactor, junction),
  );
  const zc = characteristicImpedance(flare[0]);
  const between = line.gap(gap);
  const port = new Float64Array(8);
  const out = new Float64Array(2);
  const flow = (re: number, im: number): [number, number] => {
    r.evaluate(re, im, out);
    const [tRe, tIm] = turned(re, im);
    const [rRe, rIm] = [out[0] * tRe - out[1] * tIm, out[0] * tIm + out[1] * tRe];
    const state = Float64Array.of(zc * (1 + rRe), zc * rIm, 1 - rRe, -rIm);
    const [wRe, wIm] = [2 * Math.PI * re, 2 * Math.PI * im];
    tube.propagate(state, wRe, wIm);
    pipe.propagate(state, wRe, wIm);
    between.twoPort(wRe, wIm, port);
    applyTo(state, port);
    cup.propagate(state, wRe, wIm);
    return [state[2], state[3]];
  };
  return starts.map((start) => {
    let [x, y] = [start, 5];
    let [v, w] = flow(x, y);
    let [dx, dy] = [0, -0.5];
    for (let i = 0; i < 50 && Math.hypot(dx, dy) > 1e-7 * x; i++) {
      x += dx;
      y += dy;
      const [v1, w1] = flow(x, y);
      const [a, b] = [v1 - v, w1 - w];
      const size = a * a + b * b;
      const [c, d] = [-(v1 * dx - w1 * dy), -(v1 * dy + w1 * dx)];
      [dx, dy] = [(c * a + d * b) / size, (d * a - c * b) / size];
      [v, w] = [v1, w1];
    }
    return x;
  });
}

const cents = (x: number, y: number) => 1200 * Math.log2(x / y);

describe("the multimodal bell", () => {
  // finite elements of the demo's bell (bell/flare.py), themselves good to 0.004
  it("reflects what finite elements find, with a flange: within 0.006", () => {
    for (const [hz, , , re, im] of table) {
      const [a, b] = reflection("flanged", hz);
      expect(Math.hypot(a - re, b - im)).toBeLessThan(0.006);
    }
  });

  it("reflects what finite elements find of the free bell: within 0.014 to 900 Hz, 0.05 beyond", () => {
    for (const [hz, re, im] of table) {
      const [a, b] = reflection("unflanged", hz);
      expect(Math.hypot(a - re, b - im)).toBeLessThan(hz < 900 ? 0.014 : 0.05);
    }
  });

  it.each([
    ["unflanged", 1],
    ["flanged", 3],
  ] as const)(
    "has resonances 2 to 10 of finite elements within 1 cent, plane waves up to 17 off: %s",
    (kind, column) => {
      const multimodal = resonances(lossless("multimodal", kind));
      const plane = resonances(lossless("plane", kind));
      const exact = finiteElementResonances(column, multimodal);
      expect(exact).toHaveLength(9);
      exact.forEach((f, i) => {
        expect(Math.abs(cents(multimodal[i], f))).toBeLessThan(1);
      });
      expect(cents(plane[8], exact[8])).toBeGreaterThan(14.5);
      expect(cents(plane[8], exact[8])).toBeLessThan(17.5);
    },
  );

  it("changes what a gap does by less than 0.3 cents: errors common to all gaps cancel", () => {
    const shifts = (["plane", "multimodal"] as const).map((bell) => {
      const of = lossless(bell);
      const from = resonances(of, 0.0005);
      return resonances(of, 0.004).map((f, i) => cents(f, from[i]));
    });
    const exact = (() => {
      const near = resonances(lossless("multimodal"), 0.0005);
      const from = finiteElementResonances(1, near, 0.0005);
      return finiteElementResonances(1, near, 0.004).map((f, i) => cents(f, from[i]));
    })();
    expect(shifts[0]).toHaveLength(9);
    shifts[0].forEach((shift, i) => {
      expect(Math.abs(shift - shifts[1][i])).toBeLessThan(0.3);
      expect(Math.abs(exact[i] - shifts[1][i])).toBeLessThan(0.1);
    });
  });

  it("converges fast with the number of functions", () => {
    for (const hz of [300, 1000, 1600]) {
      const fine = reflection("flanged", hz, 10);
      const error = (count: number) => {
        const [re, im] = reflection("flanged", hz, count);
        return Math.hypot(re - fine[0], im - fine[1]);
      };
      expect(error(3)).toBeLessThan(2.1e-4);
      expect(error(5)).toBeLessThan(2e-5);
      expect(error(1)).toBeGreaterThan(50 * error(3));
    }
  });

  it("sends back all that comes in from a mouth that radiates nothing, whatever the flare and the functions", () => {
    fc.assert(
      fc.property(
        anySetup,
        fc.integer({ min: 1, max: 8 }),
        fc.double({ min: 20, max: 3000, noNaN: true }),
        (of, count, hz) => {
          const { lower } = boreOf({ ...of, air: { kind: "constants", ...air } });
          const out = new Float64Array(2);
          flareReflection(lower.slice(-1), { radiation: "open", wallLossFactor: 1e-6 }, hz, count, out);
          expect(Math.abs(Math.hypot(...out) - 1)).toBeLessThan(1e-6);
        },
      ),
      { numRuns: 40 },
    );
  });

  it("never sends back more than comes in", () => {
    for (const kind of ["unflanged", "flanged"] as const)
      for (let hz = 20; hz < 6000; hz += 233)
        expect(Math.hypot(...reflection(kind, hz, 7))).toBeLessThan(1 + 1e-9);
  });

  it("is the lossy horn of plane waves with one function", () => {
    const real = demo();
    const bore = boreOf(real);
    const { flare: pieces } = parted(bore, real);
    const out = new Float64Array(2);
    const state = new Float64Array(4);
    const { radiusOut, air: warm } = pieces[pieces.length - 1];
    for (const hz of [60, 500, 1400]) {
      flareReflection(pieces, { radiation: "open", wallLossFactor: 1 }, hz, 1, out);
      radiationState("open", radiusOut, warm, 2 * Math.PI * hz, 0, state);
      new Chain(pieces, 1, "modal").propagate(state, 2 * Math.PI * hz, 0);
      const zc = characteristicImpedance(pieces[0]);
      const [nRe, nIm, dRe, dIm] = [
        state[0] - zc * state[2],
        state[1] - zc * state[3],
        state[0] + zc * state[2],
        state[1] + zc * state[3],
      ];
      const size = dRe * dRe + dIm * dIm;
      expect(
        Math.hypot(out[0] - (nRe * dRe + nIm * dIm) / size, out[1] - (nIm * dRe - nRe * dIm) / size),
      ).toBeLessThan(1e-5);
    }
  });

  it("is a cylinder's end reflection, turned by e^{−2jkL}, in a cylinder", () => {
    const pipe = [{ length: 0.3, radiusIn: 0.02, radiusOut: 0.02, air }];
    const end = [{ length: 1e-6, radiusIn: 0.02, radiusOut: 0.02, air }];
    const [long, short] = [new Float64Array(2), new Float64Array(2)];
    for (const hz of [100, 1000, 2500]) {
      flareReflection(pipe, { radiation: "unflanged", wallLossFactor: 1e-3 }, hz, 5, long);
      flareReflection(end, { radiation: "unflanged", wallLossFactor: 1e-3 }, hz, 5, short);
      expect(Math.hypot(...long)).toBeCloseTo(Math.hypot(...short), 6);
      const turn = Math.atan2(long[1], long[0]) - Math.atan2(short[1], short[0]);
      expect(Math.cos(turn + (2 * 2 * Math.PI * hz * 0.3) / 345)).toBeCloseTo(1, 6);
    }
  });

  it("is made once for one body", () => {
    const mouth = { radiation: "unflanged", wallLossFactor: 1 } as const;
    expect(bellFlare(flare, mouth)).toBe(bellFlare([...flare], mouth));
    expect(bellFlare(flare, mouth)).not.toBe(bellFlare(flare, { ...mouth, radiation: "flanged" }));
  });

  it("begins where fronts bend, behind the last step, and needs no flare", () => {
    const cylinder = { length: 0.5, radiusIn: 0.006, radiusOut: 0.006, air };
    const step = { length: 0, radiusIn: 0.006, radiusOut: 0.007, air };
    const cone = { length: 0.1, radiusIn: 0.007, radiusOut: 0.05, air };
    expect(flareStart([cylinder, step, cone])).toBe(2);
    expect(
      flareStart([
        cone,
        { ...step, radiusIn: 0.05, radiusOut: 0.06 },
        { ...cone, radiusIn: 0.06, radiusOut: 0.07 },
      ]),
    ).toBe(2);
    expect(flareStart([cylinder, cylinder])).toBe(2);
  });

  it("gives a standing wave that is whole from bell to rim", () => {
    const line = new Line(setup);
    let last = 0;
    const seen: number[] = [];
    line.trace(
      line.gap(0.0025),
      0,
      2 * Math.PI * 465,
      (fromBell, _, [pRe, pIm]) => {
        expect(fromBell).toBeGreaterThanOrEqual(last);
        last = fromBell;
        seen.push(Math.hypot(pRe, pIm));
      },
      0.004,
    );
    const most = Math.max(...seen);
    expect(most).toBeGreaterThan(0);
    expect(seen).toHaveLength(430);
    seen.slice(1).forEach((p, i) => {
      expect(Math.abs(p - seen[i]) / most).toBeLessThan(0.2);
    });
  });
});
