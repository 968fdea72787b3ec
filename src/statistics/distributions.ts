/**
 * Fisher's F, Student's t and χ², by the incomplete beta and gamma functions: P(F ≤ f) = I_x(d₁/2, d₂/2) with
 * x = d₁f/(d₁f + d₂); t² with ν degrees of freedom is F with 1 and ν; P(χ² > x) = Q(k/2, x/2). Degrees of freedom need not be
 * whole. Held against SciPy.
 */
import { betaSlope, incompleteBeta, upperGamma } from "./incomplete.ts";

/** What I_x(d₁/2, d₂/2) is asked for: x, 1 − x and the two halves. */
function atF(f: number, d1: number, d2: number): [x: number, y: number, a: number, b: number] {
  const whole = d1 * f + d2;
  return [(d1 * f) / whole, d2 / whole, d1 / 2, d2 / 2];
}

/** P(F ≤ f). */
export const fProbability = (f: number, d1: number, d2: number): number => incompleteBeta(...atF(f, d1, d2));

/** ln f lies between these, whatever may be asked. */
const LOG_RANGE = 650;
/** After so short a step of Newton's, ln f is known to the square of it. */
const SHORT = 1e-9;

/**
 * The f that F stays below with this probability: Newton's method in ln f, in which P rises by `betaSlope`, and halving where
 * that leads out of what is known to hold the answer, or does not get on. Some ten looks at P; a table of uncertainties asks a
 * hundred times.
 */
export function fQuantile(probability: number, d1: number, d2: number): number {
  if (probability >= 1) return Infinity;
  if (probability <= 0) return 0;
  let [low, high] = [-LOG_RANGE, LOG_RANGE];
  let at = 0;
  let step = high;
  while (high - low > Number.EPSILON * LOG_RANGE) {
    const there = atF(Math.exp(at), d1, d2);
    const over = incompleteBeta(...there) - probability;
    if (over < 0) low = at;
    else high = at;
    const newton = -over / betaSlope(...there);
    const isGood = Math.abs(newton) < Math.abs(step) / 2 && at + newton >= low && at + newton <= high;
    step = isGood ? newton : (low + high) / 2 - at;
    at += step;
    if (isGood && Math.abs(step) < SHORT) break;
  }
  return Math.exp(at);
}

/** The t that Student's t stays below with this probability of one half or more. */
export const tQuantile = (probability: number, degreesOfFreedom: number): number =>
  Math.sqrt(fQuantile(2 * probability - 1, 1, degreesOfFreedom));

/** P(χ² > value). */
export const chiSquareTail = (value: number, degreesOfFreedom: number): number =>
  upperGamma(degreesOfFreedom / 2, value / 2);
