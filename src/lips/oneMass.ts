/**
 * The one-mass lips of `lips.ts` as a lip model. About the rest of `equilibrium.ts`, with L(s) = s² + (ω_l/Q_l) s + ω_l²,
 *
 *   δy = −δp/(μ L),   δu = W v δy − G δp,   G = W y_e/(ρ v)   ⇒   N = G L + W v/μ,   D = L
 *
 * In time the poles and the static opening are exact, the drop Δ taken at the middle sample:
 *
 *   d(k+1) = 2r cosθ d(k) − r² d(k−1) + (1 − 2r cosθ + r²) Δ(k)/(μω_l²),   y = y₀ + d,
 *   r = e^{−ω_l h/2Q_l},   θ = ω_l h sqrt(1 − 1/4Q_l²)
 */
import { equilibriumAt, equilibriumOf } from "./equilibrium.ts";
import type {
  Band,
  Equilibrium,
  LipModel,
  Motion,
  NeutralColumn,
  OwnMode,
  Response,
  Threshold,
} from "./lipModel.ts";
import { massPerAreaAt, type OneMassLips } from "./lips.ts";
import { OneMassNeutral } from "./oneMassNeutral.ts";

export type OneMassValve = OneMassLips & { readonly density: number };

export class OneMass implements LipModel {
  readonly density: number;
  readonly followed = null;
  readonly #neutral: OneMassNeutral;

  constructor(readonly valve: OneMassValve) {
    this.density = valve.density;
    this.#neutral = new OneMassNeutral(valve);
  }

  ownModes(lipHz: number): readonly OwnMode[] {
    return [{ omega: 2 * Math.PI * lipHz, quality: this.valve.quality }];
  }

  restUnder(resistance: number, lipHz: number, mouthPressure: number): Equilibrium {
    return equilibriumOf(this.valve, resistance, lipHz, mouthPressure);
  }

  restWith(resistance: number, lipHz: number, jetSpeed: number): Equilibrium {
    return equilibriumAt(this.valve, resistance, lipHz, jetSpeed);
  }

  response(lipHz: number, rest: Equilibrium): Response {
    const { valve } = this;
    const omega = 2 * Math.PI * lipHz;
    const damping = omega / valve.quality;
    const stiffness = omega * omega;
    const conductance = (valve.width * rest.opening) / (valve.density * rest.jetSpeed);
    const gain = (valve.width * rest.jetSpeed) / massPerAreaAt(valve, lipHz);
    return {
      numerator: Float64Array.of(conductance * stiffness + gain, conductance * damping, conductance),
      denominator: Float64Array.of(stiffness, damping, 1),
    };
  }

  neutral(column: NeutralColumn, band: Band, lipHz: number): Threshold | null {
    return this.#neutral.lowest(column, band, lipHz);
  }

  motion(sampleRate: number): Motion {
    return new OneMassMotion(this, 1 / sampleRate);
  }
}

/** Places in the state. */
const [DISPLACEMENT, PREVIOUS, DROP] = [0, 1, 2];

class OneMassMotion implements Motion {
  readonly coefficientCount = 3;
  /** d(k) and d(k−1), m, and Δ(k), Pa. */
  readonly state = new Float64Array(3);
  readonly swept = 0;
  readonly sweptByDrop = 0;
  readonly sweptByCup = 0;
  opening: number;
  loss = 0;
  readonly #width: number;
  readonly #restOpening: number;

  constructor(
    readonly model: OneMass,
    readonly step: number,
  ) {
    this.#width = model.valve.width;
    this.#restOpening = model.valve.restOpening;
    this.opening = this.#restOpening;
    this.#open();
  }

  /** 2r cosθ, r² and (1 − 2r cosθ + r²)/(μω_l²). */
  coefficientsAt(lipHz: number, out: Float64Array): void {
    const { valve } = this.model;
    const omega = 2 * Math.PI * lipHz;
    recursion(omega, valve.quality, this.step, out, 0);
    out[2] /= massPerAreaAt(valve, lipHz);
  }

  advance(coefficients: Float64Array): void {
    const { state } = this;
    const displacement =
      coefficients[0] * state[DISPLACEMENT] -
      coefficients[1] * state[PREVIOUS] +
      coefficients[2] * state[DROP];
    state[PREVIOUS] = state[DISPLACEMENT];
    state[DISPLACEMENT] = displacement;
    this.opening = this.#restOpening + displacement;
    this.#open();
  }

  press(drop: number): void {
    this.state[DROP] = drop;
  }

  copy({ state }: this): void {
    this.state.set(state);
    this.#open();
  }

  rest(resistance: number, lipHz: number, mouthPressure: number, kick: number): Equilibrium | null {
    const rest = mouthPressure > 0 ? this.model.restUnder(resistance, lipHz, mouthPressure) : null;
    const opening = (1 + kick) * (rest?.opening ?? this.#restOpening);
    this.state[DISPLACEMENT] = this.state[PREVIOUS] = opening - this.#restOpening;
    this.state[DROP] = mouthPressure - (rest?.cupPressure ?? 0);
    this.opening = opening;
    this.#open();
    return rest;
  }

  #open(): void {
    const slit = this.#width * this.opening;
    this.loss = this.opening > 0 ? 1 / (slit * slit) : Infinity;
  }
}

/**
 * Of s² + (ω/Q) s + ω², exactly: 2r cosθ, r² and (1 − 2r cosθ + r²)/ω², three doubles from `at` on; the last is what an
 * acceleration at the middle sample moves.
 */
export function recursion(omega: number, quality: number, step: number, out: Float64Array, at: number): void {
  const r = Math.exp((-omega * step) / (2 * quality));
  const twoRCos = 2 * r * Math.cos(omega * step * Math.sqrt(1 - 1 / (4 * quality * quality)));
  out[at] = twoRCos;
  out[at + 1] = r * r;
  out[at + 2] = (1 - twoRCos + r * r) / (omega * omega);
}
