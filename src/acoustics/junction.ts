/**
 * Inertance of steps between coaxial cylinders, by mode matching.
 *
 * A chain of round ducts a₀, a₁ … a_K, the first and last long, those between of lengths ℓ. At each step the axial
 * velocity in the opening (radius b, the smaller of its two ducts) is a sum of Legendre polynomials in 1 − 2r²/b², of which
 * only the first carries flow. Every duct answers with its evanescent radial modes ψ_n = J₀(α_n r/a)/J₀(α_n), J₁(α_n) = 0,
 * whose static impedances jωρ·a/(α_n S) couple the two openings of a short duct by coth and csch of α_n ℓ/a, so the
 * fields of neighbouring steps interact. The overlaps are closed: ∫₀¹ P_q(1−2s²) J₀(xs) s ds = J_{2q+1}(x)/x.
 * Minimising the kinetic energy for given flows U (Thomson's theorem: the polynomials give a bound from above, the finite
 * number of modes one from below) leaves p_before − p_after = jωρ M U, M symmetric, beside the plane waves.
 *
 * Method: Karal 1953 (J. Acoust. Soc. Am. 25, 327) for one step; Kergomard & Garcia 1987 (J. Sound Vib. 114, 465) for its
 * higher modes; the opening's own expansion after Kashiwabara's and the waveguide literature's Galerkin practice.
 * Range: quasi-static, (ka/α₁)² ≪ 1: at 2 kHz in a 10 mm cavity the neglected part is 0.1 % of M.
 *
 * A very short duct locks its two openings to each other; where one is larger it also gets the polynomials of the smaller
 * one, so that a gap → 0 goes over to the single step from a₀ to a_K.
 */
import { besselOdd, zeroOfJ1 } from "./bessel.ts";

/**
 * Polynomials an opening: with ten modes each, within 0.03 % of converged for gaps of a hundredth of a radius and up.
 * Openings close to each other see each other's edges and need the finer set.
 */
const POLYNOMIALS = 12;
const POLYNOMIALS_CLOSE = 17;
const MODES_PER_POLYNOMIAL = 10;
/** Ducts shorter than this part of their radius are close. */
const CLOSE = 0.2;

/** [M₁₁, M₁₂, M₂₂]/ρ in 1/m, for flows through the first and the last opening. */
export type StepInertance = readonly [m11: number, m12: number, m22: number];

/** M/ρ in 1/m of the single step between two long ducts of radii a and b, m. */
export function stepInertance(a: number, b: number): number {
  return chainInertance([a, b], [])[0];
}

/**
 * M/ρ of a chain, K × K, row by row, in 1/m, for flows through its K openings.
 * @param radii K + 1 radii, m
 * @param lengths K − 1 lengths of the ducts between, m, each above zero
 */
export function chainInertance(radii: readonly number[], lengths: readonly number[]): Float64Array {
  const openings = openingsOf(radii, lengths);
  const size = openings[openings.length - 1].end;
  const energy = new Float64Array(size * size);
  radii.forEach((radius, duct) => {
    const before = openings[duct - 1];
    const after = openings[duct];
    if (before && after) addShortDuct(energy, size, radius, lengths[duct - 1], before, after);
    else addLongDuct(energy, size, radius, before ?? after);
  });
  return flowsOnly(energy, size, openings);
}

interface Opening {
  /** Radii of the discs its polynomials live on: its own, then perhaps its smaller neighbours'. */
  readonly discs: readonly number[];
  /** Polynomials on each disc. */
  readonly count: number;
  /** Its unknowns' first and past-last place. */
  readonly start: number;
  readonly end: number;
}

