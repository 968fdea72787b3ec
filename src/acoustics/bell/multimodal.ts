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
 * which neither grows with evanescent fields nor loses or makes energy.
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

/** The impedance matrix of several radial modes, carried along a flare from its mouth inwards. */
export class ModalField {
  /** Z, Pa·s/m³: complex, row by row. */
  readonly impedance: Float64Array;
  readonly #n: number;
  readonly #station = new Station();
  readonly #first: Float64Array;
  readonly #second: Float64Array;
  readonly #omega: Float64Array;
  readonly #square: Float64Array;
  readonly #divisor: Float64Array;
  readonly #state: Float64Array;
  readonly #next: Float64Array;
  readonly #flows: Float64Array;
  readonly #pressures: Float64Array;

  /** At the mouth, with the radiation's impedance matrix. */
  constructor(
    readonly basis: RadialBasis,
    radiation: Float64Array,
  ) {
    const n = basis.count;
    this.#n = n;
    this.impedance = radiation.slice();
    const square = () => new Float64Array(8 * n * n);
    this.#first = square();
    this.#second = square();
    this.#omega = square();
    this.#square = square();
    this.#divisor = square();
    this.#state = new Float64Array(4 * n * n);
    this.#next = new Float64Array(4 * n * n);
    this.#flows = new Float64Array(2 * n * n);
    this.#pressures = new Float64Array(2 * n * n);
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

  #step(from: number, to: number, h: number, medium: Medium): void {
    const n = this.#n;
    const size = 2 * n;
    const slope = (from - to) / h;
    // U in units that make pressure and flow alike large
    const unit = Math.hypot(medium.massRe, medium.massIm) / from;
    this.#system(from + (to - from) * FIRST, slope, unit, medium, this.#first);
    this.#system(to + (from - to) * FIRST, slope, unit, medium, this.#second);
    const omega = this.#omega;
    multiply(this.#second, this.#first, size, size, size, omega);
    multiply(this.#first, this.#second, size, size, size, this.#square);
    for (let i = 0; i < omega.length; i++)
      omega[i] =
        COMMUTATOR * h * h * (omega[i] - this.#square[i]) - 0.5 * h * (this.#first[i] + this.#second[i]);
    multiply(omega, omega, size, size, size, this.#square);
    const divisor = this.#divisor;
    const above = this.#first;
    for (let i = 0; i < omega.length; i++) {
      divisor[i] = this.#square[i] / 12 - omega[i] / 2;
      above[i] = this.#square[i] / 12 + omega[i] / 2;
    }
    for (let i = 0; i < size; i++) {
      divisor[2 * i * (size + 1)] += 1;
      above[2 * i * (size + 1)] += 1;
    }
    const state = this.#state;
    for (let i = 0; i < 2 * n * n; i++) state[i] = this.impedance[i] / unit;
    state.fill(0, 2 * n * n);
    for (let i = 0; i < n; i++) state[2 * ((n + i) * n + i)] = 1;
    multiply(above, state, size, size, n, this.#next);
    solve(divisor, this.#next, size, n);
    this.#divide(unit);
  }

  /** Z from pressures and flows, `#next`, behind a step: pressures times the flows' inverse, Zᵀ from the transposed. */
  #divide(unit: number): void {
    const n = this.#n;
    const flows = this.#flows;
    const pressures = this.#pressures;
    for (let i = 0; i < n; i++)
      for (let k = 0; k < n; k++)
        for (let part = 0; part < 2; part++) {
          flows[2 * (k * n + i) + part] = this.#next[2 * ((n + i) * n + k) + part];
          pressures[2 * (k * n + i) + part] = this.#next[2 * (i * n + k) + part];
        }
    solve(flows, pressures, n, n);
    for (let i = 0; i < n; i++)
      for (let k = 0; k < n; k++)
        for (let part = 0; part < 2; part++)
          this.impedance[2 * (i * n + k) + part] = unit * pressures[2 * (k * n + i) + part];
  }

  /** The system's matrix at radius a, flows in `unit`s. */
  #system(a: number, slope: number, unit: number, medium: Medium, out: Float64Array): void {
    const n = this.#n;
    const size = 2 * n;
    const { B, K, rest } = this.basis;
    const { massRe, massIm, springRe, springIm } = medium;
    const station = this.#station;
    station.set(a, medium);
    const area = a * a;
    const m2 = 1 / (massRe * massRe + massIm * massIm);
    out.fill(0);
    for (let i = 0; i < n; i++)
      for (let k = 0; k < n; k++) {
        out[2 * (i * size + k)] = (slope / a) * B[i * n + k];
        out[2 * ((n + i) * size + n + k)] = (-slope / a) * B[k * n + i];
        const stiffness = unit * m2 * (K[i * n + k] + slope * slope * rest[i * n + k]);
        out[2 * ((n + i) * size + k)] = -stiffness * massRe;
        out[2 * ((n + i) * size + k) + 1] = stiffness * massIm;
      }
    for (let i = 0; i < n; i++) {
      const plane = i === 0;
      out[2 * (i * size + n + i)] = -(plane ? station.zetaRe : massRe) / (area * unit);
      out[2 * (i * size + n + i) + 1] = -(plane ? station.zetaIm : massIm) / (area * unit);
      out[2 * ((n + i) * size + i)] -= unit * area * (plane ? station.kappaRe : springRe);
      out[2 * ((n + i) * size + i) + 1] -= unit * area * (plane ? station.kappaIm : springIm);
    }
  }
}
