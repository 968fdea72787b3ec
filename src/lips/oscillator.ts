/**
 * Lips and air column in time, sample by sample, h = 1/sample rate; made to run in an AudioWorklet: nothing outside this
 * folder, no allocation after construction, every setting approached over one block so that none clicks.
 *
 * Column, exact for a flow that is linear between samples, pₙ = qₙ + Cₙβₙ u:
 *   qₙ(k+1) = Eₙ qₙ(k) + Γₙ u(k),   Eₙ = e^{sₙh},   βₙ = (Eₙ − 1 − sₙh)/(sₙ²h),   Γₙ = Cₙ (Eₙ − 1)(1/sₙ + βₙ)
 * Lips: the lip model's own motion (`lipModel.ts`), Δ = p_m − p and u_s = sₒ + s_Δ Δ + s_p p of this sample
 * Flow, with p̂ = 2 Re Σ qₙ and R = 2 Re Σ Cₙβₙ: p = p̂ + R (u_j + u_s) = p̂′ + R′ u_j, then a quadratic in sqrt|Δ|, whose one
 * root is
 *   u_j = 2q/(R′ + sqrt(R′² + 2ρφ|q|)),   q = p_m − p̂′
 *
 * Second order in h. Both linear parts are stable at any h. A flow linear between samples sees the sum
 * Σₖ Z(ω + 2πk/h) sinc²(ωh/2 + πk), positive factors all, so that the sampled column takes energy from the flow wherever
 * Re Z ≥ 0; the valve, sign u_j = sign Δ, gives none either: only the mouth does, while |p| < p_m, and so all stays bounded
 * whatever one mass does. What lips sweep is work done on them to the last bit. Sampled slower than twice the highest mode, the sum would fold; refused.
 */
import { OutOfRange } from "../units/outOfRange.ts";
import type { Motion } from "./lipModel.ts";
import { checkModes, countOf, type Modes } from "./modes.ts";
import { checkLips, lipModelOf, type Valve } from "./valve.ts";

/** Doubles a mode has: E and Γ, each [re, im]. */
const MODE = 4;

/** Lip frequencies it is made for, Hz. */
export const LIP_RANGE_HZ = [10, 4000] as const;

export interface Blowing {
  /** p_m, Pa; 0 is silence. */
  readonly mouthPressure: number;
  readonly lipHz: number;
}

/** Lips on a column, sample by sample; SI. */
export class Oscillator {
  /** p in the cup, Pa; u, m³/s: at the last sample. */
  pressure = 0;
  flow = 0;

  readonly #step: number;
  readonly #count: number;
  /** qₙ, pairs. */
  readonly #states: Float64Array;
  /** MODE doubles a mode, and R: now, and at the end of the next block. */
  readonly #now: Float64Array;
  readonly #next: Float64Array;
  #columnMoves = false;
  readonly #motion: Motion;
  /** The motion's coefficients: now, and at the end of the next block. */
  readonly #lips: Float64Array;
  readonly #nextLips: Float64Array;
  #lipsMove = false;
  #mouthPressure: number;
  #nextLipHz: number;
  #nextMouthPressure: number;

  /** @throws OutOfRange in words for lips, modes, rate or blowing it cannot run with */
  constructor(
    readonly sampleRate: number,
    readonly valve: Valve,
    modes: Modes,
    blowing: Blowing,
  ) {
    if (!(sampleRate >= 8000 && sampleRate <= 1e7))
      throw new OutOfRange(`a sample rate of ${sampleRate} Hz cannot be used: give 8000 Hz or more`);
    if (!(valve.density > 0 && valve.density < 100))
      throw new OutOfRange(`an air density of ${valve.density} kg/m³ cannot be used: give about 1.2`);
    checkLips(valve);
    this.#step = 1 / sampleRate;
    this.#count = countOf(modes);
    this.#states = new Float64Array(2 * this.#count);
    this.#now = new Float64Array(MODE * this.#count + 1);
    this.#next = new Float64Array(MODE * this.#count + 1);
    this.#setColumn(modes);
    this.#now.set(this.#next);
    this.#motion = lipModelOf(valve).motion(sampleRate);
    this.#lips = new Float64Array(this.#motion.coefficientCount);
    this.#nextLips = new Float64Array(this.#motion.coefficientCount);
    checkBlowing(blowing);
    this.#mouthPressure = this.#nextMouthPressure = blowing.mouthPressure;
    this.#motion.press(blowing.mouthPressure, 0);
    this.#nextLipHz = blowing.lipHz;
    this.#motion.coefficientsAt(blowing.lipHz, this.#nextLips);
    this.#lips.set(this.#nextLips);
  }

