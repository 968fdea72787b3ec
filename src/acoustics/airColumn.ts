/**
 * The air column of one setup for any gap and slide: the line's fixed parts as functions of frequency, made once from a
 * few dozen exact evaluations, and what is between them computed anew.
 *
 *   Z(f) = p/U at the rim,   [p, U] = mouthpiece · gap · upper · slide · lower
 */
import type { Setup } from "../setup/setup.ts";
import { FixedParts } from "./duct/fixedParts.ts";
import { FIXED, Line } from "./duct/line.ts";
import { applyTo, STATE, TWO_PORT } from "./duct/twoPort.ts";
import type { Gap } from "./gap/gap.ts";

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
  /** Frequencies where the gap's own, very smooth two-port is computed, Hz, evenly spaced in log f. */
  readonly gapNodes: Float64Array;
  /** First frequency of every stretch between two nodes, and one past the last. */
  readonly stretches: Uint32Array;
  /** Where each frequency lies among the four nodes its stretch is interpolated from, 0 to 3. */
  readonly place: Float64Array;
}

/** The fixed parts of a setup as series in frequency, made once: any gap and slide is then cheap to ask for. */
export class AirColumn {
  readonly line: Line;
  /** Range of the interpolated fixed parts, Hz. */
  readonly lowest: number;
  readonly highest: number;
  readonly fixedParts: FixedParts;
  #search: { readonly draw: number; readonly grid: Grid } | null = null;
  readonly #scratch = new Float64Array(FIXED);
  readonly #port = new Float64Array(TWO_PORT);

  /**
   * @param lowest Hz; the lower end of the range of every later question
   * @param highest Hz; its upper end
   * @param fixedParts those of a column that differs in its receiver alone: they are the same, and cost the most
   */
  constructor(
    readonly setup: Setup,
    lowest: number,
    highest: number,
    line = new Line(setup, null, null, highest),
    fixedParts?: FixedParts,
  ) {
    this.line = line;
    this.lowest = lowest;
    this.highest = highest;
    this.fixedParts = fixedParts ?? new FixedParts(line, lowest, highest);
  }

