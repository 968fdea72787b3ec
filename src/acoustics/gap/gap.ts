/**
 * The gap: the ring-shaped space between shank end and leadpipe, three coaxial ducts (shank exit, cavity, leadpipe).
 *
 * The plane wave crosses the cavity as through any lossy cone, two-port (a, b; c, d); the evanescent fields of both steps
 * and their interaction add M of `junction.ts` at its ends:
 *
 *   p₁ = p_c(0) + jωρ(M₁₁U₁ + M₁₂U₃),   p_c(g) = p₃ + jωρ(M₁₂U₁ + M₂₂U₃)
 *
 * M₁₂ < 0: the jet has less to contract when the steps are close. A gap of zero is one step, shank exit to leadpipe.
 */

import type { SeriesImpedance } from "../duct/breath.ts";
import { coneTwoPort, Medium, Station } from "../duct/cone.ts";
import { setIdentity, TWO_PORT } from "../duct/twoPort.ts";
import type { Air } from "../medium/air.ts";
import { cavitySteps, type StepInertance, stepInertance } from "./junction.ts";

/** Radii and gap in m. `cavityAtShank` ≥ `cavityAtLeadpipe` in a receiver that narrows inwards. */
export interface Cavity {
  readonly shankExit: number;
  readonly cavityAtShank: number;
  readonly cavityAtLeadpipe: number;
  readonly leadpipe: number;
  readonly gap: number;
}

const isSameCavity = (a: Cavity, b: Cavity): boolean =>
  a.gap === b.gap &&
  a.shankExit === b.shankExit &&
  a.cavityAtShank === b.cavityAtShank &&
  a.cavityAtLeadpipe === b.cavityAtLeadpipe &&
  a.leadpipe === b.leadpipe;

/** Below this, m, shank and leadpipe touch. */
const CONTACT = 1e-9;

/** M/ρ of the two steps, 1/m; of a closed gap the one step's, all at the shank's end. */
export function cavityInertance(cavity: Cavity): StepInertance {
  const { shankExit, cavityAtShank, cavityAtLeadpipe, leadpipe, gap } = cavity;
  if (gap < CONTACT) return [stepInertance(shankExit, leadpipe), 0, 0];
  return cavitySteps(shankExit, cavityAtShank, cavityAtLeadpipe, leadpipe, gap);
}

/** Inertance/ρ of the whole region, 1/m: both steps and the cavity's plane part ∫dx/S. */
export function regionInertance(cavity: Cavity): number {
  const [m11, m12, m22] = cavityInertance(cavity);
  return cavity.gap / (Math.PI * cavity.cavityAtShank * cavity.cavityAtLeadpipe) + m11 + 2 * m12 + m22;
}

/** Compliance V/(ρc²) of the cavity, m³/Pa; V that of the cone between shank end and leadpipe. */
export function cavityCompliance({ cavityAtShank: a, cavityAtLeadpipe: b, gap }: Cavity, air: Air): number {
  const volume = (Math.PI / 3) * gap * (a * a + a * b + b * b);
  return volume / (air.density * air.soundSpeed ** 2);
}

/** The gap's two-port at any complex frequency, its geometry's part computed once. */
export class Gap {
  readonly inertance: StepInertance;
  readonly #medium: Medium;
  readonly #near = new Station();
  readonly #middle = new Station();
  readonly #far = new Station();
  readonly #plane = new Float64Array(TWO_PORT);

  constructor(
    readonly cavity: Cavity,
    readonly air: Air,
    wallLossFactor: number,
    readonly junction: "modal" | "plane",
    /** Of a stream across it; none in still air. */
    readonly stream: SeriesImpedance | null = null,
    /** One that may have the same steps: they are most of what a gap costs. */
    like: Gap | null = null,
  ) {
    if (like?.junction === junction && isSameCavity(like.cavity, cavity)) this.inertance = like.inertance;
    else this.inertance = junction === "modal" ? cavityInertance(cavity) : [0, 0, 0];
    this.#medium = new Medium(air, wallLossFactor);
  }

