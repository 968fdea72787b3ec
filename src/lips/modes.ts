/**
 * The air column as the lips see it: a sum over its complex resonances,
 *
 *   Z(s) = p/u = Σₙ [ Cₙ/(s − sₙ) + C̄ₙ/(s − s̄ₙ) ],   sₙ = jωₙ, Re sₙ < 0
 *
 * which in time is p = 2 Re Σ pₙ, dpₙ/dt = sₙ pₙ + Cₙ u (the modal form of Silva, Vergez, Guillemain, Kergomard & Debut
 * 2014, "MoReeSC"; cited from memory). A sum cut short is exact at its own poles only: its last terms may stand for those left
 * out, at poles of nobody's. Who makes it says how close it is.
 */

import { OutOfRange } from "../units/outOfRange.ts";

/** Poles and residues, pairs of doubles [re, im], Im sₙ > 0, those of resonances rising; rad/s and Pa/m³. */
export interface Modes {
  readonly poles: Float64Array;
  readonly residues: Float64Array;
  /** How many of the terms, the first ones, are resonances, where not all are. */
  readonly resonances?: number;
}

/** How many terms. */
export const countOf = ({ poles }: Modes): number => poles.length / 2;

/** How many of them are resonances: notes stand on these alone. */
export const resonanceCount = (modes: Modes): number => modes.resonances ?? countOf(modes);

/** Resonance frequency Im sₙ/2π of mode n = 1, 2, …, Hz. */
export const resonanceHz = ({ poles }: Modes, n: number): number => poles[2 * n - 1] / (2 * Math.PI);

/** Z(jω), Pa·s/m³. */
export function impedanceOf({ poles, residues }: Modes, omega: number): [re: number, im: number] {
  let re = 0;
  let im = 0;
  for (let k = 0; k < poles.length; k += 2) {
    const cRe = residues[k];
    const cIm = residues[k + 1];
    const dRe = -poles[k];
    // the pole and its mirror image
    for (let side = 1; side >= -1; side -= 2) {
      const dIm = omega - side * poles[k + 1];
      const size = dRe * dRe + dIm * dIm;
      re += (cRe * dRe + side * cIm * dIm) / size;
      im += (side * cIm * dRe - cRe * dIm) / size;
    }
  }
  return [re, im];
}

/** Y(jω) */
export function admittanceOf(modes: Modes, omega: number): [re: number, im: number] {
  const [re, im] = impedanceOf(modes, omega);
  const size = re * re + im * im;
  return [re / size, -im / size];
}

/** Z(0), Pa·s/m³: what the sum leaves of the mean pressure in the cup. */
export const staticResistance = (modes: Modes): number => impedanceOf(modes, 0)[0];

/**
 * @throws OutOfRange where the sum cannot be a passive air column's: a pole that does not decay or is out of order, or a
 * resistance below 0 at either end of the frequency axis
 */
export function checkModes(modes: Modes): void {
  const { poles, residues } = modes;
  if (poles.length < 2 || poles.length % 2 || poles.length !== residues.length)
    throw new OutOfRange("the air column needs at least one mode, and a residue for every pole");
  const count = resonanceCount(modes);
  if (!(Number.isInteger(count) && count >= 1 && 2 * count <= poles.length))
    throw new OutOfRange(`an air column of ${poles.length / 2} terms cannot have ${count} resonances`);
  let below = 0;
  let sum = 0;
  for (let k = 0; k < poles.length; k += 2) {
    const n = k / 2 + 1;
    if (!(poles[k] < 0 && poles[k] > -Infinity))
      throw new OutOfRange(`mode ${n} does not decay: its pole's real part must be below 0`);
    if (!(poles[k + 1] > below && poles[k + 1] < Infinity))
      throw new OutOfRange(`mode ${n} is out of order: frequencies must rise from above 0 Hz`);
    if (!(Math.hypot(residues[k], residues[k + 1]) < Infinity))
      throw new OutOfRange(`mode ${n} has no finite residue: give one in Pa/m³`);
    // terms for what is left out stand anywhere
    below = n < count ? poles[k + 1] : 0;
    sum += residues[k];
  }
  // to rounding: a column may be made to have none at 0 Hz
  if (!(sum > 0 && staticResistance(modes) > -1e-9 * Math.hypot(...impedanceOf(modes, poles[1]))))
    throw new OutOfRange("the modes add up to a column that gives out energy: use more of them");
}
