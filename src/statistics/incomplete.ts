/**
 * The regularised incomplete beta and gamma functions, on which the distributions beside this file rest: continued fractions
 * DLMF 8.17.22 and 8.9.2 (its even part) by Lentz's method as Thompson & Barnett 1986 modified it, the series DLMF 8.7.1, and
 * ln Γ by Stirling's series DLMF 5.11.1. For arguments up to some 10⁶; errors near 10⁻¹³, growing to 10⁻⁹ at the top.
 */

const TINY = 1e-300;
const MOST_TERMS = 20_000;
const CLOSE_ENOUGH = 1e-16;
/** Stirling's series is exact to double precision from here on. */
const LARGE = 10;
const STIRLING = [1 / 12, -1 / 360, 1 / 1260, -1 / 1680, 1 / 1188, -691 / 360360, 1 / 156];

/** ln Γ(x), x > 0. */
function logGamma(x: number): number {
  let product = 1;
  let at = x;
  for (; at < LARGE; at++) product *= at;
  const series = STIRLING.reduceRight((sum, term) => sum / at ** 2 + term, 0) / at;
  return (at - 0.5) * Math.log(at) - at + Math.log(2 * Math.PI) / 2 + series - Math.log(product);
}

/** b₀ + a₁/(b₁ + a₂/(b₂ + …)). */
function continuedFraction(first: number, term: (n: number) => readonly [a: number, b: number]): number {
  const away = (value: number) => (Math.abs(value) < TINY ? TINY : value);
  let fraction = away(first);
  let c = fraction;
  let d = 0;
  for (let n = 1; n < MOST_TERMS; n++) {
    const [a, b] = term(n);
    d = 1 / away(b + a * d);
    c = away(b + a / c);
    fraction *= c * d;
    if (Math.abs(c * d - 1) <= CLOSE_ENOUGH) break;
  }
  return fraction;
}

/** x^a y^b/B(a, b), y = 1 − x: by how much I_x(a, b) rises with ln(x/y). */
export const betaSlope = (x: number, y: number, a: number, b: number): number =>
  Math.exp(a * Math.log(x) + b * Math.log(y) + logGamma(a + b) - logGamma(a) - logGamma(b));

/**
 * I_x(a, b).
 *
 * @param y 1 − x, which the caller knows more exactly where x is near 1
 */
export function incompleteBeta(x: number, y: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (y <= 0) return 1;
  // the side on which the fraction is quick
  if (x > (a + 1) / (a + b + 2)) return 1 - incompleteBeta(y, x, b, a);
  const fraction = continuedFraction(1, (n) => {
    const m = Math.floor(n / 2);
    const even = m * (b - m);
    const odd = -(a + m) * (a + b + m);
    return [((n % 2 ? odd : even) * x) / ((a + n - 1) * (a + n)), 1];
  });
  return betaSlope(x, y, a, b) / (a * fraction);
}

/** Q(a, x) = Γ(a, x)/Γ(a), the upper part. */
export function upperGamma(a: number, x: number): number {
  if (x <= 0) return 1;
  const front = Math.exp(a * Math.log(x) - x - logGamma(a));
  if (x >= a + 1) return front / continuedFraction(x + 1 - a, (n) => [-n * (n - a), x + 2 * n + 1 - a]);
  let [term, sum] = [1 / a, 1 / a];
  for (let n = 1; term > CLOSE_ENOUGH * sum; n++) {
    term *= x / (a + n);
    sum += term;
  }
  return 1 - front * sum;
}

/** erfc x, an incomplete gamma function of x² (DLMF 7.11.2). */
export const complementaryError = (x: number): number =>
  x < 0 ? 2 - upperGamma(0.5, x * x) : upperGamma(0.5, x * x);
