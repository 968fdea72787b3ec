import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Modes, staticResistance } from "../../src/lips/modes.ts";
import { NeutralSearch } from "../../src/lips/neutral.ts";
import { OneMass } from "../../src/lips/oneMass.ts";
import { Oscillator } from "../../src/lips/oscillator.ts";
import { playingOf } from "../../src/lips/playing.ts";
import { Stability } from "../../src/lips/stability.ts";
import { type Threshold, Thresholds } from "../../src/lips/threshold.ts";
import { TwoWay, type TwoWayValve } from "../../src/lips/twoWay.ts";
import { DEFAULT_TWO_WAY_LIPS, TWO_WAY_PARAMETERS, type TwoWayName } from "../../src/lips/twoWayLips.ts";
import { checkLips } from "../../src/lips/valve.ts";
import { json } from "../reference/table.ts";
import { anyModes, COLUMN, USUAL } from "./columns.ts";

const { cases, thresholds, times, lips: sets } = json("lips/two-way.json");
const { density } = USUAL;
const valveNamed = (name: string): TwoWayValve => ({ model: "two-way", ...sets[name], density });
const usual: TwoWayValve = { ...DEFAULT_TWO_WAY_LIPS, density };
const resistance = Math.max(0, staticResistance(COLUMN));

/** Any the parameters' ranges allow, and twice as far off. */
const anyTwoWay: fc.Arbitrary<TwoWayValve> = fc
  .record(
    Object.fromEntries(
      Object.entries(TWO_WAY_PARAMETERS).map(([name, { range }]) => [
        name,
        fc.double({ min: range[0] / 2, max: range[1] * 2, noNaN: true }),
      ]),
    ) as { [Name in TwoWayName]: fc.Arbitrary<number> },
  )
  .map((lips) => ({ model: "two-way", ...lips, density }));

/** Pressures in the mouth as the stream goes faster, Pa, until it is far more than anybody blows. */
function pressuresOf(valve: TwoWayValve, lipHz: number, of = resistance): number[] {
  const lips = new TwoWay(valve);
  const pressures: number[] = [];
  for (let v = 1; v < 400; v *= 1.03) pressures.push(lips.restWith(of, lipHz, v).mouthPressure);
  return pressures;
}
const rises = (values: readonly number[]): boolean =>
  values.every((value, i) => i === 0 || value > values[i - 1]);

function lowestOf(search: Thresholds, lipHz: number): Threshold | null {
  let best: Threshold | null = null;
  for (let n = 1; n <= search.notes; n++) {
    const found = search.at(n, lipHz);
    if (found && (!best || found.mouthPressure < best.mouthPressure)) best = found;
  }
  return best;
}

/** Largest distance of any found zero from the nearest expected one not yet taken. */
function farthest(found: Float64Array, expected: readonly number[]): number {
  const left = Array.from({ length: found.length / 2 }, (_, k) => [found[2 * k], found[2 * k + 1]]);
  let worst = 0;
  for (let k = 0; k < expected.length; k += 2) {
    const distances = left.map(([re, im]) => Math.hypot(re - expected[k], im - expected[k + 1]));
    const nearest = distances.indexOf(Math.min(...distances));
    worst = Math.max(worst, distances[nearest]);
    left.splice(nearest, 1);
  }
  return worst;
}

