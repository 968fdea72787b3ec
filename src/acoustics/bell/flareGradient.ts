/**
 * How the plane wave's impedance at the start of a flare answers to a change of radius anywhere in it, with several radial
 * functions. A step takes the impedance matrix Z behind it to Z' before it, flows U' before it to U behind it; its matrix is
 * symplectic, so that to first order, without any derivative of the step itself,
 *
 *   δ(uᵀ Z' u) = wᵀ δZ w,   w the flows behind the step where those before it are u.
 *
 * At the start u is what the plane wave's unit flow brings with it of the other functions, which go on into a straight duct
 * (`planeImpedance`). A bump at the boundary of two steps changes these two only: both are passed once more with that radius a
 * hundred-thousandth wider, from the matrix kept behind them.
 */
import type { Piece } from "../duct/bore.ts";
import { cutPiece } from "../duct/chain.ts";
import { Medium } from "../duct/cone.ts";
import { solve } from "../numerics/complexMatrix.ts";
import { functionsUpTo, type Mouth, planeImpedance } from "./bellFlare.ts";
import { ModalField, stepsOf } from "./multimodal.ts";
import { radiationMatrix } from "./multimodalRadiation.ts";
import { radialBasis } from "./radialBasis.ts";

/** By which part of itself a radius is changed. */
const WIDER = 1e-5;
/** Part of itself by which a frequency is changed to see how the field outside goes on. */
const NEARBY = 0.01;

/** The answer of one flare's impedance to its radii. */
export class FlareGradient {
  readonly #steps: readonly Piece[];
  /** From the start of the flare, m: where steps meet, the start and the mouth with them. */
  readonly places: Float64Array;

  constructor(
    pieces: readonly Piece[],
    readonly mouth: Mouth,
  ) {
    this.#steps = pieces.flatMap(inSteps);
    this.places = new Float64Array(this.#steps.length + 1);
    this.#steps.forEach(({ length }, i) => {
      this.places[i + 1] = this.places[i] + length;
    });
  }

  /**
   * dZ/da of the plane wave's impedance at the start, Pa·s/m³ a metre of radius: a change of the radius at a place that goes
   * to nothing at both its neighbours. The field outside the mouth, known at real frequencies, is continued to second order.
   *
   * @param fRe, fIm complex frequency, Hz
   * @returns complex, re and im of every place in turn
   * @throws OutOfRange above ka = 12
   */
  gradient(fRe: number, fIm: number): Float64Array {
    const steps = this.#steps;
    const last = steps[steps.length - 1];
    const { radiation, wallLossFactor } = this.mouth;
    const count = functionsUpTo(fRe, last);
    const basis = radialBasis(count);
    const omega = 2 * Math.PI * fRe;
    const mediums = new Map(steps.map(({ air }) => [air, new Medium(air, wallLossFactor)]));
    for (const medium of mediums.values()) medium.setFrequency(omega, 2 * Math.PI * fIm);
    const outside = (radius: number) => {
      const at = (factor: number) =>
        radiationMatrix(radiation, count, (factor * omega * radius) / last.air.soundSpeed, radius, last.air);
      return fIm === 0 ? at(1) : continued(at(1 - NEARBY), at(1), at(1 + NEARBY), fIm / fRe);
    };

    // Z before and behind every step, and what takes flows behind it to those before
    const field = new ModalField(basis, outside(last.radiusOut));
    const impedances = new Array<Float64Array>(steps.length + 1);
    const flowsBefore = new Array<Float64Array>(steps.length);
    impedances[steps.length] = field.impedance.slice();
    for (let i = steps.length - 1; i >= 0; i--) {
      field.passCone(steps[i], mediums.get(steps[i].air)!);
      impedances[i] = field.impedance.slice();
      flowsBefore[i] = field.flowsBefore();
    }
    const flows = planeImpedance(field, steps[0], omega).flows;

    const out = new Float64Array(2 * this.places.length);
    for (let i = 0; i <= steps.length; i++) {
      const before = steps[i - 1];
      const behind = steps[i];
      const radius = behind ? behind.radiusIn : before.radiusOut;
      const wider = radius * (1 + WIDER);
      field.impedance.set(behind ? impedances[i + 1] : outside(wider));
      if (behind) field.passCone({ ...behind, radiusIn: wider }, mediums.get(behind.air)!);
      if (before) field.passCone({ ...before, radiusOut: wider }, mediums.get(before.air)!);
      // u belongs to where the step before the place begins
      addForm(flows, field.impedance, impedances[before ? i - 1 : 0], 1 / (radius * WIDER), out, 2 * i);
      if (before) solve(flowsBefore[i - 1], flows, count, 1);
    }
    return out;
  }
}

/** f(1 + jy) = f + jy f' − y² f''/2 of what is known at 1 and a little beside it. */
function continued(less: Float64Array, here: Float64Array, more: Float64Array, y: number): Float64Array {
  const bend = (at: number) =>
    here[at] - (y * y * (more[at] - 2 * here[at] + less[at])) / (2 * NEARBY * NEARBY);
  const slope = (at: number) => (y * (more[at] - less[at])) / (2 * NEARBY);
  return here.map((_, at) => (at & 1 ? bend(at) + slope(at - 1) : bend(at) - slope(at + 1)));
}

/** out ← by · uᵀ (Z₁ − Z₀) u */
function addForm(
  u: Float64Array,
  after: Float64Array,
  before: Float64Array,
  by: number,
  out: Float64Array,
  at: number,
): void {
  const n = u.length / 2;
  for (let i = 0; i < n; i++)
    for (let k = 0; k < n; k++) {
      const entry = 2 * (i * n + k);
      const re = after[entry] - before[entry];
      const im = after[entry + 1] - before[entry + 1];
      const uRe = u[2 * i] * u[2 * k] - u[2 * i + 1] * u[2 * k + 1];
      const uIm = u[2 * i] * u[2 * k + 1] + u[2 * i + 1] * u[2 * k];
      out[at] += by * (uRe * re - uIm * im);
      out[at + 1] += by * (uRe * im + uIm * re);
    }
}

/** Pieces that are passed in one step each. */
function inSteps(piece: Piece): readonly Piece[] {
  for (let count = stepsOf(piece); ; count++) {
    const steps = cutPiece(piece, count);
    if (steps.every((step) => stepsOf(step) === 1)) return steps;
  }
}
