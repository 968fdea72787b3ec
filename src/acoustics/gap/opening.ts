/**
 * The velocity in an opening between two ducts, and what it sets going in them: Legendre polynomials P_q(1 − 2r²/b²) on discs
 * of radius b, and their overlaps with a duct's evanescent modes, in closed form; the sum they belong to is in `junction.ts`.
 */
import { besselOdd, zeroOfJ1 } from "../numerics/bessel.ts";

/**
 * Polynomials an opening: with ten modes each, within 0.03 % of converged for gaps of a hundredth of a radius and up.
 * Openings close to each other see each other's edges and need the finer set.
 */
const POLYNOMIALS = 12;
const POLYNOMIALS_CLOSE = 17;
const MODES_PER_POLYNOMIAL = 10;
/** Ducts shorter than this part of their radius are close. */
const CLOSE = 0.2;

export interface Opening {
  /** Radii of the discs its polynomials live on: its own, then perhaps its smaller neighbours'. */
  readonly discs: readonly number[];
  /** Polynomials on each disc. */
  readonly count: number;
  /** Its unknowns' first and past-last place. */
  readonly start: number;
  readonly end: number;
}

export function openingsOf(radii: readonly number[], lengths: readonly number[]): Opening[] {
  const sizes = radii.slice(1).map((radius, i) => Math.min(radius, radii[i]));
  const close = lengths.map((length, i) => length < CLOSE * radii[i + 1]);
  const count = close.includes(true) || close.length === 0 ? POLYNOMIALS_CLOSE : POLYNOMIALS;
  let end = 0;
  return sizes.map((size, i) => {
    const neighbours = [close[i - 1] ? sizes[i - 1] : size, close[i] ? sizes[i + 1] : size];
    const discs = [size, ...neighbours.filter((b) => b < size * (1 - 1e-6))];
    const start = end;
    end += discs.length * count;
    return { discs, count, start, end };
  });
}

/** ⟨χ_q, ψ_n⟩ of an opening's polynomials χ_q with a duct's modes, a row of modes for every q; all but χ₀ carry no flow. */
export type Overlaps = readonly Float64Array[];

/** Overlaps do not depend on the gap, nor on size: remembered by their shape, for drags and sweeps. */
const known = new Map<string, Overlaps>();
const KEPT = 64;

/** The shape of an opening in a duct of this radius, m: all that its overlaps and its energies' proportions depend on. */
export const shapeOf = ({ discs, count }: Opening, radius: number): string =>
  `${count} ${discs.map((disc) => disc / radius)}`;

/** Of at least the lowest `modes` evanescent modes of a duct of this radius, m. */
export function overlaps(opening: Opening, radius: number, modes: number): Overlaps {
  const key = shapeOf(opening, radius);
  const found = known.get(key);
  if (found && found[0].length >= modes) return found;
  const rows = overlapsOf(opening, radius, modes);
  known.delete(key);
  known.set(key, rows);
  if (known.size > KEPT) known.delete(known.keys().next().value!);
  return rows;
}

const odd = new Float64Array(POLYNOMIALS_CLOSE + 1);

function overlapsOf({ discs, count }: Opening, radius: number, modes: number): Overlaps {
  const rows = Array.from({ length: discs.length * count }, () => new Float64Array(modes));
  const norm = modeNorms(modes);
  discs.forEach((disc, d) => {
    const part = disc / radius;
    for (let n = 0; n < modes; n++) {
      const x = zeroOfJ1(n + 1) * part;
      besselOdd(x, count, odd);
      const scale = (2 * norm[n]) / x;
      for (let q = 0; q < count; q++) rows[d * count + q][n] = scale * odd[q + 1];
      if (d > 0) rows[d * count][n] -= rows[0][n];
    }
  });
  return rows;
}

let norms = new Float64Array(0);

/** 1/J₀(α_n), n = 1, 2, … */
function modeNorms(modes: number): Float64Array {
  if (norms.length < modes) {
    const pair = new Float64Array(2);
    norms = Float64Array.from({ length: modes }, (_, n) => {
      besselOdd(zeroOfJ1(n + 1), 1, pair);
      return 1 / pair[0];
    });
  }
  return norms;
}

/** Enough modes to resolve the finest polynomial of the smallest disc; of one shape always the same number, whatever its size. */
export const modeCount = (radius: number, { count, discs }: Opening): number =>
  2 * Math.ceil((MODES_PER_POLYNOMIAL * count) / (Math.min(...discs) / radius) / 2);

/** Amplitudes of the modes in an opening, ψ_n(a) = 1 at the wall, for the velocity of coefficients c. */
export function amplitudes(
  rows: Overlaps,
  { start }: Opening,
  c: Float64Array,
  area: number,
  modes: number,
): Float64Array {
  const sums = new Float64Array(modes);
  rows.forEach((row, q) => {
    const weight = c[start + q] / area;
    for (let n = 0; n < modes; n++) sums[n] += weight * row[n];
  });
  return sums;
}
