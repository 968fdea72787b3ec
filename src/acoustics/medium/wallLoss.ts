/**
 * Viscous and thermal boundary layers in a round bore of any radius (Zwikker & Kosten 1949; Kirchhoff 1868):
 *
 *   F = 2 J₁(z) / (z J₀(z)),   z² = −j s,   s = a² ω ρ/μ   (s·Pr for the thermal one)
 *   Z_v = jωρ / (S (1 − F_v)),   Y_t = jωS/(ρc²) (1 + (γ−1) F_t)
 *
 * With y² = j s, F = (2/y) I₁(y)/I₀(y): a real function of y, even in y, meromorphic in ω with poles on the positive
 * imaginary axis only, so complex frequencies need no choice of branch. Against mpmath (tests/reference) within 2e-14 of F, but 1.1e-12 just
 * beyond where the asymptotic series begins.
 */

/** Re y beyond which e^{−2 Re y}, what the asymptotic series neglects, is about 1e-12. */
const FAR = 14;

/** I₁(y)/I₀(y) = Σ d_k y^{−k}, from the Riccati equation R' = 1 − R/y − R² of R = I₁/I₀, term by term. */
const SERIES = (() => {
  const d = new Float64Array(18);
  d[0] = 1;
  for (let k = 1; k < d.length; k++) {
    let sum = (2 - k) * d[k - 1];
    for (let i = 1; i < k; i++) sum += d[i] * d[k - i];
    d[k] = -sum / 2;
  }
  return d;
})();

/**
 * F of s = a²ωρ/μ, for complex s.
 * @param out two doubles, [Re F, Im F]
 */
export function wallLoss(sRe: number, sIm: number, out: Float64Array): void {
  if (sIm === 0 && sRe >= 0) {
    wallLossAtRealFrequency(sRe, out);
    return;
  }
  // y² = j s
  const qRe = -sIm;
  const qIm = sRe;
  // not Math.hypot, which guards against overflow at many times the cost
  const size = Math.sqrt(qRe * qRe + qIm * qIm);
  const yRe = Math.sqrt((size + qRe) / 2);
  if (yRe > FAR) {
    const yIm = qIm / (2 * yRe);
    const vRe = yRe / size;
    const vIm = -yIm / size;
    // fewer terms the farther out: |d_k y^-k| falls below 1e-16
    let k = size > 40000 ? 6 : size > 4000 ? 9 : size > 1000 ? 12 : 17;
    let re = SERIES[k];
    let im = 0;
    while (--k >= 0) {
      const t = re * vRe - im * vIm + SERIES[k];
      im = re * vIm + im * vRe;
      re = t;
    }
    out[0] = 2 * (re * vRe - im * vIm);
    out[1] = 2 * (re * vIm + im * vRe);
    return;
  }
  continuedFraction(qRe, qIm, size, out);
}

/** The same at a real frequency, which whole bores are sampled at. */
export function wallLossAtRealFrequency(s: number, out: Float64Array): void {
  if (s > 2 * FAR * FAR) farAtRealFrequency(s, out);
  else nearAtRealFrequency(s, out);
}

/**
 * F = 2/(2 + y²/(4 + y²/(6 + …))) of y² = q, its denominators by backward recurrence N_k = 2k N_{k+1} + y² N_{k+2}; F = 2 N₂/N₁.
 * @param size |q|
 */
function continuedFraction(qRe: number, qIm: number, size: number, out: Float64Array): void {
  let k = Math.ceil(9.5 + 1.35 * Math.sqrt(size));
  let aRe = 1; // N_{k+1}
  let aIm = 0;
  let bRe = 0; // N_{k+2}
  let bIm = 0;
  for (; k >= 1; k--) {
    const cRe = 2 * k * aRe + qRe * bRe - qIm * bIm;
    const cIm = 2 * k * aIm + qRe * bIm + qIm * bRe;
    bRe = aRe;
    bIm = aIm;
    aRe = cRe;
    aIm = cIm;
    if ((k & 31) === 0) {
      const scale = 1 / (Math.abs(aRe) + Math.abs(aIm));
      aRe *= scale;
      aIm *= scale;
      bRe *= scale;
      bIm *= scale;
    }
  }
  const d = 2 / (aRe * aRe + aIm * aIm);
  out[0] = (bRe * aRe + bIm * aIm) * d;
  out[1] = (bIm * aRe - bRe * aIm) * d;
}

