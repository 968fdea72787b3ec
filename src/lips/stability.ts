/**
 * Linear stability of the lips' rest. Small departures e^{st} from it obey δu = −A(s) δp of the lips, A = N/D (`lipModel.ts`),
 * and δp = Z(s) δu of the column,
 *
 *   ⇒ H(s) = D(s) + Z(s) N(s) = 0
 *
 * Times the poles of Z this is a polynomial, whose degree is that of D and two a mode, and whose zeros are the eigenvalues of
 * the system's matrix. They are found all at once by the method of Ehrlich (1967) and Aberth (1973), which needs P'/P only,
 *
 *   P'/P = H'/H + Σ 1/(s − pole),
 *
 * and whose steps repel each other, so that no zero is found twice and none is missed; their sum must be the matrix's trace.
 * (mathjs 15 `eigs` does not converge on real unsymmetric matrices of this size.)
 */
import type { LipModel, OwnMode, Response } from "./lipModel.ts";
import { checkModes, countOf, type Modes, staticResistance } from "./modes.ts";
import { lipModelOf, type Valve } from "./valve.ts";

const MOST_ROUNDS = 200;
/** The last step relative to the zero's size: the next would be its cube. Such a zero is left where it is. */
const CONVERGED = 1e-7;
/** Two zeros that nearly coincide are known to half the digits: after so many rounds, such a step will do. */
const PATIENT_ROUNDS = 60;
const NEARLY = 1e-6;
/** What the sum of the zeros may miss the trace by, relative to the sum of their sizes. */
const TRACE_ERROR = 1e-8;

/** What grows fastest, or decays most slowly, of what oscillates. */
export interface Growth {
  /** Re s, 1/s. */
  readonly rate: number;
  /** Im s/2π, Hz. */
  readonly frequencyHz: number;
}

/** Lips on one air column; asked again nearby, it starts from the zeros it had. */
export class Stability {
  readonly resistance: number;
  /** The zeros last found, pairs [re, im], in no order. */
  readonly zeros: Float64Array;
  readonly #lips: LipModel;
  readonly #poles: Float64Array;
  readonly #residues: Float64Array;
  readonly #isSettled: Uint8Array;
  #warm = false;

  /** @throws OutOfRange in words for modes no passive column has */
  constructor(
    readonly valve: Valve,
    readonly modes: Modes,
  ) {
    checkModes(modes);
    this.#lips = lipModelOf(valve);
    this.resistance = Math.max(0, staticResistance(modes));
    const count = 2 * (countOf(modes) + this.#lips.ownModes(1).length);
    this.zeros = new Float64Array(2 * count);
    this.#isSettled = new Uint8Array(count);
    this.#poles = withMirrors(modes.poles);
    this.#residues = withMirrors(modes.residues);
  }

  /** All eigenvalues, rad/s, at a lip frequency (Hz) and mouth pressure (Pa), both above 0. */
  eigenvalues(lipHz: number, mouthPressure: number): Float64Array {
    const rest = this.#lips.restUnder(this.resistance, lipHz, mouthPressure);
    const response = this.#lips.response(lipHz, rest);
    if (!this.#warm) this.#start(lipHz);
    if (!this.#settle(lipHz, response)) {
      this.#start(lipHz);
      if (!this.#settle(lipHz, response))
        throw new Error(`eigenvalues at ${lipHz} Hz and ${mouthPressure} Pa did not settle`);
    }
    this.#warm = true;
    return this.zeros;
  }

  /** The oscillating eigenvalue that grows fastest. */
  fastest(lipHz: number, mouthPressure: number): Growth {
    const zeros = this.eigenvalues(lipHz, mouthPressure);
    let best = -1;
    for (let k = 0; k < zeros.length; k += 2)
      if (zeros[k + 1] > 0 && (best < 0 || zeros[k] > zeros[best])) best = k;
    return { rate: zeros[best], frequencyHz: zeros[best + 1] / (2 * Math.PI) };
  }

  /** Beside the poles of column and lips. */
  #start(lipHz: number): void {
    const lipOmega = 2 * Math.PI * lipHz;
    const { zeros } = this;
    const poles = this.#poles;
    zeros.set(poles);
    this.#lips.ownModes(lipHz).forEach((own, i) => {
      zeros.set(besides(own), poles.length + 4 * i);
    });
    // off every pole, and off the real axis and any symmetry, which the steps would keep
    for (let k = 0; k < zeros.length; k += 2) {
      zeros[k] -= 0.011 * lipOmega;
      zeros[k + 1] += 0.007 * lipOmega;
    }
  }

