/**
 * The air column of one setup for any gap and slide: the line's fixed parts as functions of frequency, made once from a
 * few dozen exact evaluations, and what is between them computed anew.
 *
 *   Z(f) = p/U at the rim,   [p, U] = mouthpiece · gap · upper · slide · lower
 */
import type { Setup } from "../setup/setup.ts";
import { Interpolant } from "./chebyshev.ts";
import type { Gap } from "./gap.ts";
import { FIXED, LOWER, Line, UPPER } from "./line.ts";
import { STATE, TWO_PORT, applyTo } from "./twoPort.ts";

const TAU = 2 * Math.PI;

/** Complex impedance, Pa·s/m³, at the frequencies of a grid. */
export interface Curve {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/** Frequencies with the fixed parts already evaluated: what a new gap needs to become a curve. */
export interface Grid {
  readonly frequencies: Float64Array;
  /**
   * p and U at the rim are linear in the gap's (a, b; c, d): p = Ap·a + Au·b + Bp·c + Bu·d, U with C, D for A, B, where
   * (A, B; C, D) is the mouthpiece and [p, u] the load at the leadpipe's mouth. Eight complex products a frequency.
   */
  readonly products: Float64Array;
  /** Frequencies where the gap's own, very smooth two-port is computed, Hz. */
  readonly gapNodes: Float64Array;
  /** First of the four nodes to interpolate from, and their Lagrange weights. */
  readonly nodeAt: Uint16Array;
  readonly weights: Float64Array;
}

export class AirColumn {
  readonly line: Line;
  /** Range of the interpolated fixed parts, Hz. */
  readonly lowest: number;
  readonly highest: number;
  /** Mouthpiece, upper and lower part as functions of frequency in Hz. */
  readonly fixedParts: Interpolant;
  #search: { readonly draw: number; readonly grid: Grid } | null = null;
  readonly #scratch = new Float64Array(FIXED);
  readonly #port = new Float64Array(TWO_PORT);

  /**
   * @param lowest,highest Hz; the range of every later question
   */
  constructor(
    readonly setup: Setup,
    lowest: number,
    highest: number,
    line = new Line(setup),
  ) {
    this.line = line;
    this.lowest = lowest;
    this.highest = highest;
    // Chebyshev coefficients of e^{jkL} fall once their order passes half the range's phase
    const phase = (Math.PI * (highest - lowest) * line.length) / line.soundSpeed;
    this.fixedParts = new Interpolant(lowest, highest, FIXED / 2, Math.ceil(phase + 6 * Math.cbrt(phase) + 22), (f, out) =>
      line.fixed(TAU * f, 0, out),
    );
  }

  /** Exact evaluations of the fixed parts spent so far. */
  get nodes(): number {
    return this.fixedParts.nodes;
  }

  /** The fixed parts at complex frequency f, Hz. @param out FIXED doubles */
  fixed(fRe: number, fIm: number, out: Float64Array): void {
    this.fixedParts.evaluate(fRe, fIm, out);
  }

