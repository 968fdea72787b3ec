/**
 * Fisher's F: P(F ≤ f) = I_x(d₁/2, d₂/2) with x = d₁f/(d₁f + d₂), the regularised incomplete beta function by its continued
 * fraction (DLMF 8.17.22, modified Lentz), whose ends the symmetry I_x(a,b) = 1 − I_{1−x}(b,a) keeps within its fast side.
 * Held against SciPy for 1 to 200 degrees of freedom.
 */

/** ln Γ(x) for whole and half x, as degrees of freedom halved are; exact products. */
function logGamma(x: number): number {
  let sum = 0;
  let at = x;
  for (; at > 1; at--) sum += Math.log(at - 1);
  return at === 0.5 ? sum + Math.log(Math.PI) / 2 : sum;
}

const TINY = 1e-300;
const STEPS = 500;

function betaFraction(x: number, a: number, b: number): number {
  const away = (value: number) => (Math.abs(value) < TINY ? TINY : value);
  let c = 1;
  let d = 1 / away(1 - ((a + b) * x) / (a + 1));
  let fraction = d;
  for (let m = 1; m <= STEPS; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    let change = 1;
    for (const term of [even, odd]) {
      d = 1 / away(1 + term * d);
      c = away(1 + term / c);
      change = c * d;
      fraction *= change;
    }
    if (Math.abs(change - 1) < 1e-14) break;
  }
  return fraction;
}

function incompleteBeta(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  if (x > (a + 1) / (a + b + 2)) return 1 - incompleteBeta(1 - x, b, a);
  const front = a * Math.log(x) + b * Math.log1p(-x) + logGamma(a + b) - logGamma(a) - logGamma(b);
  return (Math.exp(front) / a) * betaFraction(x, a, b);
}

/** P(F ≤ f) for whole degrees of freedom. */
export const fProbability = (f: number, d1: number, d2: number): number =>
  incompleteBeta((d1 * f) / (d1 * f + d2), d1 / 2, d2 / 2);

/** The f that F stays below with this probability. */
export function fQuantile(probability: number, d1: number, d2: number): number {
  // bisected in x, which stays between 0 and 1 however far out f lies
  let [low, high] = [0, 1];
  for (let i = 0; i < 200 && high - low > 1e-16 * high; i++) {
    const x = (low + high) / 2;
    if (incompleteBeta(x, d1 / 2, d2 / 2) < probability) low = x;
    else high = x;
  }
  return (d2 * high) / (d1 * (1 - high));
}
