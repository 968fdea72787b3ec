/**
 * Sound in a flaring duct with several radial functions (Pagneux, Amir & Kergomard 1996, J. Acoust. Soc. Am. 100, 2034; here
 * by Galerkin's method on the functions of `radialBasis.ts`). With p = Σ P_n(x) φ_n(r/a) and U_n = ∫ φ_n u_x dS,
 *
 *   P' = (a'/a) B P − (m/a²) U,   U' = −(a'/a) Bᵀ U − (κa² + (K + a'²(C − BᵀB))/m) P,   m = jωρ/π,  κ = jωπ/(ρc²)
 *
 * the wall's velocity being the variation's natural condition. The plane wave, n = 0, has the lossy ζ and κ of `cone.ts` in
 * place of m and κ: with one function this is the lossy horn equation. Losses of the others are left out. Carried from the
 * mouth inwards is the impedance matrix, P = Z U: over a step by fourth-order Magnus (Blanes, Casas, Oteo & Ros 2009) and the
 * [2/2] Padé approximant of the exponential, E,
 *
 *   Z ← (E₁₁Z + E₁₂)(E₂₁Z + E₂₂)⁻¹
 *
 * which neither grows with evanescent fields nor loses or makes energy. The system has the blocks αB, D, G and −αBᵀ with D
 * diagonal and G symmetric; so the step's matrix is Ω = [P Q; S −Pᵀ], Q and S symmetric, whose commutator needs no product of
 * matrices and whose square needs four of a quarter's size.
 */
import type { Piece } from "../duct/bore.ts";
import { type Medium, Station } from "../duct/cone.ts";
import { multiply, solve } from "../numerics/complexMatrix.ts";
import type { RadialBasis } from "./radialBasis.ts";

/** Longest step, in radii, and the largest change of ln a in one: halving both changes the reflection by 1e-5 at most. */
const LONGEST_STEP = 0.3;
const STEEPEST_STEP = 0.2;
/** In how many steps a cone is passed. */
export function stepsOf({ length, radiusIn, radiusOut }: Piece): number {
  const smaller = Math.min(radiusIn, radiusOut);
  return Math.max(
    1,
    Math.ceil(length / (LONGEST_STEP * smaller)),
    Math.ceil(Math.abs(Math.log(radiusOut / radiusIn)) / STEEPEST_STEP),
  );
}

/** Gauss points of a step. */
const FIRST = 0.5 - Math.sqrt(3) / 6;
const COMMUTATOR = Math.sqrt(3) / 12;

/** A complex diagonal that has one value for the plane wave and one for all others: re, im, re, im. */
type Diagonal = Float64Array;

/** The system at one of a step's two points. */
class Point {
  /** a'/a */
  alpha = 0;
  readonly D: Diagonal = new Float64Array(4);
  /** What G has on its diagonal beside the stiffness across the duct. */
  readonly spring: Diagonal = new Float64Array(4);
  readonly #station = new Station();

  /** @param unit of U */
  set(a: number, slope: number, unit: number, medium: Medium): void {
    const station = this.#station;
    station.set(a, medium);
    const area = a * a;
    const mass = -1 / (area * unit);
    const spring = -unit * area;
    this.alpha = slope / a;
    this.D[0] = mass * station.zetaRe;
    this.D[1] = mass * station.zetaIm;
    this.D[2] = mass * medium.massRe;
    this.D[3] = mass * medium.massIm;
    this.spring[0] = spring * station.kappaRe;
    this.spring[1] = spring * station.kappaIm;
    this.spring[2] = spring * medium.springRe;
    this.spring[3] = spring * medium.springIm;
  }
}

/** The impedance matrix of several radial modes, carried along a flare from its mouth inwards. */
export class ModalField {
  /** Z, Pa·s/m³: complex, row by row. */
  readonly impedance: Float64Array;
  readonly #n: number;
  readonly #first = new Point();
  readonly #second = new Point();
  readonly #P: Float64Array;
  readonly #Q: Float64Array;
  readonly #S: Float64Array;
  readonly #PP: Float64Array;
  readonly #QS: Float64Array;
  readonly #PQ: Float64Array;
  readonly #SP: Float64Array;
  readonly #divisor: Float64Array;
  /** Z in the step's units, and what is added to it and to 1. */
  readonly #state: Float64Array;
  readonly #added: Float64Array;
  readonly #flows: Float64Array;
  /** N₂ of the last step, transposed: U before it is N₂ times U behind it. */
  readonly #flowsBefore: Float64Array;
  readonly #pressures: Float64Array;

