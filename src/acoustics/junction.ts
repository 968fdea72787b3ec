/**
 * Inertance of steps between coaxial cylinders, by mode matching.
 *
 * One step between two long round ducts, or two steps with a cavity of length ℓ between, as at the gap. At each the axial
 * velocity in the opening (radius b, the smaller of its two ducts) is a sum of Legendre polynomials in 1 − 2r²/b², of which
 * only the first carries flow. Every duct answers with its evanescent radial modes ψ_n = J₀(α_n r/a)/J₀(α_n), J₁(α_n) = 0,
 * whose static impedances jωρ·a/(α_n S) couple the two openings of a short duct by coth and csch of α_n ℓ/a, so the
 * fields of neighbouring steps interact. The overlaps are closed: ∫₀¹ P_q(1−2s²) J₀(xs) s ds = J_{2q+1}(x)/x.
 * Minimising the kinetic energy for given flows U (Thomson's theorem: the polynomials give a bound from above, the finite
 * number of modes one from below) leaves p_before − p_after = jωρ M U, M symmetric, beside the plane waves.
 *
 * Method: Karal 1953 (J. Acoust. Soc. Am. 25, 327) for one step; Kergomard & Garcia 1987 (J. Sound Vib. 114, 465) for its
 * higher modes. The expansion of the opening instead of its modes is Galerkin's method, done here for this problem.
 * Range: quasi-static, (ka/α₁)² ≪ 1: at 2 kHz in a 10 mm cavity the neglected part is 0.1 % of M.
 *
 * A very short duct locks its two openings to each other; where one is larger it also gets the polynomials of the smaller
 * one, so that a gap → 0 goes over to the single step from the first duct to the last.
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

/** [M₁₁, M₁₂, M₂₂]/ρ in 1/m, for flows through the opening at the shank's end and the one at the leadpipe. */
export type StepInertance = readonly [m11: number, m12: number, m22: number];

/** M/ρ in 1/m of the single step between two long ducts of radii a and b, m. */
export function stepInertance(a: number, b: number): number {
  const [opening] = openingsOf([a, b], []);
  const energy = new Float64Array(opening.end ** 2);
  addLongDuct(energy, opening.end, a, opening);
  addLongDuct(energy, opening.end, b, opening);
  return relax(energy, opening.end, [opening]).inertance[0];
}

/**
 * M/ρ in 1/m of a long duct, a cavity of `length` that narrows or widens evenly, and another long duct; all m.
 */
export function cavitySteps(
  shankExit: number,
  cavityAtShank: number,
  cavityAtLeadpipe: number,
  leadpipe: number,
  length: number,
): StepInertance {
  const widening = cavityAtLeadpipe - cavityAtShank;
  const mean = (cavityAtShank + cavityAtLeadpipe) / 2;
  const radius = widening === 0 ? mean : rounded(mean, Math.max(shankExit, leadpipe));
  const [entrance, exit] = openingsOf([shankExit, radius, leadpipe], [length]);
  const size = exit.end;
  const energy = new Float64Array(size * size);
  addLongDuct(energy, size, shankExit, entrance);
  const modes = addShortDuct(energy, size, radius, length, entrance, exit);
  addLongDuct(energy, size, leadpipe, exit);
  const { inertance: m, velocities } = relax(energy, size, [entrance, exit]);
  const straight: StepInertance = [m[0], m[1], m[3]];
  if (widening === 0) return straight;
  const [d11, d12, d22] = wallDisplacement(
    radius,
    length,
    (t) => mean - radius + widening * (t - 0.5),
    modes,
    velocities,
    entrance,
    exit,
  );
  return [straight[0] + d11, straight[1] + d12, straight[2] + d22];
}

/** Amplitudes of the evanescent modes, ψ_n = 1 at the wall, as axial velocity over flow, 1/m². */
export interface StepField {
  /** In the shank's exit, at its end. */
  readonly shankExit: Float64Array;
  /** In the cavity, at the shank and at the leadpipe. */
  readonly near: Float64Array;
  readonly far: Float64Array;
  /** In the leadpipe, at its mouth. */
  readonly leadpipe: Float64Array;
}