describe("lips that move two ways", () => {
  // scipy.optimize.root on the nonlinear equations
  it("rest where SciPy has them", () => {
    expect(cases).toHaveLength(36);
    for (const { lips, lipHz, mouthPressure, opening, swing, flow } of cases) {
      const rest = new TwoWay(valveNamed(lips)).restUnder(resistance, lipHz, mouthPressure);
      expect(rest.opening / opening).toBeCloseTo(1, 8);
      expect(rest.swing / swing).toBeCloseTo(1, 8);
      expect(rest.flow / flow).toBeCloseTo(1, 8);
      expect(rest.mouthPressure / mouthPressure).toBeCloseTo(1, 12);
    }
  });

  // numpy.linalg.eig of the full real matrix, made by complex steps: nothing linearised by hand
  it("have LAPACK's eigenvalues, cold and continued", () => {
    const continued = new Map<string, Stability>();
    for (const { lips, lipHz, mouthPressure, eigenvalues } of cases) {
      const cold = new Stability(valveNamed(lips), COLUMN);
      const warm = continued.get(lips) ?? cold;
      continued.set(lips, warm);
      for (const stability of [cold, warm]) {
        const found = stability.eigenvalues(lipHz, mouthPressure);
        expect(found.length).toBe(eigenvalues.length);
        expect(
          farthest(found, eigenvalues) / (2 * Math.PI * lipHz),
          `${lips} ${lipHz} ${mouthPressure}`,
        ).toBeLessThan(1e-6);
      }
    }
  });

  // brentq on the largest real part, after a scan of 120 pressures to 60 kPa
  it("start at SciPy's pressures and frequencies, and nothing starts where SciPy finds nothing", () => {
    let compared = 0;
    expect(thresholds).toHaveLength(24);
    for (const { lips, lipHz, pressure, frequency } of thresholds) {
      const found = lowestOf(new Thresholds(valveNamed(lips), COLUMN), lipHz);
      const of = `${lips} at ${lipHz} Hz`;
      if (pressure === null) {
        expect(found === null || found.mouthPressure > 60e3, of).toBe(true);
        continue;
      }
      expect(found!.mouthPressure / pressure, of).toBeCloseTo(1, 6);
      expect(found!.frequencyHz / frequency, of).toBeCloseTo(1, 7);
      compared++;
    }
    expect(compared).toBeGreaterThan(12);
  });

  it("start where an eigenvalue crosses the axis, and below it all decay, on any column", () => {
    let crossed = 0;
    fc.assert(
      fc.property(
        anyModes,
        anyTwoWay,
        fc.double({ min: 60, max: 1200, noNaN: true }),
        (modes, valve, lipHz) => {
          // else they rest in several ways under one pressure
          if (!rises(pressuresOf(valve, lipHz, Math.max(0, staticResistance(modes))))) return;
          const search = new Thresholds(valve, modes);
          const found = lowestOf(search, lipHz);
          if (!found || found.mouthPressure > 50e3) return;
          const stability = new Stability(valve, modes);
          // nothing started lower outside the notes' bands
          if (stability.fastest(lipHz, 0.97 * found.mouthPressure).rate > 0) return;
          crossed++;
          // the note's own: another may have started outside the bands since
          const values = stability.eigenvalues(lipHz, found.mouthPressure);
          const omega = 2 * Math.PI * found.frequencyHz;
          const off = Array.from({ length: values.length / 2 }, (_, k) =>
            Math.hypot(values[2 * k], values[2 * k + 1] - omega),
          );
          expect(Math.min(...off)).toBeLessThan(1e-5 * omega);
        },
      ),
      { numRuns: 150 },
    );
    expect(crossed).toBeGreaterThan(10);
  });

  it("rest in one way only under any pressure, everywhere in their parameters' ranges", () => {
    const inRange: fc.Arbitrary<TwoWayValve> = fc
      .record(
        Object.fromEntries(
          Object.entries(TWO_WAY_PARAMETERS).map(([name, { range }]) => [
            name,
            fc.double({ min: range[0], max: range[1], noNaN: true }),
          ]),
        ) as { [Name in TwoWayName]: fc.Arbitrary<number> },
      )
      .map((lips) => ({ model: "two-way", ...lips, density }));
    const hz = fc.double({ min: 60, max: 1200, noNaN: true });
    fc.assert(
      fc.property(inRange, hz, fc.double({ min: 0, max: 8e5, noNaN: true }), (valve, lipHz, of) => {
        const pressures = pressuresOf(valve, lipHz, of);
        expect(pressures[pressures.length - 1]).toBeGreaterThan(50e3);
        expect(rises(pressures)).toBe(true);
      }),
      { numRuns: 300 },
    );
  });

  // both met by the search on any column, and far outside the parameters' ranges
  it("rest under the pressure that is asked for, also where it rises six times as steeply as the stream", () => {
    const lips = new TwoWay({
      model: "two-way",
      massFactor: 0.4999960500585257,
      quality: 9.311187138577125,
      protrusion: 0.005599999999999993,
      restOpening: 0.00021811695901603027,
      width: 0.013941274209788962,
      thickness: 0.0007068049906601347,
      stiffnessRatio: 1.0109277216928731,
      density,
    });
    const pressure = 8852.652902073616;
    const rest = lips.restUnder(1548425.95, 102.04313723788941, pressure);
    expect(rest.mouthPressure / pressure).toBeCloseTo(1, 12);
  });

  it("rest as far open as a breath that grows from nothing brings them, where they balance in three ways", () => {
    const lips = new TwoWay({
      ...{ model: "two-way", massFactor: 0.4744, quality: 16, protrusion: 0.002114, restOpening: 0.0000344 },
      ...{ width: 0.01959, thickness: 0.001531, stiffnessRatio: 1.7388, density },
    });
    const openings: number[] = [];
    for (let v = 10; v < 15; v *= 1.001) openings.push(lips.restWith(2.5e6, 142.7, v).opening);
    openings.forEach((opening, i) => {
      if (i > 0) expect(opening / openings[i - 1]).toBeLessThan(1.01);
      expect(opening).toBeLessThan(0.0007);
    });
  });

  it("do not flutter without a column up to twice the pressures that notes start with", () => {
    const lips = new TwoWay(usual);
    const search = new Thresholds(usual, COLUMN);
    for (let n = 2; n <= 10; n++) {
      const { lipHz, mouthPressure } = search.lowest(n)!;
      const { denominator: d } = lips.response(lipHz, lips.restUnder(0, lipHz, 2 * mouthPressure));
      // Hurwitz's last determinant of s⁴ + d₃s³ + d₂s² + d₁s + d₀
      expect(d[3] * d[2] * d[1] - d[1] ** 2 - d[3] ** 2 * d[0], `note ${n}`).toBeGreaterThan(0);
    }
    // softer lips of one frequency do
    const soft = new TwoWay({ ...usual, quality: 30 });
    const { denominator: d } = soft.response(465, soft.restUnder(0, 465, 8000));
    expect(d[3] * d[2] * d[1] - d[1] ** 2 - d[3] ** 2 * d[0]).toBeLessThan(0);
  });

  it("each parameter at either end of its range sounds within a semitone of the resonance, at a player's pressures", () => {
    for (const name of Object.keys(TWO_WAY_PARAMETERS) as TwoWayName[])
      for (const value of TWO_WAY_PARAMETERS[name].range) {
        const search = new Thresholds({ ...usual, [name]: value }, COLUMN);
        for (const n of [3, 5, 8]) {
          const { frequencyHz, mouthPressure } = search.lowest(n)!;
          const resonance = COLUMN.poles[2 * n - 1] / (2 * Math.PI);
          expect(
            Math.abs(1200 * Math.log2(frequencyHz / resonance)),
            `${name} ${value}, note ${n}`,
          ).toBeLessThan(100);
          expect(mouthPressure).toBeLessThan(15e3);
        }
      }
  });

  it("are refused in words where a parameter cannot be", () => {
    expect(() => checkLips({ ...DEFAULT_TWO_WAY_LIPS, thickness: -1 })).toThrow(
      /lips' thickness of -1 cannot be used: give 0 to/,
    );
    expect(() => checkLips({ ...DEFAULT_TWO_WAY_LIPS, quality: Number.NaN })).toThrow(/quality factor/);
  });
});

