/**
 * Neutral stability of any lip model: where an eigenvalue lies on the imaginary axis, s = jω, with the jet's speed v,
 *
 *   F(ω, v) = Y(jω) D(jω) + N(jω) = 0
 *
 * two real equations in two unknowns. They are looked for on a grid of the note's frequencies and of jet speeds, from the least
 * on: in a cell at whose corners both parts of F have either sign there may be a zero, which Newton's method then finds or
 * not. What is found first in the order of speeds has the least pressure, as p_m rises with v; below it the rest is stable, for
 * A grows without bound as v → 0.
 */
import {
  type Band,
  type LipModel,
  MOST_PRESSURE,
  type NeutralColumn,
  type Response,
  type Threshold,
} from "./lipModel.ts";
import { admittanceOf } from "./modes.ts";

/** Jet speeds looked at: 20 Pa of drop to the most, a factor of 1.25 apart. */
const LEAST_DROP = 20;
const SPEED_STEP = 1.25;
/** Of a band's frequencies every so many. */
const STRIDE = 2;
const NEWTON_ROUNDS = 30;
const SLOPES_HOLD = 3;

interface Neutral extends Threshold {
  readonly jetSpeed: number;
}

/** A jet's speed and what the lips answer there. */
interface Row extends Response {
  readonly jetSpeed: number;
}

/** The search on one set of lips; what they answer at the last lip frequency is kept for the other notes. */
export class NeutralSearch {
  #rows: Row[] = [];
  #rowsFor = { lipHz: Number.NaN, resistance: Number.NaN };
  #before = new Float64Array(0);
  #here = new Float64Array(0);

  constructor(readonly lips: LipModel) {}

