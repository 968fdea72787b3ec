/**
 * Fisher's F, Student's t and χ², by the incomplete beta and gamma functions: P(F ≤ f) = I_x(d₁/2, d₂/2) with
 * x = d₁f/(d₁f + d₂); t² with ν degrees of freedom is F with 1 and ν; P(χ² > x) = Q(k/2, x/2). Degrees of freedom need not be
 * whole. Held against SciPy.
 */
import { incompleteBeta, upperGamma } from "./incomplete.ts";

/** P(F ≤ f). */
export function fProbability(f: number, d1: number, d2: number): number {
  const whole = d1 * f + d2;
  return incompleteBeta((d1 * f) / whole, d2 / whole, d1 / 2, d2 / 2);
}

/** ln f lies between these, whatever may be asked. */
const LOG_RANGE = 650;

/** The f that F stays below with this probability. */
export function fQuantile(probability: number, d1: number, d2: number): number {
  if (probability >= 1) return Infinity;
  let [low, high] = [-LOG_RANGE, LOG_RANGE];
  // halved until neighbouring doubles are reached
  for (let i = 0; i < 64; i++) {
    const middle = (low + high) / 2;
    if (fProbability(Math.exp(middle), d1, d2) < probability) low = middle;
    else high = middle;
  }
  return Math.exp((low + high) / 2);
}

/** The t that Student's t stays below with this probability of one half or more. */
export const tQuantile = (probability: number, degreesOfFreedom: number): number =>
  Math.sqrt(fQuantile(2 * probability - 1, 1, degreesOfFreedom));

/** P(χ² > value). */
export const chiSquareTail = (value: number, degreesOfFreedom: number): number =>
  upperGamma(degreesOfFreedom / 2, value / 2);