describe("the search of any lips", () => {
  it("finds one-mass lips' thresholds where their own closed form has them", () => {
    const lips = new OneMass(USUAL);
    const own = new Thresholds(USUAL, COLUMN);
    let compared = 0;
    for (const lipHz of [223, 434, 655, 901]) {
      const closed = lowestOf(own, lipHz)!;
      const n = Array.from({ length: own.notes }, (_, i) => i + 1).find(
        (one) => own.at(one, lipHz)?.mouthPressure === closed.mouthPressure,
      )!;
      const [low, high] = [n, n + 1].map((one) => bandEdge(COLUMN, one));
      const omega = Float64Array.from({ length: 97 }, (_, k) => low + ((high - low) * k) / 96);
      const y = Array.from(omega, (w) => admittance(COLUMN, w));
      const band = {
        omega,
        re: Float64Array.from(y, ([re]) => re),
        im: Float64Array.from(y, ([, im]) => im),
      };
      const found = new NeutralSearch(lips).lowest({ modes: COLUMN, resistance }, band, lipHz)!;
      expect(found.mouthPressure / closed.mouthPressure).toBeCloseTo(1, 8);
      expect(found.frequencyHz / closed.frequencyHz).toBeCloseTo(1, 8);
      compared++;
    }
    expect(compared).toBe(4);
  });
});

