import { equilibriumOf } from "../../src/lips/equilibrium.ts";
import { type Modes, staticResistance } from "../../src/lips/modes.ts";
import type { OneMassValve } from "../../src/lips/oneMass.ts";
import { Oscillator } from "../../src/lips/oscillator.ts";
import { playingOf } from "../../src/lips/playing.ts";
import { Stability } from "../../src/lips/stability.ts";
import { type Threshold, Thresholds } from "../../src/lips/threshold.ts";
import { TwoWay, type TwoWayValve } from "../../src/lips/twoWay.ts";
import time from "../../tests/reference/lips/in-time.json" with { type: "json" };
import stability from "../../tests/reference/lips/stability.json" with { type: "json" };
import twoWay from "../../tests/reference/lips/two-way.json" with { type: "json" };
import { type Check, inCents, relative, type Sample } from "./check.ts";
import { centsOf } from "./heard.ts";

const part = "lips";

/** The column and the lips that came with the outside values. */
export const column: Modes = {
  poles: Float64Array.from(stability.poles),
  residues: Float64Array.from(stability.residues),
};
export const valveNamed = (name: string): OneMassValve => ({
  ...stability.lips[name as keyof typeof stability.lips],
  density: stability.density,
});
const twoWayNamed = (name: string): TwoWayValve => ({
  model: "two-way",
  ...twoWay.lips[name as keyof typeof twoWay.lips],
  density: stability.density,
});

/** Largest distance from any of the expected numbers to the nearest found, each found one taken once. */
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

/** The note that starts at the lowest pressure. */
export function lowestOf(search: Thresholds, lipHz: number): Threshold | null {
  let best: Threshold | null = null;
  for (let n = 1; n <= search.notes; n++) {
    const found = search.at(n, lipHz);
    if (found && (!best || found.mouthPressure < best.mouthPressure)) best = found;
  }
  return best;
}

/** Cup pressure, Pa, and opening, m, of one of the outside cases: the mouth pressure rises as sin² at first. */
export function blown(
  { lips, lipHz, mouthPressure, rise, seconds }: (typeof time.cases)[number],
  rate: number,
) {
  const oscillator = new Oscillator(rate, valveNamed(lips), column, { mouthPressure: 0, lipHz });
  const pressures = new Float64Array(Math.round(seconds * rate) + 1);
  const openings = new Float64Array(pressures.length);
  const risen = Math.ceil(rise * rate);
  for (let k = 1; k <= risen; k++) {
    oscillator.blow(mouthPressure * Math.sin((Math.PI * Math.min(k / rate / rise, 1)) / 2) ** 2, lipHz);
    oscillator.run(pressures.subarray(k, k + 1), openings.subarray(k, k + 1));
  }
  oscillator.run(pressures.subarray(risen + 1), openings.subarray(risen + 1));
  return { pressures, openings };
}

/** What the lips settle to, Hz. */
function playedHz(one: (typeof time.cases)[number], rate: number) {
  const { pressures, openings } = blown(one, rate);
  const from = pressures.length - Math.round(0.2 * rate);
  return playingOf(pressures.subarray(from), openings.subarray(from), rate, one.mouthPressure).frequencyHz!;
}

/** Cases of different lips in a row would be searched from each other's answers; each is searched afresh. */
const eigenvaluesOf = ({ lips, lipHz, mouthPressure }: (typeof stability.cases)[number]) =>
  new Stability(valveNamed(lips), column).eigenvalues(lipHz, mouthPressure);

const played = (rate: number, asked: number): Check => ({
  name: `Frequency that the lips settle to, computed at ${rate / 1000} kHz`,
  part,
  source: "SciPy solve_ivp, DOP853, rtol 1e-10",
  table: "lips/in-time.json",
  unit: "cents",
  samples: () =>
    time.cases.map((one) =>
      inCents(`lips at ${one.lipHz} Hz, ${one.mouthPressure} Pa`, playedHz(one, rate), one.frequency, asked),
    ),
});

/** The pressure, or the opening under it, %. */
const ofPressure = ({ off }: Sample) => ({ "%": 100 * off });

