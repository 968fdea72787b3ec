/**
 * What the work costs as it grows: five kinds of it, each at sizes that double, and how steeply the time rises, as the
 * exponent p of time = c·sizeᵖ. A straight cost has p = 1; what is done once whatever the size makes it less.
 */
import { AirColumn } from "../../src/acoustics/airColumn.ts";
import { boreDiameterMm } from "../../src/setup/bore/boreDiameter.ts";
import { profileLengthMm } from "../../src/setup/geometry.ts";
import type { Setup } from "../../src/setup/setup.ts";
import { compare } from "../../src/study/compare/compare.ts";
import { gapSweepSteps } from "../../src/study/instrument/gapSweep.ts";
import { Instrument } from "../../src/study/instrument/instrument.ts";
import { monteCarloSteps } from "../../src/study/uncertainty/monteCarlo.ts";
import { demo, mostGapMm, referenceGapMm } from "../paper/demo.ts";

export interface Kind {
  readonly name: string;
  /** What there is more of. */
  readonly of: string;
  readonly sizes: readonly number[];
  /** The work at a size, made ready; each call does it once and says how much it came to. */
  readonly work: (size: number) => () => number;
}

export interface Cost {
  readonly name: string;
  readonly of: string;
  readonly sizes: readonly number[];
  /** Shortest of some runs, s. */
  readonly seconds: readonly number[];
}

const RANGE_HZ = [40, 1700] as const;
const doubling = (first: number, count: number): readonly number[] =>
  Array.from({ length: count }, (_, i) => first * 2 ** i);

export const KINDS: readonly Kind[] = [
  {
    name: "a new bore",
    of: "sections of the bore table",
    sizes: doubling(200, 5),
    work(sections) {
      const setup = withSections(sections);
      let call = 0;
      return () => {
        const { line } = new AirColumn(unlikeAny(setup, call++), ...RANGE_HZ);
        return line.sections;
      };
    },
  },
  {
    name: "a curve",
    of: "frequencies",
    sizes: doubling(500, 6),
    work(count) {
      const column = new AirColumn(demo, ...RANGE_HZ);
      const [low, high] = RANGE_HZ;
      const frequencies = Float64Array.from(
        { length: count },
        (_, i) => low + ((high - low) * i) / (count - 1),
      );
      return () => column.curve(column.grid(frequencies), column.line.gap(referenceGapMm / 1000)).re.length;
    },
  },
  {
    name: "a sweep",
    of: "gaps",
    sizes: doubling(8, 6),
    work(count) {
      const instrument = new Instrument(demo);
      const gapsMm = Array.from({ length: count }, (_, i) => (mostGapMm * (i + 1)) / count);
      return () => [...gapSweepSteps(instrument, { gapsMm, referenceGapMm })].length;
    },
  },
  {
    name: "instruments like it",
    of: "instruments drawn",
    sizes: doubling(2, 5),
    work: (trials) => () => [...monteCarloSteps(demo, { gapMm: 5, referenceGapMm, trials })].length,
  },
  {
    name: "candidates side by side",
    of: "candidates",
    sizes: doubling(2, 5),
    work(count) {
      // each with a body of its own, so that each has an air column of its own
      const variants = Array.from({ length: count }, (_, i) => ({
        name: `${i + 1}`,
        setup: withBodyLonger(0.1 * (i + 1)),
        gapMm: referenceGapMm,
      }));
      return () => compare(variants).variants.length;
    },
  },
];

/** The demo with a body in so many pieces, and plane waves in its bell, where every piece is passed alike. */
export function withSections(sections: number): Setup {
  const { profileMm } = demo.body;
  const length = profileLengthMm(profileMm);
  const from = profileMm[0][0];
  const fine = Array.from({ length: sections + 1 }, (_, i): [number, number] => {
    const xMm = from + (length * i) / sections;
    return [xMm, boreDiameterMm(profileMm, xMm)];
  });
  return { ...demo, body: { ...demo.body, profileMm: fine }, model: { ...demo.model, bell: "plane" } };
}

/** By a nanometre each time: bores that have a part in common share what it took, and a new one shares none. */
const unlikeAny = (setup: Setup, call: number): Setup => ({
  ...setup,
  body: {
    ...setup.body,
    profileMm: setup.body.profileMm.map(([xMm, diameterMm]): [number, number] => [
      xMm,
      diameterMm + 1e-6 * call,
    ]),
  },
});

function withBodyLonger(byMm: number): Setup {
  const profileMm = demo.body.profileMm.map(([xMm, diameterMm], i): [number, number] => [
    i === 0 ? xMm : xMm + byMm,
    diameterMm,
  ]);
  return { ...demo, body: { ...demo.body, profileMm } };
}

/** Exponent p of time = c·sizeᵖ, by least squares on logarithms; 1 is straight. */
export function exponent({ sizes, seconds }: Pick<Cost, "sizes" | "seconds">): number {
  const xs = sizes.slice(0, seconds.length).map(Math.log);
  const ys = seconds.map(Math.log);
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const [x0, y0] = [mean(xs), mean(ys)];
  const over = xs.reduce((sum, x, i) => sum + (x - x0) * (ys[i] - y0), 0);
  return over / xs.reduce((sum, x) => sum + (x - x0) ** 2, 0);
}

/** Shortest time of some runs, s, each of so many calls that a clock which a browser makes coarse on purpose can tell it. */
export function timed(work: () => number, now: () => number = () => performance.now()): number {
  const run = (calls: number): number => {
    const start = now();
    for (let call = 0; call < calls; call++) work();
    return now() - start;
  };
  let calls = 1;
  let took = run(calls);
  while (took < LEAST_MS) {
    calls *= 2;
    took = run(calls);
  }
  return Math.min(took, run(calls), run(calls)) / calls / 1000;
}

/** Fifty times the coarsest clock's step. */
const LEAST_MS = 5;