  /** At the mouth, with the radiation's impedance matrix. */
  constructor(
    readonly basis: RadialBasis,
    radiation: Float64Array,
  ) {
    const n = basis.count;
    this.#n = n;
    this.impedance = radiation.slice();
    const square = () => new Float64Array(2 * n * n);
    this.#P = square();
    this.#Q = square();
    this.#S = square();
    this.#PP = square();
    this.#QS = square();
    this.#PQ = square();
    this.#SP = square();
    this.#divisor = new Float64Array(8 * n * n);
    this.#state = square();
    this.#added = new Float64Array(4 * n * n);
    this.#flows = square();
    this.#flowsBefore = square();
    this.#pressures = square();
  }

  /** From a cone's exit to its entrance, at the medium's frequency. */
  passCone(piece: Piece, medium: Medium): void {
    const { length, radiusIn, radiusOut } = piece;
    const steps = stepsOf(piece);
    const widening = radiusIn - radiusOut;
    for (let k = 0; k < steps; k++)
      this.#step(
        radiusOut + (widening * k) / steps,
        radiusOut + (widening * (k + 1)) / steps,
        length / steps,
        medium,
      );
  }

  /** What the last step takes the flows behind it by, to those before it: complex, row by row. */
  flowsBefore(): Float64Array {
    const n = this.#n;
    return this.#flowsBefore.map((_, at) => {
      const entry = at >> 1;
      return this.#flowsBefore[2 * ((entry % n) * n + Math.floor(entry / n)) + (at & 1)];
    });
  }

  #step(from: number, to: number, h: number, medium: Medium): void {
    // U in units that make pressure and flow alike large
    const unit = Math.hypot(medium.massRe, medium.massIm) / from;
    this.#setOmega(from, to, h, unit, medium);
    const n = this.#n;
    const P = this.#P;
    const Q = this.#Q;
    const S = this.#S;
    multiply(P, P, n, n, n, this.#PP);
    multiply(Q, S, n, n, n, this.#QS);
    multiply(P, Q, n, n, n, this.#PQ);
    multiply(S, P, n, n, n, this.#SP);
    // E = 1 + N⁻¹Ω, N = 1 − Ω/2 + Ω²/12
    this.#setDivisor();
    const state = this.#state;
    for (let i = 0; i < state.length; i++) state[i] = this.impedance[i] / unit;
    const added = this.#added;
    const pressures = this.#pressures;
    const flows = this.#flows;
    multiply(P, state, n, n, n, pressures);
    multiply(S, state, n, n, n, flows);
    for (let i = 0, at = 0; i < n; i++)
      for (let k = 0; k < n; k++, at += 2) {
        const across = 2 * (k * n + i);
        added[at] = pressures[at] + Q[at];
        added[at + 1] = pressures[at + 1] + Q[at + 1];
        added[2 * n * n + at] = flows[at] - P[across];
        added[2 * n * n + at + 1] = flows[at + 1] - P[across + 1];
      }
    solve(this.#divisor, added, 2 * n, n);
    this.#divide(unit);
  }

  /** P, Q and S of Ω = √3/12 h² [X₂, X₁] − h/2 (X₁ + X₂), X₁ and X₂ being the system at the Gauss points from the exit on. */
  #setOmega(from: number, to: number, h: number, unit: number, medium: Medium): void {
    const n = this.#n;
    const { B, K, rest, KB, restB } = this.basis;
    const slope = (from - to) / h;
    this.#first.set(from + (to - from) * FIRST, slope, unit, medium);
    this.#second.set(to + (from - to) * FIRST, slope, unit, medium);
    const { alpha: a1, D: D1, spring: s1 } = this.#first;
    const { alpha: a2, D: D2, spring: s2 } = this.#second;
    const { massRe, massIm } = medium;
    const stiffness = unit / (massRe * massRe + massIm * massIm);
    const gRe = -stiffness * massRe;
    const gIm = stiffness * massIm;
    const c = COMMUTATOR * h * h;
    const e = -0.5 * h;
    const slope2 = slope * slope;
    for (let i = 0, at = 0; i < n; i++) {
      const p = i === 0 ? 0 : 2;
      const dRe = c * (D2[p] - D1[p]);
      const dIm = c * (D2[p + 1] - D1[p + 1]);
      const eRe = c * (a2 * D1[p] - a1 * D2[p]);
      const eIm = c * (a2 * D1[p + 1] - a1 * D2[p + 1]);
      const hRe = c * (a1 * s2[p] - a2 * s1[p]);
      const hIm = c * (a1 * s2[p + 1] - a2 * s1[p + 1]);
      for (let k = 0; k < n; k++, at += 2) {
        const one = i * n + k;
        const other = k * n + i;
        const q = k === 0 ? 0 : 2;
        const across = K[one] + slope2 * rest[one];
        this.#P[at] = across * (dRe * gRe - dIm * gIm) + e * (a1 + a2) * B[one];
        this.#P[at + 1] = across * (dRe * gIm + dIm * gRe);
        this.#Q[at] = c * (a2 * D1[q] - a1 * D2[q]) * B[one] + eRe * B[other];
        this.#Q[at + 1] = c * (a2 * D1[q + 1] - a1 * D2[q + 1]) * B[one] + eIm * B[other];
        const stiff = c * (a1 - a2) * (KB[one] + slope2 * restB[one]) + 2 * e * across;
        this.#S[at] = stiff * gRe + hRe * B[one] + c * (a1 * s2[q] - a2 * s1[q]) * B[other];
        this.#S[at + 1] = stiff * gIm + hIm * B[one] + c * (a1 * s2[q + 1] - a2 * s1[q + 1]) * B[other];
      }
      const at0 = 2 * i * (n + 1);
      this.#P[at0] += c * (D2[p] * s1[p] - D2[p + 1] * s1[p + 1] - D1[p] * s2[p] + D1[p + 1] * s2[p + 1]);
      this.#P[at0 + 1] += c * (D2[p] * s1[p + 1] + D2[p + 1] * s1[p] - D1[p] * s2[p + 1] - D1[p + 1] * s2[p]);
      this.#Q[at0] += e * (D1[p] + D2[p]);
      this.#Q[at0 + 1] += e * (D1[p + 1] + D2[p + 1]);
      this.#S[at0] += e * (s1[p] + s2[p]);
      this.#S[at0 + 1] += e * (s1[p + 1] + s2[p + 1]);
    }
  }

  /** N, the square of Ω having P² + QS, PQ − (PQ)ᵀ, SP − (SP)ᵀ and (P² + QS)ᵀ as its blocks. */
  #setDivisor(): void {
    const n = this.#n;
    const divisor = this.#divisor;
    const P = this.#P;
    const Q = this.#Q;
    const S = this.#S;
    const PP = this.#PP;
    const QS = this.#QS;
    const PQ = this.#PQ;
    const SP = this.#SP;
    for (let i = 0, at = 0; i < n; i++)
      for (let k = 0; k < n; k++, at += 2) {
        const across = 2 * (k * n + i);
        const above = 2 * (2 * i * n + k);
        const below = 2 * (2 * (n + i) * n + k);
        const one = i === k ? 1 : 0;
        divisor[above] = one - P[at] / 2 + (PP[at] + QS[at]) / 12;
        divisor[above + 1] = -P[at + 1] / 2 + (PP[at + 1] + QS[at + 1]) / 12;
        divisor[above + 2 * n] = -Q[at] / 2 + (PQ[at] - PQ[across]) / 12;
        divisor[above + 2 * n + 1] = -Q[at + 1] / 2 + (PQ[at + 1] - PQ[across + 1]) / 12;
        divisor[below] = -S[at] / 2 + (SP[at] - SP[across]) / 12;
        divisor[below + 1] = -S[at + 1] / 2 + (SP[at + 1] - SP[across + 1]) / 12;
        divisor[below + 2 * n] = one + P[across] / 2 + (PP[across] + QS[across]) / 12;
        divisor[below + 2 * n + 1] = P[across + 1] / 2 + (PP[across + 1] + QS[across + 1]) / 12;
      }
  }

  /** Z from pressures and flows behind a step, Z and 1 with what is added: pressures times the flows' inverse, Zᵀ from the transposed. */
  #divide(unit: number): void {
    const n = this.#n;
    const flows = this.#flows;
    const pressures = this.#pressures;
    const state = this.#state;
    const added = this.#added;
    for (let i = 0, at = 0; i < n; i++)
      for (let k = 0; k < n; k++, at += 2) {
        const across = 2 * (k * n + i);
        flows[across] = added[2 * n * n + at] + (i === k ? 1 : 0);
        flows[across + 1] = added[2 * n * n + at + 1];
        pressures[across] = state[at] + added[at];
        pressures[across + 1] = state[at + 1] + added[at + 1];
      }
    this.#flowsBefore.set(flows);
    solve(flows, pressures, n, n);
    for (let i = 0, at = 0; i < n; i++)
      for (let k = 0; k < n; k++, at += 2) {
        const across = 2 * (k * n + i);
        this.impedance[at] = unit * pressures[across];
        this.impedance[at + 1] = unit * pressures[across + 1];
      }
  }
}
