/**
 * From responses to impedance. Whatever loudspeaker, earphone, microphone and space before the mouth there are: as long as all of
 * it is linear, what the microphone gives on a load Z is
 *
 *   H = (a + b Z)/(1 + c Z),
 *
 * with three complex numbers that belong to the rig alone, at each frequency. Three loads whose Z is known give them, more give
 * them by least squares and tell by what they miss whether the loads are what they are said to be (V. Gibiat and F. Laloë, J.
 * Acoust. Soc. Am. 88, 1990; J.-P. Dalmont, J. Sound Vib. 243, 2001; P. Dickens, J. Smith and J. Wolfe, J. Acoust. Soc. Am. 121,
 * 2007). With the load as pressure p and flow U at the mouth, neither of which need be large,
 *
 *   a U + b p − c H p = H U   for every known load,   Z = (H − a)/(b − c H)   for what is asked.
 */
import { solve } from "../../acoustics/numerics/complexMatrix.ts";
import { OutOfRange } from "../../units/outOfRange.ts";

/** Complex, two doubles a frequency. */
type Complexes = Float64Array;

/** A load that is known, and what the rig gave on it. */
export interface KnownLoad {
  /** [p, U], four doubles a frequency, in Pa and m³/s, up to a factor. */
  readonly states: Float64Array;
  readonly response: Complexes;
}

export interface Calibrated {
  /** Pa·s/m³; two doubles a frequency, not numbers where the loads cannot be told apart. */
  readonly impedance: Complexes;
  /** By what each load misses its equation, two doubles a load and frequency. */
  readonly misses: Float64Array;
}

/** Loads needed at least. */
export const LEAST_LOADS = 3;

/**
 * @param response of what is asked
 * @param characteristic ρc/S of the rig's mouth, Pa·s/m³: the size about which p and U are weighed
 */
export function calibrated(
  loads: readonly KnownLoad[],
  response: Complexes,
  characteristic: number,
): Calibrated {
  const count = response.length / 2;
  const impedance = new Float64Array(2 * count);
  const misses = new Float64Array(2 * count * loads.length);
  const normal = new Float64Array(2 * 9);
  const right = new Float64Array(2 * 3);
  const rows = new Float64Array(8 * loads.length);
  for (let i = 0; i < count; i++) {
    normal.fill(0);
    right.fill(0);
    loads.forEach((load, k) => {
      const row = rows.subarray(8 * k, 8 * k + 8);
      equationOf(load, i, characteristic, row);
      addTo(normal, right, row);
    });
    if (!solved(normal, right)) {
      impedance.fill(Number.NaN, 2 * i, 2 * i + 2);
      continue;
    }
    const [aRe, aIm, bRe, bIm, cRe, cIm] = right;
    loads.forEach((_, k) => {
      const row = rows.subarray(8 * k, 8 * k + 8);
      let [re, im] = [-row[6], -row[7]];
      for (let j = 0; j < 6; j += 2) {
        re += row[j] * right[j] - row[j + 1] * right[j + 1];
        im += row[j] * right[j + 1] + row[j + 1] * right[j];
      }
      misses[2 * (k * count + i)] = re;
      misses[2 * (k * count + i) + 1] = im;
    });
    const [hRe, hIm] = [response[2 * i], response[2 * i + 1]];
    const [nRe, nIm] = [hRe - aRe, hIm - aIm];
    const [dRe, dIm] = [bRe - (cRe * hRe - cIm * hIm), bIm - (cRe * hIm + cIm * hRe)];
    const size = (dRe * dRe + dIm * dIm) / characteristic;
    impedance[2 * i] = (nRe * dRe + nIm * dIm) / size;
    impedance[2 * i + 1] = (nIm * dRe - nRe * dIm) / size;
  }
  return { impedance, misses };
}

/** Whether the loads can be told apart; a, b and c are then in `right`. */
function solved(normal: Float64Array, right: Float64Array): boolean {
  try {
    solve(normal, right, 3, 1);
    return true;
  } catch (error) {
    if (error instanceof OutOfRange) return false;
    throw error;
  }
}

/** U, p, −H p and H U of one load at one frequency, p and U of unit size together. */
function equationOf({ states, response }: KnownLoad, i: number, characteristic: number, row: Float64Array) {
  const [pRe, pIm] = [states[4 * i], states[4 * i + 1]];
  const [uRe, uIm] = [characteristic * states[4 * i + 2], characteristic * states[4 * i + 3]];
  const [hRe, hIm] = [response[2 * i], response[2 * i + 1]];
  const size = Math.sqrt(pRe * pRe + pIm * pIm + uRe * uRe + uIm * uIm);
  row[0] = uRe / size;
  row[1] = uIm / size;
  row[2] = pRe / size;
  row[3] = pIm / size;
  row[4] = -(hRe * pRe - hIm * pIm) / size;
  row[5] = -(hRe * pIm + hIm * pRe) / size;
  row[6] = (hRe * uRe - hIm * uIm) / size;
  row[7] = (hRe * uIm + hIm * uRe) / size;
}

/** Adds one equation to the normal ones, AᴴA x = Aᴴ y. */
function addTo(normal: Float64Array, right: Float64Array, row: Float64Array): void {
  for (let i = 0; i < 3; i++) {
    const [re, im] = [row[2 * i], -row[2 * i + 1]];
    for (let j = 0; j < 3; j++) {
      normal[2 * (3 * i + j)] += re * row[2 * j] - im * row[2 * j + 1];
      normal[2 * (3 * i + j) + 1] += re * row[2 * j + 1] + im * row[2 * j];
    }
    right[2 * i] += re * row[6] - im * row[7];
    right[2 * i + 1] += re * row[7] + im * row[6];
  }
}