  /** Of all neutral states in a band the one of least mouth pressure; null where there is none below `MOST_PRESSURE`. */
  lowest(column: NeutralColumn, band: Band, lipHz: number): Threshold | null {
    if (lipHz !== this.#rowsFor.lipHz || column.resistance !== this.#rowsFor.resistance) {
      this.#rows = [];
      this.#rowsFor = { lipHz, resistance: column.resistance };
    }
    const { omega } = band;
    const count = Math.floor((omega.length - 1) / STRIDE) + 1;
    if (this.#here.length !== 2 * count) {
      this.#before = new Float64Array(2 * count);
      this.#here = new Float64Array(2 * count);
    }
    const most = Math.sqrt((2 * MOST_PRESSURE) / this.lips.density);
    let found: Neutral | null = null;
    for (let i = 0; ; i++) {
      const row = this.#row(i);
      const v = row.jetSpeed;
      if (v > SPEED_STEP * most) break;
      evaluate(band, row, this.#here);
      if (i > 0)
        for (let k = 0; k + 1 < count; k++) {
          if (!mayVanish(this.#before, this.#here, 2 * k)) continue;
          if (!mayVanish(this.#before, this.#here, 2 * k + 1)) continue;
          const middle = (omega[STRIDE * k] + omega[STRIDE * (k + 1)]) / 2;
          const zero = newton(this.lips, column, lipHz, middle, v / Math.sqrt(SPEED_STEP));
          if (!zero || zero.jetSpeed < v / SPEED_STEP ** 2 || zero.jetSpeed > v * SPEED_STEP) continue;
          if (!isWithin(band, zero)) continue;
          if (zero.mouthPressure < (found?.mouthPressure ?? MOST_PRESSURE)) found = zero;
        }
      // a zero near a cell's edge may have been found from either side: one row more decides
      if (found && found.jetSpeed < v / SPEED_STEP) break;
      [this.#before, this.#here] = [this.#here, this.#before];
    }
    return found && { mouthPressure: found.mouthPressure, frequencyHz: found.frequencyHz };
  }

  /** The neutral state that `near`, of a lip frequency close by, has become; null where it is lost, or left the band. */
  near(column: NeutralColumn, band: Band, lipHz: number, near: Threshold): Threshold | null {
    const speed = Math.sqrt((2 * near.mouthPressure) / this.lips.density);
    const zero = newton(this.lips, column, lipHz, 2 * Math.PI * near.frequencyHz, speed);
    if (!zero || !isWithin(band, zero) || zero.mouthPressure > MOST_PRESSURE) return null;
    return { mouthPressure: zero.mouthPressure, frequencyHz: zero.frequencyHz };
  }

  #row(i: number): Row {
    const known = this.#rows[i];
    if (known) return known;
    const { lipHz, resistance } = this.#rowsFor;
    const jetSpeed = Math.sqrt((2 * LEAST_DROP) / this.lips.density) * SPEED_STEP ** i;
    const row = {
      jetSpeed,
      ...this.lips.response(lipHz, this.lips.restWith(resistance, lipHz, jetSpeed)),
    };
    this.#rows[i] = row;
    return row;
  }
}

const isWithin = ({ omega }: Band, { frequencyHz }: Threshold): boolean => {
  const at = 2 * Math.PI * frequencyHz;
  return at >= omega[0] && at <= omega[omega.length - 1];
};

/** Whether a part of F has either sign at the corners of the cell right of `at`. */
const mayVanish = (before: Float64Array, here: Float64Array, at: number): boolean => {
  const sign = before[at] > 0;
  return before[at + 2] > 0 !== sign || here[at] > 0 !== sign || here[at + 2] > 0 !== sign;
};

/** F at every `STRIDE`th frequency of the band, pairs. */
function evaluate(
  { omega, re, im }: Band,
  { numerator: n, denominator: d }: Response,
  out: Float64Array,
): void {
  for (let i = 0, k = 0; i < out.length; i += 2, k += STRIDE) {
    const w = omega[k];
    const dRe = evenAt(d, w);
    const dIm = oddAt(d, w);
    out[i] = re[k] * dRe - im[k] * dIm + evenAt(n, w);
    out[i + 1] = re[k] * dIm + im[k] * dRe + oddAt(n, w);
  }
}

/** Real part of a polynomial at jω. */
function evenAt(coefficients: Float64Array, omega: number): number {
  const square = -omega * omega;
  let sum = 0;
  for (let k = (coefficients.length - 1) & ~1; k >= 0; k -= 2) sum = sum * square + coefficients[k];
  return sum;
}

/** Imaginary part. */
function oddAt(coefficients: Float64Array, omega: number): number {
  const square = -omega * omega;
  let sum = 0;
  for (let k = ((coefficients.length - 2) & ~1) + 1; k >= 1; k -= 2) sum = sum * square + coefficients[k];
  return sum * omega;
}

/** The zero of F next to a frequency (rad/s) and a jet speed; null where Newton's steps lead away. */
function newton(
  lips: LipModel,
  { modes, resistance }: NeutralColumn,
  lipHz: number,
  omega: number,
  v: number,
): Neutral | null {
  const valueAt = (w: number, speed: number): readonly [re: number, im: number] => {
    const rest = lips.restWith(resistance, lipHz, speed);
    const { numerator: n, denominator: d } = lips.response(lipHz, rest);
    const [re, im] = admittanceOf(modes, w);
    const [dRe, dIm] = [evenAt(d, w), oddAt(d, w)];
    return [re * dRe - im * dIm + evenAt(n, w), re * dIm + im * dRe + oddAt(n, w)];
  };
  const step = 1e-7;
  let [aw, bw, av, bv] = [0, 0, 0, 0];
  for (let i = 0; i < NEWTON_ROUNDS; i++) {
    const [re, im] = valueAt(omega, v);
    // so near a zero the slopes hold for a few steps
    if (i % SLOPES_HOLD === 0) {
      const [aRe, aIm] = valueAt(omega * (1 + step), v);
      const [bRe, bIm] = valueAt(omega, v * (1 + step));
      [aw, bw, av, bv] = [(aRe - re) / step, (aIm - im) / step, (bRe - re) / step, (bIm - im) / step];
    }
    const size = aw * bv - av * bw;
    // relative steps, kept short of leaving the cell's surroundings at once
    const byOmega = (-re * bv + im * av) / size;
    const bySpeed = (-im * aw + re * bw) / size;
    if (!(Math.abs(byOmega) + Math.abs(bySpeed) < Infinity)) return null;
    const shrink = Math.min(1, 0.03 / Math.abs(byOmega), 0.2 / Math.abs(bySpeed));
    omega *= 1 + shrink * byOmega;
    v *= 1 + shrink * bySpeed;
    if (Math.abs(byOmega) + Math.abs(bySpeed) < 1e-10) {
      const { mouthPressure } = lips.restWith(resistance, lipHz, v);
      return { mouthPressure, frequencyHz: omega / (2 * Math.PI), jetSpeed: v };
    }
  }
  return null;
}