/** What the fields at the two ends of a straight cavity are made of, beside the plane flow through all three ducts; all m. */
export function stepField(
  shankExit: number,
  cavity: number,
  leadpipe: number,
  length: number,
  modes: number,
): StepField {
  const [entrance, exit] = openingsOf([shankExit, cavity, leadpipe], [length]);
  const size = exit.end;
  const energy = new Float64Array(size * size);
  addLongDuct(energy, size, shankExit, entrance);
  addShortDuct(energy, size, cavity, length, entrance, exit);
  addLongDuct(energy, size, leadpipe, exit);
  const [first, second] = relax(energy, size, [entrance, exit]).velocities;
  const through = first.map((c, i) => c + second[i]);
  const of = (radius: number, opening: Opening) =>
    amplitudes(overlaps(opening, radius, modes), opening, through, Math.PI * radius * radius, modes);
  return {
    shankExit: of(shankExit, entrance),
    near: of(cavity, entrance),
    far: of(cavity, exit),
    leadpipe: of(leadpipe, exit),
  };
}

/**
 * The straight cavity a tapered one is reckoned from: a few round radii serve a whole sweep, whose long-duct energies are
 * then known; the wall's displacement takes up the rest. Where a step is small its size matters, and the mean is kept.
 */
function rounded(mean: number, bore: number): number {
  const quantum = 2 ** Math.floor(Math.log2(mean / 200));
  return mean - bore < 8 * quantum ? mean : quantum * Math.round(mean / quantum);
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
const modeCount = (radius: number, { count, discs }: Opening): number =>
  2 * Math.ceil((MODES_PER_POLYNOMIAL * count * radius) / Math.min(...discs) / 2);

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
  addProduct(
    block,
    rows.length,
    0,
    0,
    rows,
    rows,
    modeInertances(radius, modes, () => 1),
  );
  if (longDucts.size > 256) longDucts.clear();
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
): { readonly near: Overlaps; readonly far: Overlaps } {
  addLongDuct(energy, size, radius, entrance);
  addLongDuct(energy, size, radius, exit);
  // what being short adds: coth − 1 = 2e^{−2x}/(1 − e^{−2x}) to each opening's own, csch between them, for the modes that reach across
  const most = Math.max(modeCount(radius, entrance), modeCount(radius, exit));
  const reach = Math.min(most, Math.max(WALL_MODES, 2 * Math.ceil((7 * radius) / (Math.PI * length))));
  const near = overlaps(entrance, radius, reach);
  const far = overlaps(exit, radius, reach);
  const x = (alpha: number) => (alpha * length) / radius;
  const own = modeInertances(radius, reach, (alpha) => 2 / Math.expm1(2 * x(alpha)));
  addProduct(energy, size, entrance.start, entrance.start, near, near, own);
  addProduct(energy, size, exit.start, exit.start, far, far, own);
  const across = modeInertances(radius, reach, (alpha) => -1 / Math.sinh(x(alpha)));
  addProduct(energy, size, exit.start, entrance.start, far, near, across);
  return { near, far };
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

interface Relaxed {
  /** M/ρ, row by row. */
  readonly inertance: Float64Array;
  /** For a unit flow through each opening alone, the coefficients of every opening's polynomials. */
  readonly velocities: readonly Float64Array[];
}

/**
 * Part of its own diagonal added to the energy: nearly equal openings make nearly equal polynomials, whose difference is
 * rounding and must not relax into less energy than there is.
 */
const RIDGE = 1e-10;

/** All but each opening's first unknown take what values cost least energy: Cholesky, and the Schur complement it leaves. */
function relax(energy: Float64Array, size: number, openings: readonly Opening[]): Relaxed {
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
      else if (i === j) l[i * size + i] = Math.sqrt(sum + RIDGE * at(order[i], order[i]));
      else l[i * size + j] = sum / l[j * size + j];
    }
  }
  const inertance = new Float64Array(k * k);
  for (let i = 0; i < k; i++)
    for (let j = 0; j <= i; j++) inertance[i * k + j] = inertance[j * k + i] = l[(n + i) * size + n + j];
  const velocities = flows.map((flow, i) => {
    const c = new Float64Array(size);
    c[flow] = 1;
    // Lᵀ c = −(row of this flow)
    for (let m = n - 1; m >= 0; m--) {
      let sum = -l[(n + i) * size + m];
      for (let q = m + 1; q < n; q++) sum -= l[q * size + m] * c[order[q]];
      c[order[m]] = sum / l[m * size + m];
    }
    return c;
  });
  return { inertance, velocities };
}