  /** Between the lips at the last sample, m; below 0: closed. */
  get opening(): number {
    return this.#motion.opening;
  }

  get blowing(): Blowing {
    return { mouthPressure: this.#nextMouthPressure, lipHz: this.#nextLipHz };
  }

  /** Mouth pressure and lip frequency to be reached, steadily, at the end of the next block. */
  blow(mouthPressure: number, lipHz: number): void {
    checkBlowing({ mouthPressure, lipHz });
    this.#nextMouthPressure = mouthPressure;
    if (lipHz === this.#nextLipHz) return;
    this.#nextLipHz = lipHz;
    this.#motion.coefficientsAt(lipHz, this.#nextLips);
    this.#lipsMove = true;
  }

  /** The air column at the end of the next block: as many modes as before, of another gap, say. */
  setModes(modes: Modes): void {
    if (countOf(modes) !== this.#count)
      throw new OutOfRange(`this oscillator has ${this.#count} modes: give as many, not ${countOf(modes)}`);
    this.#setColumn(modes);
    this.#columnMoves = true;
  }

  /** Puts everything at the rest the steady stream leaves it in, the lips then displaced by `kick` of their opening. */
  rest(kick = 0): void {
    const states = this.#states;
    const now = this.#now;
    // qₙ a unit of steady flow leaves: Γₙ/(1 − Eₙ)
    let sum = 0;
    for (let k = 0, m = 0; k < states.length; k += 2, m += MODE) {
      const eRe = 1 - now[m];
      const eIm = -now[m + 1];
      const size = eRe * eRe + eIm * eIm;
      states[k] = (now[m + 2] * eRe + now[m + 3] * eIm) / size;
      states[k + 1] = (now[m + 3] * eRe - now[m + 2] * eIm) / size;
      sum += states[k];
    }
    const resistance = 2 * sum + now[now.length - 1];
    const rest = this.#motion.rest(resistance, this.#nextLipHz, this.#mouthPressure, kick);
    this.flow = rest?.flow ?? 0;
    this.pressure = rest?.cupPressure ?? 0;
    for (let k = 0; k < states.length; k++) states[k] *= this.flow;
  }

  /** The other's state and settings; both must have as many modes. */
  copy(other: Oscillator): void {
    if (other.#count !== this.#count) throw new OutOfRange("oscillators with different numbers of modes");
    this.#states.set(other.#states);
    this.#now.set(other.#now);
    this.#next.set(other.#next);
    this.#columnMoves = other.#columnMoves;
    this.#motion.copy(other.#motion);
    this.#lips.set(other.#lips);
    this.#nextLips.set(other.#nextLips);
    this.#lipsMove = other.#lipsMove;
    this.#nextLipHz = other.#nextLipHz;
    this.#mouthPressure = other.#mouthPressure;
    this.#nextMouthPressure = other.#nextMouthPressure;
    this.pressure = other.pressure;
    this.flow = other.flow;
  }

  /**
   * One block: the cup's pressure, Pa, into `pressures`, and where asked the lips' opening, m, into `openings`.
   * Settings reach their new values with the last sample.
   */
  run(pressures: Float32Array | Float64Array, openings?: Float64Array): void {
    const length = pressures.length;
    const mouthStep = (this.#nextMouthPressure - this.#mouthPressure) / length;
    for (let i = 0; i < length; i++) {
      const left = length - i;
      this.#mouthPressure = left === 1 ? this.#nextMouthPressure : this.#mouthPressure + mouthStep;
      if (this.#lipsMove) approach(this.#lips, this.#nextLips, left);
      if (this.#columnMoves) approach(this.#now, this.#next, left);
      this.#advance();
      pressures[i] = this.pressure;
      if (openings) openings[i] = this.#motion.opening;
    }
    if (length > 0) this.#lipsMove = this.#columnMoves = false;
  }

  #advance(): void {
    const motion = this.#motion;
    motion.advance(this.#lips);

    const states = this.#states;
    const now = this.#now;
    const old = this.flow;
    let sum = 0;
    for (let k = 0, m = 0; k < states.length; k += 2, m += MODE) {
      const re = states[k];
      const im = states[k + 1];
      const newRe = now[m] * re - now[m + 1] * im + now[m + 2] * old;
      states[k] = newRe;
      states[k + 1] = now[m] * im + now[m + 1] * re + now[m + 3] * old;
      sum += newRe;
    }
    const whole = now[now.length - 1];
    const mouth = this.#mouthPressure;
    // p = p̂ + R (u_j + sₒ + s_Δ (p_m − p) + s_p p), solved for what is not u_j
    const share = 1 / (1 + whole * (motion.sweptByDrop - motion.sweptByCup));
    const still = share * (2 * sum + whole * (motion.swept + motion.sweptByDrop * mouth));
    const resistance = share * whole;
    let jet = 0;
    if (motion.loss < Infinity) {
      const q = mouth - still;
      const turning = 2 * this.valve.density * motion.loss * Math.abs(q);
      jet = (2 * q) / (resistance + Math.sqrt(resistance * resistance + turning));
    }
    this.pressure = still + resistance * jet;
    const drop = mouth - this.pressure;
    this.flow = jet + motion.swept + motion.sweptByDrop * drop + motion.sweptByCup * this.pressure;
    motion.press(drop, this.pressure);
  }

  /** E and Γ of every mode, and R, into what the next block ends with. */
  #setColumn(modes: Modes): void {
    checkModes(modes);
    const { poles, residues } = modes;
    const h = this.#step;
    let highest = 0;
    for (let k = 1; k < poles.length; k += 2) highest = Math.max(highest, poles[k]);
    if (highest * h > Math.PI)
      throw new OutOfRange(
        `${this.sampleRate} Hz is too slow for a mode at ${Math.round(highest / (2 * Math.PI))} Hz: ` +
          "sample at twice that or more",
      );
    let resistance = 0;
    for (let k = 0, m = 0; k < poles.length; k += 2, m += MODE) {
      const [sRe, sIm] = [poles[k], poles[k + 1]];
      const size = Math.exp(sRe * h);
      const eRe = size * Math.cos(sIm * h);
      const eIm = size * Math.sin(sIm * h);
      const s2 = sRe * sRe + sIm * sIm;
      // ∫ e^{sτ} dτ = (E − 1)/s, and β = (that − h)/(s h)
      const iRe = ((eRe - 1) * sRe + eIm * sIm) / s2;
      const iIm = (eIm * sRe - (eRe - 1) * sIm) / s2;
      const bRe = ((iRe - h) * sRe + iIm * sIm) / (s2 * h);
      const bIm = (iIm * sRe - (iRe - h) * sIm) / (s2 * h);
      const [cRe, cIm] = [residues[k], residues[k + 1]];
      resistance += 2 * (cRe * bRe - cIm * bIm);
      // (E − 1)(1/s + β) = ∫ + (E − 1) β
      const gRe = iRe + (eRe - 1) * bRe - eIm * bIm;
      const gIm = iIm + (eRe - 1) * bIm + eIm * bRe;
      this.#next[m] = eRe;
      this.#next[m + 1] = eIm;
      this.#next[m + 2] = cRe * gRe - cIm * gIm;
      this.#next[m + 3] = cRe * gIm + cIm * gRe;
    }
    this.#next[this.#next.length - 1] = resistance;
  }
}

/**
 * A step towards the next block's coefficients with `left` samples of this one to go. Between two decaying modes, or two
 * damped lips, lie only such: |E| < 1 is a disc and the stable recursions of second order fill a triangle.
 */
function approach(now: Float64Array, next: Float64Array, left: number): void {
  for (let i = 0; i < now.length; i++) now[i] = left === 1 ? next[i] : now[i] + (next[i] - now[i]) / left;
}

function checkBlowing({ mouthPressure, lipHz }: Blowing): void {
  if (!(mouthPressure >= 0 && mouthPressure < 1e9))
    throw new OutOfRange(`a mouth pressure of ${mouthPressure} Pa cannot be blown: give 0 Pa or more`);
  if (!(lipHz >= LIP_RANGE_HZ[0] && lipHz <= LIP_RANGE_HZ[1]))
    throw new OutOfRange(
      `lips at ${lipHz} Hz are out of reach: give ${LIP_RANGE_HZ[0]} to ${LIP_RANGE_HZ[1]} Hz`,
    );
}
