/**
 * What a sum over an air column's resonances leaves out, as two terms more of the same form at fixed poles: one at twice the
 * last resonance, for the inertance and compliance of all above it, and one as low as the first and without ringing, for the
 * slow relaxation of a viscous bore (its impedance has a branch cut, which no resonance stands for). Their residues follow
 * from the exact column by linear least squares of relative errors, over the notes' frequencies:
 *
 *   Z(jω) − Σₙ ≈ Σᵣ [ Cᵣ/(jω − sᵣ) + C̄ᵣ/(jω − s̄ᵣ) ],   sᵣ = ωᵣ (−1/2Qᵣ + j sqrt(1 − 1/4Qᵣ²))
 *
 * Without them note 12 of a trumpet starts 4.3 % too easily; with them every note to the twelfth is within 0.2 %
 * (tests/study/feel/modalColumn.test.ts). Poles and Qs are own choice: with any from 1.5 to 3 times the last resonance the
 * thresholds come out alike.
 */
import { Matrix, solve } from "ml-matrix";
import { impedanceOf, type Modes, resonanceCount } from "../../lips/modes.ts";

/** Frequencies the terms are fitted at. */
const POINTS = 40;
/** The topmost resonances bound no note and are left free. */
const UNPLAYED = 3;
/** Weight of what is asked for exactly: a thousandth of the others' error is left in it. */
const CERTAIN = 1000;
/** Columns of fewer resonances have too little to fit to. */
const FEWEST = 5;

/**
 * The column with two terms more; the same where it has too few resonances or they would make it give out energy.
 *
 * @param steady Z(0) that it is to have, Pa·s/m³; what comes of the rest where null
 */
export function withLeftOut(
  modes: Modes,
  exact: (hz: number) => readonly [re: number, im: number],
  steady: number | null = null,
): Modes {
  const { poles, residues } = modes;
  const count = resonanceCount(modes);
  if (count < FEWEST) return modes;
  const resonance = (n: number) => poles[2 * n - 1];
  const places = [...poleAt(2 * resonance(count), 2), ...poleAt(resonance(1), 0.6)];
  // unit residues 1 and j of either, in a size that keeps the columns alike
  const size = Math.hypot(residues[0], residues[1]);
  const units = [0, 1, 2, 3].map((which): Modes => {
    const one = new Float64Array(4);
    one[which] = size;
    return { poles: Float64Array.from(places), residues: one };
  });
  const [low, high] = [0.8 * resonance(2), resonance(count - UNPLAYED)];
  const rows: number[][] = [];
  const wanted: number[] = [];
  for (let i = 0; i < POINTS; i++) {
    const omega = low + ((high - low) * i) / (POINTS - 1);
    const whole = exact(omega / (2 * Math.PI));
    const sum = impedanceOf(modes, omega);
    const terms = units.map((unit) => impedanceOf(unit, omega));
    const weight = 1 / Math.hypot(...whole);
    for (const part of [0, 1] as const) {
      rows.push(terms.map((term) => weight * term[part]));
      wanted.push(weight * (whole[part] - sum[part]));
    }
  }
  if (steady !== null) {
    const weight = CERTAIN / Math.abs(steady);
    rows.push(units.map((unit) => weight * impedanceOf(unit, 0)[0]));
    wanted.push(weight * (steady - impedanceOf(modes, 0)[0]));
  }
  const fitted = solve(new Matrix(rows), Matrix.columnVector(wanted))
    .to1DArray()
    .map((x) => size * x);
  const all = Float64Array.of(...residues, ...fitted);
  // checkModes asks for a resistance above 0 at the top of the frequency axis
  let top = 0;
  for (let k = 0; k < all.length; k += 2) top += all[k];
  if (!(top > 0)) return modes;
  return { poles: Float64Array.of(...poles, ...places), residues: all, resonances: count };
}

/** Pole of frequency ω (rad/s) and quality factor Q. */
const poleAt = (omega: number, quality: number): readonly [re: number, im: number] => [
  -omega / (2 * quality),
  omega * Math.sqrt(1 - 1 / (4 * quality * quality)),
];