function openingsOf(radii: readonly number[], lengths: readonly number[]): Opening[] {
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
type Overlaps = readonly Float64Array[];

const odd = new Float64Array(POLYNOMIALS_CLOSE + 1);

function overlaps({ discs, count }: Opening, radius: number, modes: number): Overlaps {
  const rows = Array.from({ length: discs.length * count }, () => new Float64Array(modes));
  const norm = modeNorms(modes);
  discs.forEach((disc, d) => {
    for (let n = 0; n < modes; n++) {
      const x = (zeroOfJ1(n + 1) * disc) / radius;
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

/** Enough modes to resolve the finest polynomial of the smallest disc. */
const modeCount = (radius: number, ...openings: Opening[]): number =>
  2 *
  Math.ceil((MODES_PER_POLYNOMIAL * openings[0].count * radius) / Math.min(...openings.flatMap((o) => o.discs)) / 2);

/** Static inertance of the n-th mode, a/(α_n S) = 1/(π a α_n), times `factor`. */
function modeInertances(radius: number, modes: number, factor: (alpha: number) => number): Float64Array {
  const inertances = new Float64Array(modes);
  for (let n = 0; n < modes; n++) {
    const alpha = zeroOfJ1(n + 1);
    inertances[n] = factor(alpha) / (Math.PI * radius * alpha);
  }
  return inertances;
}

/** A long duct's energy does not depend on the gap: remembered by its geometry, for sweeps. */
const longDucts = new Map<string, Float64Array>();

function longDuctEnergy(radius: number, opening: Opening): Float64Array {
  const key = `${radius} ${opening.count} ${opening.discs}`;
  const known = longDucts.get(key);
  if (known) return known;
  const modes = modeCount(radius, opening);
  const rows = overlaps(opening, radius, modes);
  const block = new Float64Array(rows.length ** 2);
  addProduct(block, rows.length, 0, 0, rows, rows, modeInertances(radius, modes, () => 1));
  if (longDucts.size > 64) longDucts.clear();
  longDucts.set(key, block);
  return block;
}

function addLongDuct(energy: Float64Array, size: number, radius: number, at: Opening): void {
  const { start, end } = at;
  const block = longDuctEnergy(radius, at);
  const width = end - start;
  for (let i = 0; i < width; i++)
    for (let j = 0; j <= i; j++) energy[(start + i) * size + start + j] += block[i * width + j];
}

function addShortDuct(
  energy: Float64Array,
  size: number,
  radius: number,
  length: number,
  entrance: Opening,
  exit: Opening,
): void {
  const modes = modeCount(radius, entrance, exit);
  const near = overlaps(entrance, radius, modes);
  const far = overlaps(exit, radius, modes);
  const own = modeInertances(radius, modes, (alpha) => 1 / Math.tanh((alpha * length) / radius));
  addProduct(energy, size, entrance.start, entrance.start, near, near, own);
  addProduct(energy, size, exit.start, exit.start, far, far, own);
  // the modes that reach across: csch below 1e-17 is nothing
  const reach = Math.min(modes, 2 * Math.ceil((20 * radius) / (Math.PI * length)));
  const across = modeInertances(radius, reach, (alpha) => -1 / Math.sinh((alpha * length) / radius));
  addProduct(energy, size, exit.start, entrance.start, far, near, across);
}

/** Block of `energy` at (row, column) += Σ_n weight_n rows_n columns_nᵀ; of a block on the diagonal, its lower half. */
function addProduct(
  energy: Float64Array,
  size: number,
  row: number,
  column: number,
  rows: Overlaps,
  columns: Overlaps,
  weights: Float64Array,
): void {
  const modes = weights.length;
  const weighted = new Float64Array(modes);
  for (let i = 0; i < rows.length; i++) {
    for (let n = 0; n < modes; n++) weighted[n] = weights[n] * rows[i][n];
    const stop = rows === columns ? i + 1 : columns.length;
    for (let j = 0; j < stop; j++) {
      const other = columns[j];
      // two running sums, since each addition waits for the one before
      let even = 0;
      let odd = 0;
      for (let n = 0; n < modes; n += 2) {
        even += weighted[n] * other[n];
        odd += weighted[n + 1] * other[n + 1];
      }
      energy[(row + i) * size + column + j] += even + odd;
    }
  }
}

/** Schur complement on each opening's first unknown: Cholesky of the others, which relax freely. */
function flowsOnly(energy: Float64Array, size: number, openings: readonly Opening[]): Float64Array {
  const flows = openings.map((o) => o.start);
  const free = Array.from({ length: size }, (_, i) => i).filter((i) => !flows.includes(i));
  const order = [...free, ...flows];
  const at = (i: number, j: number) => (i >= j ? energy[i * size + j] : energy[j * size + i]);
  const n = free.length;
  const k = flows.length;
  const l = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = at(order[i], order[j]);
      for (let m = 0; m < Math.min(j, n); m++) sum -= l[i * size + m] * l[j * size + m];
      if (j >= n) l[i * size + j] = sum;
      // nearly equal openings make nearly equal polynomials: a direction without energy does not relax
      else if (i === j) l[i * size + i] = sum > 1e-13 * at(order[i], order[i]) ? Math.sqrt(sum) : Infinity;
      else l[i * size + j] = sum / l[j * size + j];
    }
  }
  const m = new Float64Array(k * k);
  for (let i = 0; i < k; i++)
    for (let j = 0; j <= i; j++) m[i * k + j] = m[j * k + i] = l[(n + i) * size + n + j];
  return m;
}