/** Places along the cavity where the wall's velocity is taken, and modes it is summed from: both far past 1 % of the change. */
const PLACES = 16;
const WALL_MODES = 32;

/**
 * What M loses or gains as the straight wall of mean radius a becomes a cone, to first order in its slope: a wall that gives
 * way by δa(z) takes ½ρ|u|² 2πa δa of energy (Hadamard 1908), u the velocity along it. Slices would do the same with more
 * work, and each slice's own little step would add to M what a smooth wall has not.
 */
function wallDisplacement(
  radius: number,
  length: number,
  given: (t: number) => number,
  { near, far }: { readonly near: Overlaps; readonly far: Overlaps },
  velocities: readonly Float64Array[],
  entrance: Opening,
  exit: Opening,
): StepInertance {
  const area = Math.PI * radius * radius;
  const [nearOfFirst, farOfFirst, nearOfSecond, farOfSecond] = velocities.flatMap((c) => [
    amplitudes(near, entrance, c, area),
    amplitudes(far, exit, c, area),
  ]);
  // crowded at the ends, z = ℓ(1 − cos θ)/2, and the same seen from both
  const angle = (k: number) => (Math.PI * (k + 0.5)) / PLACES;
  const places = Array.from({ length: PLACES }, (_, k) => (1 - Math.cos(angle(k))) / 2);
  const reaching = places.map((t) => reachingTo(t, length / radius));
  let d11 = 0;
  let d12 = 0;
  let d22 = 0;
  for (let k = 0; k < PLACES; k++) {
    const t = places[k];
    const fromNear = reaching[k];
    const fromFar = reaching[PLACES - 1 - k];
    const plane = [(1 - t) / area, t / area];
    const wall = [...plane];
    for (let n = 0; n < WALL_MODES; n++) {
      wall[0] += nearOfFirst[n] * fromNear[n] + farOfFirst[n] * fromFar[n];
      wall[1] += nearOfSecond[n] * fromNear[n] + farOfSecond[n] * fromFar[n];
    }
    const dz = (length / 2) * Math.sin(angle(k)) * (Math.PI / PLACES);
    const taken = -2 * Math.PI * radius * given(t) * dz;
    d11 += taken * (wall[0] * wall[0] - plane[0] * plane[0]);
    d12 += taken * (wall[0] * wall[1] - plane[0] * plane[1]);
    d22 += taken * (wall[1] * wall[1] - plane[1] * plane[1]);
  }
  return [d11, d12, d22];
}

/** Amplitudes of the modes in an opening, ψ_n(a) = 1 at the wall, for the velocity of coefficients c. */
function amplitudes(
  rows: Overlaps,
  { start }: Opening,
  c: Float64Array,
  area: number,
  modes = WALL_MODES,
): Float64Array {
  const sums = new Float64Array(modes);
  rows.forEach((row, q) => {
    const weight = c[start + q] / area;
    for (let n = 0; n < modes; n++) sums[n] += weight * row[n];
  });
  return sums;
}

/** sinh(x(1−t))/sinh x of every mode, x = α_n ℓ/a: what of it is left at t of the way. */
function reachingTo(t: number, slenderness: number): Float64Array {
  const left = new Float64Array(WALL_MODES);
  for (let n = 0; n < WALL_MODES; n++) {
    const x = zeroOfJ1(n + 1) * slenderness;
    left[n] = (Math.exp(-x * t) - Math.exp(-x * (2 - t))) / -Math.expm1(-2 * x);
  }
  return left;
}
