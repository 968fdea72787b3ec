/** Random shanks and receivers, sensible and not, and a search for numbers that are none. */
import fc from "fast-check";
import { type FitDimensions, fitDimensions } from "../../../src/bench/fit/fitDimensions.ts";

/** A shank that seats: tapers well apart or equal, insertion within the depth. */
export const seatedDimensions = fc
  .record({
    shankEndDiameterMm: fc.double({ min: 5, max: 15, noNaN: true }),
    shankTaper: fc.double({ min: 0.02, max: 0.1, noNaN: true }),
    receiverTaper: fc.double({ min: 0.02, max: 0.1, noNaN: true }),
    insertionMm: fc.double({ min: 1, max: 40, noNaN: true }),
    gapMm: fc.double({ min: 0.1, max: 12, noNaN: true }),
  })
  .map(({ insertionMm, gapMm, ...rest }) => ({
    insertionMm,
    gapMm,
    dimensions: {
      ...rest,
      mouthDiameterMm: rest.shankEndDiameterMm + Math.max(rest.shankTaper, rest.receiverTaper) * insertionMm,
      depthMm: insertionMm + gapMm,
    } satisfies FitDimensions,
  }));

const odd = fc.oneof(
  fc.double(),
  fc.double({ min: 0, max: 30 }),
  fc.constantFrom(0, 0.05, 1, 10, -1, 1e-9, 1e-320, 1e300),
);

/** Anything in any place. */
export const anyDimensions: fc.Arbitrary<FitDimensions> = fc.record(
  Object.fromEntries(fitDimensions.map((dimension) => [dimension, odd])) as Record<
    keyof FitDimensions,
    typeof odd
  >,
);
export const anyUncertainties = fc.record(
  Object.fromEntries(fitDimensions.map((dimension) => [dimension, odd])) as Record<
    keyof FitDimensions,
    typeof odd
  >,
  { requiredKeys: [] },
);
export { odd as anyNumber };

/** Paths of the numbers in plain data that are not finite, and of words that show such a number. */
export function notNumbers(value: unknown, path = ""): string[] {
  if (typeof value === "number") return Number.isFinite(value) ? [] : [path];
  if (typeof value === "string") return /NaN|Infinity|undefined/.test(value) ? [`${path}: ${value}`] : [];
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, part]) => notNumbers(part, `${path}.${key}`));
}

/** Normal random numbers that are the same in every run (mulberry32, Box–Muller). */
export function normalNumbers(seed: number): () => number {
  let state = seed;
  const uniform = () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
  return () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
}
