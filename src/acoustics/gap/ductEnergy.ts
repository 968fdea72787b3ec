/**
 * Kinetic energy of the evanescent modes that the openings of a duct set going, as a matrix over the openings' polynomials
 * (its lower half): each mode's static inertance, by itself in a long duct, coupled by coth and csch in a short one.
 */
import { zeroOfJ1 } from "../numerics/bessel.ts";
import { modeCount, type Opening, type Overlaps, overlaps, shapeOf } from "./opening.ts";
import { WALL_MODES } from "./taperedCavity.ts";

/** Static inertance of the n-th mode, a/(α_n S) = 1/(π a α_n), times `factor`. */
function modeInertances(radius: number, modes: number, factor: (alpha: number) => number): Float64Array {
  const inertances = new Float64Array(modes);
  for (let n = 0; n < modes; n++) {
    const alpha = zeroOfJ1(n + 1);
    inertances[n] = factor(alpha) / (Math.PI * radius * alpha);
  }
  return inertances;
}

/** A long duct's energy depends on the gap in nothing, and on its size in proportion: remembered by its shape. */
const longDucts = new Map<string, Float64Array>();

/** Of a duct of radius 1 m. */
function longDuctEnergy(opening: Opening, radius: number): Float64Array {
  const key = shapeOf(opening, radius);
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
    modeInertances(1, modes, () => 1),
  );
  if (longDucts.size > 256) longDucts.clear();
  longDucts.set(key, block);
  return block;
}

export function addLongDuct(energy: Float64Array, size: number, radius: number, at: Opening): void {
  const { start, end } = at;
  const block = longDuctEnergy(at, radius);
  const width = end - start;
  for (let i = 0; i < width; i++)
    for (let j = 0; j <= i; j++) energy[(start + i) * size + start + j] += block[i * width + j] / radius;
}

export function addShortDuct(
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
    const stop = row === column ? i + 1 : columns.length;
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