  /**
   * The two-port at a complex angular frequency, rad/s.
   * @param out eight doubles at `at`, plane waves in the shank exit to plane waves in the leadpipe's mouth
   */
  twoPort(omegaRe: number, omegaIm: number, out: Float64Array, at = 0): void {
    const { gap, cavityAtShank, cavityAtLeadpipe } = this.cavity;
    const plane = this.#plane;
    if (gap < CONTACT) setIdentity(plane);
    else {
      this.#medium.setFrequency(omegaRe, omegaIm);
      this.#near.set(cavityAtShank, this.#medium);
      if (cavityAtShank !== cavityAtLeadpipe) {
        this.#middle.set((cavityAtShank + cavityAtLeadpipe) / 2, this.#medium);
        this.#far.set(cavityAtLeadpipe, this.#medium);
        coneTwoPort(this.#near, this.#middle, this.#far, gap, plane);
      } else coneTwoPort(this.#near, this.#near, this.#near, gap, plane);
    }
    withSteps(plane, this.inertance, -omegaIm * this.air.density, omegaRe * this.air.density, out, at);
    // off the real axis as above it: a resonance's decay changes it by less than it is known
    if (this.stream) inSeries(this.stream(Math.abs(omegaRe)), out, at);
  }
}

/** (a, b; c, d) ← (1, Z; 0, 1)(a, b; c, d) */
function inSeries([re, im]: readonly [number, number], port: Float64Array, at: number): void {
  for (let k = at; k < at + 4; k += 2) {
    port[k] += re * port[k + 4] - im * port[k + 5];
    port[k + 1] += re * port[k + 5] + im * port[k + 4];
  }
}

/** (a, b; c, d) between its two steps; μ = jωρ. */
function withSteps(
  [aRe, aIm, bRe, bIm, cRe, cIm, dRe, dIm]: Float64Array,
  [m11, m12, m22]: StepInertance,
  muRe: number,
  muIm: number,
  out: Float64Array,
  at: number,
): void {
  const cmRe = cRe * muRe - cIm * muIm;
  const cmIm = cRe * muIm + cIm * muRe;
  // 1/(1 − cμM₁₂)
  const nRe = 1 - m12 * cmRe;
  const nIm = -m12 * cmIm;
  const n2 = 1 / (nRe * nRe + nIm * nIm);
  const fRe = nRe * n2;
  const fIm = -nIm * n2;
  const CRe = cRe * fRe - cIm * fIm;
  const CIm = cRe * fIm + cIm * fRe;
  const eRe = dRe + m22 * cmRe;
  const eIm = dIm + m22 * cmIm;
  const DRe = eRe * fRe - eIm * fIm;
  const DIm = eRe * fIm + eIm * fRe;
  // p_c(g) = x p₃ + y U₃
  const xRe = 1 + m12 * (muRe * CRe - muIm * CIm);
  const xIm = m12 * (muRe * CIm + muIm * CRe);
  const yRe = m12 * (muRe * DRe - muIm * DIm) + m22 * muRe;
  const yIm = m12 * (muRe * DIm + muIm * DRe) + m22 * muIm;
  out[at] = aRe * xRe - aIm * xIm + m11 * (muRe * CRe - muIm * CIm);
  out[at + 1] = aRe * xIm + aIm * xRe + m11 * (muRe * CIm + muIm * CRe);
  out[at + 2] = aRe * yRe - aIm * yIm + bRe + m11 * (muRe * DRe - muIm * DIm) + m12 * muRe;
  out[at + 3] = aRe * yIm + aIm * yRe + bIm + m11 * (muRe * DIm + muIm * DRe) + m12 * muIm;
  out[at + 4] = CRe;
  out[at + 5] = CIm;
  out[at + 6] = DRe;
  out[at + 7] = DIm;
}
