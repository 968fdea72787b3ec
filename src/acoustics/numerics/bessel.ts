/**
 * Bessel functions of real argument, for the radial modes of a round duct: J₀ and the odd orders J₁, J₃, …, and the
 * positive zeros of J₁. Recurrences and asymptotic series of Abramowitz & Stegun, sections 9.1.27, 9.2.5, 9.5.12, 9.12.
 */

/** Above this the asymptotic series gives J₀ and J₁ to rounding. */
const FAR = 30;

/**
 * J₀(x) and J₁(x), J₃(x), …, J_{2n−1}(x) for x > 0.
 * @param out n + 1 doubles: J₀, then the odd orders
 */
export function besselOdd(x: number, n: number, out: Float64Array): void {
  if (x > FAR && x > 2 * n) {
    // upward recurrence is stable while the order is below x
    let lower = hankel(0, x);
    let upper = hankel(1, x);
    out[0] = lower;
    out[1] = upper;
    for (let order = 1; order < 2 * n - 1; order++) {
      const next = ((2 * order) / x) * upper - lower;
      lower = upper;
      upper = next;
      if (order & 1) continue;
      out[order / 2 + 1] = upper;
    }
    return;
  }
  // Miller's downward recurrence, normalised by J₀ + 2 ΣJ_{2k} = 1
  let upper = 0;
  let here = 1e-280;
  let sum = 0;
  out.fill(0, 0, n + 1);
  const start = 2 * Math.ceil((Math.max(x, 2 * n) + 14 + 2 * Math.cbrt(x)) / 2 + 4);
  for (let order = start; order >= 0; order--) {
    // `here` is J_order
    if (order & 1) {
      if ((order + 1) / 2 <= n) out[(order + 1) / 2] = here;
    } else sum += order === 0 ? here : 2 * here;
    if (order === 0) out[0] = here;
    const next = ((2 * order) / x) * here - upper;
    upper = here;
    here = next;
    if (Math.abs(here) > 1e250) {
      here *= 1e-250;
      upper *= 1e-250;
      sum *= 1e-250;
      for (let i = 0; i <= n; i++) out[i] *= 1e-250;
    }
  }
  for (let i = 0; i <= n; i++) out[i] /= sum;
}

/** J_ν(x), ν = 0 or 1, for large x. */
function hankel(order: 0 | 1, x: number): number {
  const mu = 4 * order * order;
  let term = 1;
  let p = 0;
  let q = 0;
  for (let k = 0; k < 24; k++) {
    const sign = k & 2 ? -1 : 1;
    if (k & 1) q += sign * term;
    else p += sign * term;
    const next = (term * (mu - (2 * k + 1) ** 2)) / ((k + 1) * 8 * x);
    if (Math.abs(next) >= Math.abs(term) || Math.abs(next) < 1e-18) break;
    term = next;
  }
  const phase = x - (order / 2 + 1 / 4) * Math.PI;
  return Math.sqrt(2 / (Math.PI * x)) * (p * Math.cos(phase) - q * Math.sin(phase));
}

const zeros: number[] = [];
const pair = new Float64Array(2);

/** The k-th positive zero of J₁, k = 1, 2, …: McMahon's expansion, then Newton (J₁' = J₀ − J₁/x). */
export function zeroOfJ1(k: number): number {
  if (k <= zeros.length) return zeros[k - 1];
  for (let i = zeros.length + 1; i <= k; i++) {
    const b = (i + 0.25) * Math.PI;
    let x = b - 3 / (8 * b) + 36 / (3 * (8 * b) ** 3);
    for (let step = 0; step < 4; step++) {
      besselOdd(x, 1, pair);
      x -= pair[1] / (pair[0] - pair[1] / x);
    }
    zeros.push(x);
  }
  return zeros[k - 1];
}