  /** Mouthpiece two-port into #scratch and load, with the slide drawn by `draw` m, into `load`, at complex frequency f, Hz. */
  #ends(draw: number, fRe: number, fIm: number, load: Float64Array): void {
    const fixed = this.#scratch;
    this.fixedParts.evaluate(fRe, fIm, fixed, draw !== 0);
    this.line.load(fixed, draw, TAU * fRe, TAU * fIm, load);
  }

  /**
   * [p, U] at the rim up to a common factor, at complex frequency f, Hz; `draw` m of slide drawn.
   * @param out four doubles
   */
  rimState(gap: Gap, draw: number, fRe: number, fIm: number, out: Float64Array): void {
    this.#ends(draw, fRe, fIm, out);
    gap.twoPort(TAU * fRe, TAU * fIm, this.#port);
    applyTo(out, this.#port);
    applyTo(out, this.#scratch);
  }

  /**
   * What a curve at these frequencies needs of the fixed parts, for any gap.
   * @param frequencies Hz, rising, within the column's range
   */
  grid(frequencies: Float64Array, draw = 0): Grid {
    const count = frequencies.length;
    const products = new Float64Array(PRODUCTS * count);
    const fixed = this.#scratch;
    const state = new Float64Array(STATE);
    for (let i = 0; i < count; i++) {
      const f = frequencies[i];
      this.#ends(draw, f, 0, state);
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

  /**
   * Z at a grid's frequencies for one gap.
   * @param flow two doubles a frequency: the U at the rim that belongs to it too, where that is asked for
   */
  curve(grid: Grid, gap: Gap, flow: Float64Array | null = null): Curve {
    const { frequencies, products: q, gapNodes, stretches, place } = grid;
    const count = frequencies.length;
    const re = new Float64Array(count);
    const im = new Float64Array(count);
    const g = new Float64Array(TWO_PORT * gapNodes.length);
    gapNodes.forEach((f, k) => {
      gap.twoPort(TAU * f, 0, g, TWO_PORT * k);
    });
    const cubics = new Float64Array(4 * TWO_PORT);
    for (let stretch = 0; stretch < stretches.length - 1; stretch++) {
      const end = stretches[stretch + 1];
      cubicsThrough(g, firstNode(stretch, gapNodes.length), cubics);
      const [a0, a1, a2, a3, A0, A1, A2, A3, b0, b1, b2, b3, B0, B1, B2, B3] = cubics;
      const [c0, c1, c2, c3, C0, C1, C2, C3, d0, d1, d2, d3, D0, D1, D2, D3] = cubics.subarray(16);
      // one straight run of arithmetic, without calls or inner loops: this is all a new gap costs
      for (let i = stretches[stretch]; i < end; i++) {
        const t = place[i];
        const aRe = a0 + t * (a1 + t * (a2 + t * a3));
        const aIm = A0 + t * (A1 + t * (A2 + t * A3));
        const bRe = b0 + t * (b1 + t * (b2 + t * b3));
        const bIm = B0 + t * (B1 + t * (B2 + t * B3));
        const cRe = c0 + t * (c1 + t * (c2 + t * c3));
        const cIm = C0 + t * (C1 + t * (C2 + t * C3));
        const dRe = d0 + t * (d1 + t * (d2 + t * d3));
        const dIm = D0 + t * (D1 + t * (D2 + t * D3));
        const k = PRODUCTS * i;
        // biome-ignore format: a complex sum of products a line
        const pRe = q[k] * aRe - q[k + 1] * aIm + q[k + 2] * bRe - q[k + 3] * bIm + q[k + 4] * cRe - q[k + 5] * cIm + q[k + 6] * dRe - q[k + 7] * dIm;
        // biome-ignore format: a complex sum of products a line
        const pIm = q[k] * aIm + q[k + 1] * aRe + q[k + 2] * bIm + q[k + 3] * bRe + q[k + 4] * cIm + q[k + 5] * cRe + q[k + 6] * dIm + q[k + 7] * dRe;
        // biome-ignore format: a complex sum of products a line
        const uRe = q[k + 8] * aRe - q[k + 9] * aIm + q[k + 10] * bRe - q[k + 11] * bIm + q[k + 12] * cRe - q[k + 13] * cIm + q[k + 14] * dRe - q[k + 15] * dIm;
        // biome-ignore format: a complex sum of products a line
        const uIm = q[k + 8] * aIm + q[k + 9] * aRe + q[k + 10] * bIm + q[k + 11] * bRe + q[k + 12] * cIm + q[k + 13] * cRe + q[k + 14] * dIm + q[k + 15] * dRe;
        if (flow) {
          flow[2 * i] = uRe;
          flow[2 * i + 1] = uIm;
        }
        const size = 1 / (uRe * uRe + uIm * uIm);
        re[i] = (pRe * uRe + pIm * uIm) * size;
        im[i] = (pIm * uRe - pRe * uIm) * size;
      }
    }
    return { re, im };
  }
}

/** Doubles of the eight complex products. */
const PRODUCTS = 16;

/** Enough nodes, evenly spaced in log f, for a relative error of the gap's two-port below 3e-6 by cubic interpolation. */
const NODES = 28;

/** The first of the four nodes around a stretch: itself in the middle, fewer before it at the ends. */
const firstNode = (stretch: number, nodes: number): number => Math.min(nodes - 4, Math.max(0, stretch - 1));

function gapNodesFor(frequencies: Float64Array): Pick<Grid, "gapNodes" | "stretches" | "place"> {
  const count = frequencies.length;
  const low = Math.log(frequencies[0]);
  const stride = (Math.log(frequencies[count - 1]) - low || 1) / (NODES - 1);
  const gapNodes = Float64Array.from({ length: NODES }, (_, k) => Math.exp(low + k * stride));
  const stretches = new Uint32Array(NODES).fill(count);
  const place = new Float64Array(count);
  for (let i = count - 1; i >= 0; i--) {
    const x = (Math.log(frequencies[i]) - low) / stride;
    const stretch = Math.min(NODES - 2, Math.floor(x));
    place[i] = x - firstNode(stretch, NODES);
    stretches.fill(i, 0, stretch + 1);
  }
  return { gapNodes, stretches, place };
}

/** Coefficients, lowest first, of the cubics through four neighbouring two-ports at 0, 1, 2, 3: four a double. */
function cubicsThrough(ports: Float64Array, first: number, out: Float64Array): void {
  for (let e = 0; e < TWO_PORT; e++) {
    const at = TWO_PORT * first + e;
    const y0 = ports[at];
    const y1 = ports[at + TWO_PORT];
    const y2 = ports[at + 2 * TWO_PORT];
    const y3 = ports[at + 3 * TWO_PORT];
    out[4 * e] = y0;
    out[4 * e + 1] = (-11 * y0 + 18 * y1 - 9 * y2 + 2 * y3) / 6;
    out[4 * e + 2] = (2 * y0 - 5 * y1 + 4 * y2 - y3) / 2;
    out[4 * e + 3] = (-y0 + 3 * y1 - 3 * y2 + y3) / 6;
  }
}