export const theLips: readonly Check[] = [
  {
    name: "Lips at rest: opening under a steady pressure",
    part,
    source: "SciPy brentq on the balance of forces",
    table: "lips/stability.json",
    unit: "1",
    heard: ofPressure,
    samples: () => {
      const steady = staticResistance(column);
      return stability.cases.map(({ lips, lipHz, mouthPressure, opening }) =>
        relative(
          `${lips}, ${lipHz} Hz, ${mouthPressure} Pa`,
          equilibriumOf(valveNamed(lips), steady, lipHz, mouthPressure).opening,
          opening,
          5e-12,
        ),
      );
    },
  },
  {
    name: "Eigenvalues of lips and column, all 26 of each case, over the lips' frequency",
    part,
    source: "LAPACK dgeev through NumPy",
    table: "lips/stability.json",
    unit: "1",
    heard: ({ off }) => ({ cents: centsOf(off) }),
    samples: () =>
      stability.cases.map((one) => {
        const off = farthest(eigenvaluesOf(one), one.eigenvalues) / (2 * Math.PI * one.lipHz);
        return {
          of: `${one.lips}, ${one.lipHz} Hz, ${one.mouthPressure} Pa`,
          ours: off,
          theirs: 0,
          off,
          asked: 1e-7,
        };
      }),
  },
  {
    name: "Threshold: the pressure at which the first note starts",
    part,
    source: "SciPy brentq on LAPACK's eigenvalues",
    table: "lips/stability.json",
    unit: "1",
    heard: ofPressure,
    samples: () =>
      stability.thresholds.flatMap(({ lips, lipHz, pressure }) => {
        const found = lowestOf(new Thresholds(valveNamed(lips), column), lipHz);
        const of = `${lips}, ${lipHz} Hz`;
        if (pressure !== null) return [relative(of, found?.mouthPressure ?? Number.NaN, pressure, 5e-8)];
        // where nothing starts, nothing may be found
        return [
          {
            of: `${of}: nothing starts`,
            ours: found ? 1 : 0,
            theirs: 0,
            off: found ? Infinity : 0,
            asked: 1,
          },
        ];
      }),
  },
  played(48_000, 1.5),
  played(192_000, 0.1),
  {
    name: "Lips that move two ways, at rest: opening under a steady pressure",
    part,
    source: "SciPy root on the balance of forces",
    table: "lips/two-way.json",
    unit: "1",
    heard: ofPressure,
    samples: () => {
      const steady = Math.max(0, staticResistance(column));
      return twoWay.cases.map(({ lips, lipHz, mouthPressure, opening }) =>
        relative(
          `${lips}, ${lipHz} Hz, ${mouthPressure} Pa`,
          new TwoWay(twoWayNamed(lips)).restUnder(steady, lipHz, mouthPressure).opening,
          opening,
          1e-8,
        ),
      );
    },
  },
  {
    name: "Lips that move two ways: all eigenvalues of lips and column, over the lips' frequency",
    part,
    source: "LAPACK dgeev through NumPy, the matrix by complex steps",
    table: "lips/two-way.json",
    unit: "1",
    heard: ({ off }) => ({ cents: centsOf(off) }),
    samples: () =>
      twoWay.cases.map(({ lips, lipHz, mouthPressure, eigenvalues }) => {
        const found = new Stability(twoWayNamed(lips), column).eigenvalues(lipHz, mouthPressure);
        const off = farthest(found, eigenvalues) / (2 * Math.PI * lipHz);
        return { of: `${lips}, ${lipHz} Hz, ${mouthPressure} Pa`, ours: off, theirs: 0, off, asked: 1e-6 };
      }),
  },
  {
    name: "Lips that move two ways: the pressure at which the first note starts",
    part,
    source: "SciPy brentq on LAPACK's eigenvalues",
    table: "lips/two-way.json",
    unit: "1",
    heard: ofPressure,
    samples: () =>
      twoWay.thresholds.flatMap(({ lips, lipHz, pressure }) => {
        if (pressure === null) return [];
        const found = lowestOf(new Thresholds(twoWayNamed(lips), column), lipHz);
        return [relative(`${lips}, ${lipHz} Hz`, found?.mouthPressure ?? Number.NaN, pressure, 1e-6)];
      }),
  },
];