/** Polynomials of √s that stand for the fraction at real frequencies: how many to a unit of √s, and coefficients of each. */
const PER_UNIT = 4;
const TERMS = 10;

/** Re and im of each polynomial's coefficients, lowest first, in the distance from the middle of its stretch. */
const NEAR = (() => {
  const stretches = Math.ceil(Math.SQRT2 * FAR * PER_UNIT) + 1;
  const table = new Float64Array(2 * TERMS * stretches);
  const value = new Float64Array(2);
  const half = 0.5 / PER_UNIT;
  for (let i = 0; i < stretches; i++) {
    // Newton's divided differences at Chebyshev's points, then multiplied out
    const at = Array.from({ length: TERMS }, (_, k) => half * Math.cos((Math.PI * (k + 0.5)) / TERMS));
    const differences = at.map((x) => {
      const s = ((i + 0.5) / PER_UNIT + x) ** 2;
      continuedFraction(0, s, s, value);
      return [value[0], value[1]];
    });
    for (let order = 1; order < TERMS; order++)
      for (let k = TERMS - 1; k >= order; k--)
        for (const part of [0, 1])
          differences[k][part] = (differences[k][part] - differences[k - 1][part]) / (at[k] - at[k - order]);
    for (const part of [0, 1]) {
      const c = new Float64Array(TERMS);
      for (let k = TERMS - 1; k >= 0; k--) {
        for (let j = TERMS - 1; j > 0; j--) c[j] = c[j - 1] - at[k] * c[j];
        c[0] = differences[k][part] - at[k] * c[0];
      }
      c.forEach((one, j) => {
        table[2 * (TERMS * i + j) + part] = one;
      });
    }
  }
  return table;
})();

/** The fraction at a real frequency, from a table of itself. */
function nearAtRealFrequency(s: number, out: Float64Array): void {
  const x = Math.sqrt(s) * PER_UNIT;
  const stretch = Math.floor(x);
  const t = (x - stretch - 0.5) / PER_UNIT;
  const first = 2 * TERMS * stretch;
  let re = 0;
  let im = 0;
  for (let k = first + 2 * TERMS - 2; k >= first; k -= 2) {
    re = re * t + NEAR[k];
    im = im * t + NEAR[k + 1];
  }
  out[0] = re;
  out[1] = im;
}

/**
 * The asymptotic series at a real frequency: there 1/y = r(1 − j), r = 1/√(2s), whose fourth power
 * is real, so that four real polynomials of it stand for the complex one. As many terms as above.
 */
function farAtRealFrequency(s: number, out: Float64Array): void {
  const r2 = 0.5 / s;
  const r = Math.sqrt(r2);
  const q = -4 * r2 * r2;
  const d = SERIES;
  let a = d[4];
  let b = d[5];
  let c = d[6];
  let e = d[7];
  if (s <= 40000) {
    a += q * d[8];
    b += q * d[9];
    c += q * d[10];
    e += q * d[11];
    if (s <= 4000) {
      const q2 = q * q;
      a += q2 * (d[12] + q * d[16]);
      b += q2 * (d[13] + q * d[17]);
      c += q2 * d[14];
      e += q2 * d[15];
    }
  }
  a = d[0] + q * a;
  b = d[1] + q * b;
  c = d[2] + q * c;
  e = d[3] + q * e;
  const odd = r * a;
  const third = 2 * r * r2 * c;
  out[0] = 2 * (odd - third + q * e);
  out[1] = -2 * (odd + 2 * r2 * b + third);
}