  /**
   * [p, U] at the rim up to a common factor, at complex frequency f, Hz; `draw` m of slide drawn.
   * @param out four doubles
   */
  rimState(gap: Gap, draw: number, fRe: number, fIm: number, out: Float64Array): void {
    const fixed = this.#scratch;
    this.fixed(fRe, fIm, fixed);
    for (let i = 0; i < STATE; i++) out[i] = fixed[LOWER + i];
    this.line.drawSlide(out, draw, TAU * fRe, TAU * fIm);
    applyTo(out, fixed, UPPER);
    gap.twoPort(TAU * fRe, TAU * fIm, this.#port);
    applyTo(out, this.#port);
    applyTo(out, fixed);
  }

  /**
   * Derivative of `rimState` with respect to the gap, per metre, the shank moving and receiver and leadpipe at rest.
   * @param out four doubles
   */
  rimStateGapDerivative(gap: Gap, draw: number, fRe: number, fIm: number, out: Float64Array): void {
    const fixed = this.#scratch;
    this.fixed(fRe, fIm, fixed);
    for (let i = 0; i < STATE; i++) out[i] = fixed[LOWER + i];
    this.line.drawSlide(out, draw, TAU * fRe, TAU * fIm);
    applyTo(out, fixed, UPPER);
    this.line.gapDerivative(gap, TAU * fRe, TAU * fIm, this.#port);
    applyTo(out, this.#port);
    applyTo(out, fixed);
  }

  /** @param frequencies Hz, rising, within the column's range */
  grid(frequencies: Float64Array, draw = 0): Grid {
    const count = frequencies.length;
    const products = new Float64Array(PRODUCTS * count);
    const fixed = this.#scratch;
    const state = new Float64Array(STATE);
    for (let i = 0; i < count; i++) {
      const f = frequencies[i];
      this.fixed(f, 0, fixed);
      state.set(fixed.subarray(LOWER));
      this.line.drawSlide(state, draw, TAU * f, 0);
      applyTo(state, fixed, UPPER);
      let at = PRODUCTS * i;
      for (let row = 0; row < TWO_PORT; row += 4)
        for (let column = 0; column < 4; column += 2)
          for (let load = 0; load < STATE; load += 2) {
            const xRe = fixed[row + column];
            const xIm = fixed[row + column + 1];
            products[at++] = xRe * state[load] - xIm * state[load + 1];
            products[at++] = xRe * state[load + 1] + xIm * state[load];
          }
    }
    return { frequencies, products, ...gapNodesFor(frequencies) };
  }

  /** The grid peaks are looked for on, kept between gaps. */
  searchGrid(perSpacing: number, draw: number): Grid {
    if (this.#search?.draw === draw) return this.#search.grid;
    const spacing = this.line.soundSpeed / (2 * this.line.length);
    const count = Math.ceil(((this.highest - this.lowest) / spacing) * perSpacing);
    const step = (this.highest - this.lowest) / count;
    const grid = this.grid(
      Float64Array.from({ length: count + 1 }, (_, i) => this.lowest + i * step),
      draw,
    );
    this.#search = { draw, grid };
    return grid;
  }

  /** Z at a grid's frequencies for one gap. */
  curve(grid: Grid, gap: Gap): Curve {
    const { frequencies, products: q, gapNodes, nodeAt, weights } = grid;
    const count = frequencies.length;
    const re = new Float64Array(count);
    const im = new Float64Array(count);
    const g = new Float64Array(TWO_PORT * gapNodes.length);
    gapNodes.forEach((f, k) => {
      gap.twoPort(TAU * f, 0, g, TWO_PORT * k);
    });
    // one straight run of arithmetic, without calls or inner loops: this is all a new gap costs
    for (let i = 0; i < count; i++) {
      const n = TWO_PORT * nodeAt[i];
      const w = 4 * i;
      const w0 = weights[w];
      const w1 = weights[w + 1];
      const w2 = weights[w + 2];
      const w3 = weights[w + 3];
      const aRe = w0 * g[n] + w1 * g[n + 8] + w2 * g[n + 16] + w3 * g[n + 24];
      const aIm = w0 * g[n + 1] + w1 * g[n + 9] + w2 * g[n + 17] + w3 * g[n + 25];
      const bRe = w0 * g[n + 2] + w1 * g[n + 10] + w2 * g[n + 18] + w3 * g[n + 26];
      const bIm = w0 * g[n + 3] + w1 * g[n + 11] + w2 * g[n + 19] + w3 * g[n + 27];
      const cRe = w0 * g[n + 4] + w1 * g[n + 12] + w2 * g[n + 20] + w3 * g[n + 28];
      const cIm = w0 * g[n + 5] + w1 * g[n + 13] + w2 * g[n + 21] + w3 * g[n + 29];
      const dRe = w0 * g[n + 6] + w1 * g[n + 14] + w2 * g[n + 22] + w3 * g[n + 30];
      const dIm = w0 * g[n + 7] + w1 * g[n + 15] + w2 * g[n + 23] + w3 * g[n + 31];
      const k = PRODUCTS * i;
      const pRe =
        q[k] * aRe - q[k + 1] * aIm + q[k + 2] * bRe - q[k + 3] * bIm +
        q[k + 4] * cRe - q[k + 5] * cIm + q[k + 6] * dRe - q[k + 7] * dIm;
      const pIm =
        q[k] * aIm + q[k + 1] * aRe + q[k + 2] * bIm + q[k + 3] * bRe +
        q[k + 4] * cIm + q[k + 5] * cRe + q[k + 6] * dIm + q[k + 7] * dRe;
      const uRe =
        q[k + 8] * aRe - q[k + 9] * aIm + q[k + 10] * bRe - q[k + 11] * bIm +
        q[k + 12] * cRe - q[k + 13] * cIm + q[k + 14] * dRe - q[k + 15] * dIm;
      const uIm =
        q[k + 8] * aIm + q[k + 9] * aRe + q[k + 10] * bIm + q[k + 11] * bRe +
        q[k + 12] * cIm + q[k + 13] * cRe + q[k + 14] * dIm + q[k + 15] * dRe;
      const size = 1 / (uRe * uRe + uIm * uIm);
      re[i] = (pRe * uRe + pIm * uIm) * size;
      im[i] = (pIm * uRe - pRe * uIm) * size;
    }
    return { re, im };
  }
}

/** Doubles of the eight complex products. */
const PRODUCTS = 16;

/** Enough nodes, evenly spaced in log f, for a relative error of the gap's two-port below 3e-6 by cubic interpolation. */
const NODES = 28;

function gapNodesFor(frequencies: Float64Array): Pick<Grid, "gapNodes" | "nodeAt" | "weights"> {
  const count = frequencies.length;
  const low = Math.log(frequencies[0]);
  const stride = (Math.log(frequencies[count - 1]) - low || 1) / (NODES - 1);
  const gapNodes = Float64Array.from({ length: NODES }, (_, k) => Math.exp(low + k * stride));
  const nodeAt = new Uint16Array(count);
  const weights = new Float64Array(4 * count);
  for (let i = 0; i < count; i++) {
    const x = (Math.log(frequencies[i]) - low) / stride;
    const first = Math.min(NODES - 4, Math.max(0, Math.floor(x) - 1));
    const t = x - first;
    nodeAt[i] = first;
    weights[4 * i] = ((t - 1) * (t - 2) * (t - 3)) / -6;
    weights[4 * i + 1] = (t * (t - 2) * (t - 3)) / 2;
    weights[4 * i + 2] = (t * (t - 1) * (t - 3)) / -2;
    weights[4 * i + 3] = (t * (t - 1) * (t - 2)) / 6;
  }
  return { gapNodes, nodeAt, weights };
}
