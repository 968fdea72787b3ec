/**
 * The field of least kinetic energy for given flows through the openings (Thomson's theorem), and that energy: M. Cholesky's
 * factors are own code: every new gap asks for them while a hand drags, and with ml-matrix a gap takes 0.30 ms in place of 0.16.
 */
import type { Opening } from "./opening.ts";

export interface LeastEnergyField {
  /** M/ρ, row by row. */
  readonly inertance: Float64Array;
  /** For a unit flow through each opening alone, the coefficients of every opening's polynomials. */
  readonly velocities: readonly Float64Array[];
}

/**
 * Part of its own diagonal added to the energy: nearly equal openings make nearly equal polynomials, whose difference is
 * rounding and must not come out as less energy than there is.
 */
const RIDGE = 1e-10;

/** All but each opening's first unknown take what values cost least energy: Cholesky, and the Schur complement it leaves. */
export function leastEnergyField(
  energy: Float64Array,
  size: number,
  openings: readonly Opening[],
): LeastEnergyField {
  const flows = openings.map((o) => o.start);
  const free = Array.from({ length: size }, (_, i) => i).filter((i) => !flows.includes(i));
  const order = Int32Array.from([...free, ...flows]);
  const n = free.length;
  const k = flows.length;
  const l = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    const row = i * size;
    const from = order[i];
    for (let j = 0; j <= i; j++) {
      const column = j * size;
      const to = order[j];
      const own = from >= to ? energy[from * size + to] : energy[to * size + from];
      const known = Math.min(j, n);
      // two running sums, since each addition waits for the one before
      let even = 0;
      let odd = 0;
      let m = 0;
      for (; m + 1 < known; m += 2) {
        even += l[row + m] * l[column + m];
        odd += l[row + m + 1] * l[column + m + 1];
      }
      if (m < known) even += l[row + m] * l[column + m];
      const left = own - (even + odd);
      if (j >= n) l[row + j] = left;
      else if (i === j) l[row + j] = Math.sqrt(left + RIDGE * own);
      else l[row + j] = left / l[column + j];
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
