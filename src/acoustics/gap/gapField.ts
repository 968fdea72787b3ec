/**
 * The flow through the gap at low frequency: plane far away, and near the two steps with evanescent modes upon it. Of a flow
 * of 1 through all, the part that passes inside radius r at z is Stokes' stream function,
 *
 *   Ψ(r, z) = (r/a)² + Σ_n A_n(z) · 2π r a J₁(α_n r/a) / (α_n J₀(α_n)),   J₁(α_n) = 0,
 *
 * with a the radius there and A_n(z) decaying as e^{−α_n|z|/a} in the long ducts, between two ends as sinh in the cavity.
 * Amplitudes: `junction.ts`. Quasi-static; straight cavity; the sum ends at `MODES`, which blurs an edge by a thirtieth of a radius.
 */
import { besselOdd, zeroOfJ1 } from "../numerics/bessel.ts";
import { type StepField, stepField } from "./junction.ts";

const MODES = 48;
/** Rings of equal area that the table of `radiiOf` has. */
const PLACES = 100;

/** Radii and gap, m. */
export interface StraightCavity {
  readonly shankExit: number;
  readonly cavity: number;
  readonly leadpipe: number;
  /** Above zero. */
  readonly gap: number;
}

/** The flow through a straight gap at low frequency, of 1 through all. */
export class GapField {
  readonly #field: StepField;
  readonly #shapes = new Map<number, Float64Array>();

  constructor(readonly shape: StraightCavity) {
    const { shankExit, cavity, leadpipe, gap } = shape;
    this.#field = stepField(shankExit, cavity, leadpipe, gap, MODES);
  }

  /** Radius of the duct at z m behind the shank's end, m. */
  radius(z: number): number {
    const { shankExit, cavity, leadpipe, gap } = this.shape;
    return z < 0 ? shankExit : z <= gap ? cavity : leadpipe;
  }

  /** Ψ: the part of the flow that passes inside radius r at z, both m; 1 at the wall. */
  inside(z: number, r: number): number {
    if (r <= 0) return 0;
    const a = this.radius(z);
    let sum = (r / a) ** 2;
    for (let n = 0; n < MODES; n++)
      sum += this.#amplitude(n, zeroOfJ1(n + 1) / a, z) * a * a * shapeOf(n, r / a);
    return sum;
  }

  /**
   * Radii inside which these parts of the flow pass at z, m; parts rising, between 0 and 1. Between places of the table Ψ is
   * taken as linear in r², as a plane flow is.
   */
  radiiOf(parts: readonly number[], z: number): number[] {
    const a = this.radius(z);
    const shapes = this.#shapesOf(a);
    const amplitudes = Float64Array.from({ length: MODES }, (_, n) =>
      this.#amplitude(n, zeroOfJ1(n + 1) / a, z),
    );
    let [i, below, here] = [0, 0, 0];
    return parts.map((part) => {
      while (here < part && i < PLACES) {
        i++;
        below = here;
        here = i / PLACES;
        for (let n = 0; n < MODES; n++) here += amplitudes[n] * shapes[(i - 1) * MODES + n];
      }
      return a * Math.sqrt((i - 1 + (part - below) / (here - below)) / PLACES);
    });
  }

  /** What every mode of amplitude 1 adds to Ψ, at places of equal steps in r²; once for each radius. */
  #shapesOf(a: number): Float64Array {
    const known = this.#shapes.get(a);
    if (known) return known;
    const made = new Float64Array(PLACES * MODES);
    for (let i = 0; i < PLACES; i++) {
      const s = Math.sqrt((i + 1) / PLACES);
      for (let n = 0; n < MODES; n++) made[i * MODES + n] = a * a * shapeOf(n, s);
    }
    this.#shapes.set(a, made);
    return made;
  }

  #amplitude(n: number, perMetre: number, z: number): number {
    const { gap } = this.shape;
    const { shankExit, near, far, leadpipe } = this.#field;
    if (z < 0) return shankExit[n] * Math.exp(perMetre * z);
    if (z > gap) return leadpipe[n] * Math.exp(-perMetre * (z - gap));
    return near[n] * reaching(perMetre * gap, z / gap) + far[n] * reaching(perMetre * gap, 1 - z / gap);
  }
}

/** 2π s J₁(α_n s)/(α_n J₀(α_n)) */
function shapeOf(n: number, s: number): number {
  const alpha = zeroOfJ1(n + 1);
  besselOdd(alpha * s, 1, bessel);
  return (2 * Math.PI * s * bessel[1]) / (alpha * atWall[n]);
}

/** J₀ and J₁. */
const bessel = new Float64Array(2);
/** J₀(α_n) */
const atWall = Float64Array.from({ length: MODES }, (_, n) => {
  besselOdd(zeroOfJ1(n + 1), 1, bessel);
  return bessel[0];
});

/** sinh(x(1−t))/sinh x */
const reaching = (x: number, t: number): number =>
  (Math.exp(-x * t) - Math.exp(-x * (2 - t))) / -Math.expm1(-2 * x);