describe("lips that move two ways in time", () => {
  const rising = ({ lips, lipHz, mouthPressure, rise, seconds }: any, rate: number) => {
    const oscillator = new Oscillator(rate, valveNamed(lips), COLUMN, { mouthPressure: 0, lipHz });
    const pressures = new Float64Array(Math.round(seconds * rate) + 1);
    const openings = new Float64Array(pressures.length);
    const risen = Math.ceil(rise * rate);
    for (let k = 1; k <= risen; k++) {
      oscillator.blow(mouthPressure * Math.sin((Math.PI * Math.min(k / rate / rise, 1)) / 2) ** 2, lipHz);
      oscillator.run(pressures.subarray(k, k + 1), openings.subarray(k, k + 1));
    }
    oscillator.run(pressures.subarray(risen + 1), openings.subarray(risen + 1));
    return { pressures, openings };
  };

  // scipy.integrate.solve_ivp, DOP853, tolerance 1e-9
  it("the first 40 ms, with the lips still open, agree with SciPy to second order in the step", () => {
    expect(times).toHaveLength(3);
    for (const reference of times) {
      const largest = Math.max(...reference.pressureEveryMs.map(Math.abs));
      const missed = [48000, 96000, 192000].map((rate) => {
        const { pressures } = rising({ ...reference, seconds: 0.04 }, rate);
        const squares = reference.pressureEveryMs.map(
          (p: number, ms: number) => (pressures[(ms * rate) / 1000] - p) ** 2,
        );
        return Math.sqrt(squares.reduce((sum: number, x: number) => sum + x, 0) / squares.length) / largest;
      });
      expect(missed[0], reference.lips).toBeLessThan(2e-3);
      expect(missed[2], reference.lips).toBeLessThan(2e-4);
      expect(Math.log2(missed[0] / missed[2]) / 2, reference.lips).toBeGreaterThan(1.9);
      expect(Math.log2(missed[0] / missed[2]) / 2, reference.lips).toBeLessThan(2.1);
    }
  });

  it("settle, touching once a period, to SciPy's frequency: within 3 cents, and within 1 at four times the rate", () => {
    for (const reference of times) {
      const cents = [48000, 192000].map((rate) => {
        const { pressures, openings } = rising(reference, rate);
        const from = pressures.length - Math.round(0.2 * rate);
        const { frequencyHz } = playingOf(
          pressures.subarray(from),
          openings.subarray(from),
          rate,
          reference.mouthPressure,
        );
        return 1200 * Math.log2(frequencyHz! / reference.frequency);
      });
      expect(Math.abs(cents[0]), reference.lips).toBeLessThan(3);
      expect(Math.abs(cents[1]), reference.lips).toBeLessThan(1);
    }
  });

  it("any of them, blown and moved: bounded, and never not a number", () => {
    const hz = fc.double({ min: 30, max: 1500, noNaN: true });
    const pa = fc.double({ min: 0, max: 3e4, noNaN: true });
    fc.assert(
      fc.property(anyTwoWay, hz, hz, pa, pa, (valve, lipFrom, lipTo, mouthFrom, mouthTo) => {
        const oscillator = new Oscillator(48000, valve, COLUMN, { mouthPressure: mouthFrom, lipHz: lipFrom });
        const block = new Float64Array(128);
        let most = 0;
        for (let k = 0; k < 300; k++) {
          if (k === 150) oscillator.blow(mouthTo, lipTo);
          oscillator.run(block);
          for (const p of block) most = Math.max(most, Number.isFinite(p) ? Math.abs(p) : Infinity);
        }
        expect(most).toBeLessThanOrEqual(100 * Math.max(mouthFrom, mouthTo) + 1e-9);
      }),
      { numRuns: 60 },
    );
  });

  it("stay at rest below their threshold, and a copy goes on as its original does", () => {
    const still = new Oscillator(48000, usual, COLUMN, { mouthPressure: 600, lipHz: 465 });
    still.rest();
    const { pressure } = still;
    const p = new Float64Array(4800);
    still.run(p);
    expect(Math.max(...p.map((x) => Math.abs(x / pressure - 1)))).toBeLessThan(1e-6);
    const original = new Oscillator(48000, usual, COLUMN, { mouthPressure: 5000, lipHz: 465 });
    original.run(new Float64Array(1000));
    const copy = new Oscillator(48000, usual, COLUMN, { mouthPressure: 0, lipHz: 100 });
    copy.copy(original);
    const [a, b] = [new Float64Array(960), new Float64Array(960)];
    original.run(a);
    for (let k = 0; k < 960; k += 96) copy.run(b.subarray(k, k + 96));
    expect([...b]).toEqual([...a]);
  });
});

const bandEdge = ({ poles }: Modes, n: number): number =>
  poles[2 * n - 1] - (poles[2 * n - 1] - (n > 1 ? poles[2 * n - 3] : 0)) / 4;

/** Y(jω) of the sum, written again. */
function admittance({ poles, residues }: Modes, omega: number): readonly [re: number, im: number] {
  let [zRe, zIm] = [0, 0];
  for (let k = 0; k < poles.length; k += 2)
    for (const side of [1, -1]) {
      const dRe = -poles[k];
      const dIm = omega - side * poles[k + 1];
      const size = dRe * dRe + dIm * dIm;
      zRe += (residues[k] * dRe + side * residues[k + 1] * dIm) / size;
      zIm += (side * residues[k + 1] * dRe - residues[k] * dIm) / size;
    }
  const size = zRe * zRe + zIm * zIm;
  return [zRe / size, -zIm / size];
}