  #settle(lipHz: number, { numerator, denominator }: Response): boolean {
    const lipOmega = 2 * Math.PI * lipHz;
    const { zeros } = this;
    const poles = this.#poles;
    const residues = this.#residues;
    const order = denominator.length - 1;
    this.#isSettled.fill(0);
    for (let round = 0; round < MOST_ROUNDS; round++) {
      const enough = round < PATIENT_ROUNDS ? CONVERGED : NEARLY;
      let moving = 0;
      for (let i = 0; i < zeros.length; i += 2) {
        if (this.#isSettled[i / 2]) continue;
        const sRe = zeros[i];
        const sIm = zeros[i + 1];
        // Z, dZ/ds and Σ 1/(s − pole)
        let zRe = 0;
        let zIm = 0;
        let dRe = 0;
        let dIm = 0;
        let logRe = 0;
        let logIm = 0;
        for (let k = 0; k < poles.length; k += 2) {
          const aRe = sRe - poles[k];
          const aIm = sIm - poles[k + 1];
          const size = 1 / (aRe * aRe + aIm * aIm);
          const rRe = aRe * size;
          const rIm = -aIm * size;
          const tRe = residues[k] * rRe - residues[k + 1] * rIm;
          const tIm = residues[k] * rIm + residues[k + 1] * rRe;
          zRe += tRe;
          zIm += tIm;
          dRe -= tRe * rRe - tIm * rIm;
          dIm -= tRe * rIm + tIm * rRe;
          logRe += rRe;
          logIm += rIm;
        }
        // D, N and their derivatives, by Horner's rule
        let [lRe, lIm, mRe, mIm] = [denominator[order], 0, 0, 0];
        let [nRe, nIm, oRe, oIm] = [numerator[order], 0, 0, 0];
        for (let k = order - 1; k >= 0; k--) {
          const mNext = mRe * sRe - mIm * sIm + lRe;
          mIm = mRe * sIm + mIm * sRe + lIm;
          mRe = mNext;
          const lNext = lRe * sRe - lIm * sIm + denominator[k];
          lIm = lRe * sIm + lIm * sRe;
          lRe = lNext;
          const oNext = oRe * sRe - oIm * sIm + nRe;
          oIm = oRe * sIm + oIm * sRe + nIm;
          oRe = oNext;
          const nNext = nRe * sRe - nIm * sIm + numerator[k];
          nIm = nRe * sIm + nIm * sRe;
          nRe = nNext;
        }
        const hRe = lRe + zRe * nRe - zIm * nIm;
        const hIm = lIm + zRe * nIm + zIm * nRe;
        const gRe = mRe + dRe * nRe - dIm * nIm + zRe * oRe - zIm * oIm;
        const gIm = mIm + dRe * nIm + dIm * nRe + zRe * oIm + zIm * oRe;
        const hSize = hRe * hRe + hIm * hIm;
        // on a zero to the last bit
        if (hSize === 0) {
          this.#isSettled[i / 2] = 1;
          continue;
        }
        logRe += (gRe * hRe + gIm * hIm) / hSize;
        logIm += (gIm * hRe - gRe * hIm) / hSize;
        // less the other zeros' pull
        for (let j = 0; j < zeros.length; j += 2) {
          if (j === i) continue;
          const aRe = sRe - zeros[j];
          const aIm = sIm - zeros[j + 1];
          const size = aRe * aRe + aIm * aIm;
          if (size === 0) continue;
          logRe -= aRe / size;
          logIm += aIm / size;
        }
        const size = logRe * logRe + logIm * logIm;
        const stepRe = logRe / size;
        const stepIm = -logIm / size;
        if (!(Math.abs(stepRe) + Math.abs(stepIm) < Infinity)) return false;
        zeros[i] -= stepRe;
        zeros[i + 1] -= stepIm;
        const step =
          (Math.abs(stepRe) + Math.abs(stepIm)) / (Math.abs(sRe) + Math.abs(sIm) + 1e-3 * lipOmega);
        if (step < enough) this.#isSettled[i / 2] = 1;
        else moving++;
      }
      if (moving === 0) return this.#traceHolds(denominator[order - 1], numerator[order]);
    }
    return false;
  }

  #traceHolds(damping: number, conductance: number): boolean {
    let trace = -damping;
    for (let k = 0; k < this.#poles.length; k += 2) trace += this.#poles[k] - conductance * this.#residues[k];
    let sum = 0;
    let scale = 0;
    for (let k = 0; k < this.zeros.length; k += 2) {
      sum += this.zeros[k];
      scale += Math.hypot(this.zeros[k], this.zeros[k + 1]);
    }
    return Math.abs(sum - trace) <= TRACE_ERROR * scale;
  }
}

/** Two places for the zeros beside a movement's own poles, never one on the other, which has no way apart. */
function besides({ omega, quality }: OwnMode): readonly number[] {
  const damping = omega / (2 * quality);
  const split = damping * damping - omega * omega;
  const apart = Math.sqrt(Math.abs(split)) + 0.01 * omega;
  return split < 0 ? [-damping, apart, -damping, -apart] : [-damping + apart, 0, -damping - apart, 0];
}

/** Complex numbers followed by their conjugates. */
function withMirrors(values: Float64Array): Float64Array {
  const both = new Float64Array(2 * values.length);
  both.set(values);
  for (let k = 0; k < values.length; k += 2) {
    both[values.length + k] = values[k];
    both[values.length + k + 1] = -values[k + 1];
  }
  return both;
}
