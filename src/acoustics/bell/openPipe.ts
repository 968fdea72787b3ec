/**
 * All radial modes at the open end of a thin-walled pipe, solved exactly by the Wiener–Hopf method (Weinstein 1969, The Theory
 * of Diffraction and the Factorization Method; for the plane wave Levine & Schwinger 1948). Modes J₀(α_n r/a)/J₀(α_n),
 * a = 1, k = x, κ_n = √(x² − α_n²) with Im κ_n ≤ 0; mode m comes in, −R_nm of mode n goes back:
 *
 *   R_nm = −(x + κ_n)(x + κ_m) L₊(−κ_n) L₊(−κ_m) / (2κ_n (κ_n + κ_m))
 *   ln L₊(ζ) = (ζ/πj) ∫₀^∞ ln L(t)/(t² − ζ²) dt,   L = 2 I₁(y) K₁(y),   y = √(t² − x²)
 *
 * The path is turned to t = e^{jπ/4} e^w, past the branch point and the poles, where the integrand in w is smooth and the
 * trapezoidal rule converges fast. Derived anew for this file; its plane wave is held against Levine–Schwinger's integral.
 */
import { zeroOfJ1 } from "../numerics/bessel.ts";
import { solve } from "../numerics/complexMatrix.ts";

/** Range of w and its step: halving the step or widening the range changes R by less than 1e-7. */
const LOW = -14;
const HIGH = 36;
const STEP = 0.08;

/** Impedance matrix in units ρc/S: pressures of the modes from their flows ∫ψ u dS; complex, `modes` × `modes`. */
export function openPipeImpedance(modes: number, x: number): Float64Array {
  const { kappa, g } = factors(modes, x);
  // (1 + R)(1 − R)⁻¹ Z_c, from the transposed (1 − Rᵀ)⁻¹(1 + Rᵀ)
  const below = new Float64Array(2 * modes * modes);
  const above = new Float64Array(2 * modes * modes);
  for (let n = 0; n < modes; n++)
    for (let m = 0; m < modes; m++) {
      const [re, im] = reflectionOf(n, m, kappa, g);
      const at = 2 * (m * modes + n);
      below[at] = -re + (n === m ? 1 : 0);
      below[at + 1] = -im;
      above[at] = re + (n === m ? 1 : 0);
      above[at + 1] = im;
    }
  solve(below, above, modes, modes);
  const out = new Float64Array(2 * modes * modes);
  for (let n = 0; n < modes; n++)
    for (let m = 0; m < modes; m++) {
      const [kRe, kIm] = [kappa[2 * m], kappa[2 * m + 1]];
      const size = x / (kRe * kRe + kIm * kIm);
      const [re, im] = [above[2 * (m * modes + n)], above[2 * (m * modes + n) + 1]];
      out[2 * (n * modes + m)] = size * (re * kRe + im * kIm);
      out[2 * (n * modes + m) + 1] = size * (im * kRe - re * kIm);
    }
  return out;
}

/** R of the plane wave into itself. */
export function openPipeReflection(x: number): [re: number, im: number] {
  const { kappa, g } = factors(1, x);
  return reflectionOf(0, 0, kappa, g);
}

/** κ_n and (x + κ_n) L₊(−κ_n), complex. */
function factors(modes: number, x: number): { kappa: Float64Array; g: Float64Array } {
  const kappa = new Float64Array(2 * modes);
  const g = new Float64Array(2 * modes);
  const squares = new Float64Array(modes);
  for (let n = 0; n < modes; n++) {
    squares[n] = x * x - (n === 0 ? 0 : zeroOfJ1(n) ** 2);
    if (squares[n] >= 0) kappa[2 * n] = Math.sqrt(squares[n]);
    else kappa[2 * n + 1] = -Math.sqrt(-squares[n]);
  }
  const sums = new Float64Array(2 * modes);
  const points = Math.round((HIGH - LOW) / STEP);
  let phase = 0;
  // from far out, where ln L is known, inwards along the path, so that its phase is followed without a jump
  for (let i = points; i >= 0; i--) {
    const s = Math.exp(LOW + i * STEP);
    const [re, im] = kernel(x, s * s);
    const angle = Math.atan2(im, re);
    phase += angle - phase - 2 * Math.PI * Math.round((angle - phase) / (2 * Math.PI));
    const size = 0.5 * Math.log(re * re + im * im);
    for (let n = 0; n < modes; n++) {
      // 1/(t² − ζ²) · dt = t dw/(js² − κ_n²), t = s e^{jπ/4}
      const scale = s / (squares[n] * squares[n] + s * s * s * s);
      const qRe = -squares[n] * scale;
      const qIm = -s * s * scale;
      sums[2 * n] += size * qRe - phase * qIm;
      sums[2 * n + 1] += size * qIm + phase * qRe;
    }
  }
  for (let n = 0; n < modes; n++) {
    // times e^{jπ/4} STEP, and −κ_n/(πj) = jκ_n/π
    const [aRe, aIm] = [Math.SQRT1_2 * STEP, Math.SQRT1_2 * STEP];
    const vRe = sums[2 * n] * aRe - sums[2 * n + 1] * aIm;
    const vIm = sums[2 * n] * aIm + sums[2 * n + 1] * aRe;
    const fRe = -kappa[2 * n + 1] / Math.PI;
    const fIm = kappa[2 * n] / Math.PI;
    const grown = Math.exp(vRe * fRe - vIm * fIm);
    const turned = vRe * fIm + vIm * fRe;
    const lRe = grown * Math.cos(turned);
    const lIm = grown * Math.sin(turned);
    const kRe = x + kappa[2 * n];
    const kIm = kappa[2 * n + 1];
    g[2 * n] = kRe * lRe - kIm * lIm;
    g[2 * n + 1] = kRe * lIm + kIm * lRe;
  }
  return { kappa, g };
}

function reflectionOf(n: number, m: number, kappa: Float64Array, g: Float64Array): [number, number] {
  const pRe = -(g[2 * n] * g[2 * m] - g[2 * n + 1] * g[2 * m + 1]);
  const pIm = -(g[2 * n] * g[2 * m + 1] + g[2 * n + 1] * g[2 * m]);
  const [aRe, aIm] = [kappa[2 * n], kappa[2 * n + 1]];
  const sRe = aRe + kappa[2 * m];
  const sIm = aIm + kappa[2 * m + 1];
  const dRe = 2 * (aRe * sRe - aIm * sIm);
  const dIm = 2 * (aRe * sIm + aIm * sRe);
  const size = dRe * dRe + dIm * dIm;
  return [(pRe * dRe + pIm * dIm) / size, (pIm * dRe - pRe * dIm) / size];
}

/** |y| beyond which the asymptotic series of the Bessel functions is used: both are then good to 1e-8. */
const FAR = 10;

/** 2 I₁(y) K₁(y) at y² = js² − x², y in the first quadrant: Abramowitz & Stegun 9.6.10, 9.6.11, 9.7.2 and 9.7.1 with both exponentials. */
function kernel(x: number, s2: number): [re: number, im: number] {
  const q: Complex = [-x * x, s2];
  const size = Math.hypot(...q);
  const yRe = Math.sqrt(Math.max(0, size + q[0]) / 2);
  const yIm = Math.sqrt(Math.max(0, size - q[0]) / 2);
  return size > FAR * FAR ? farKernel([yRe, yIm]) : nearKernel(q, [yRe, yIm]);
}

type Complex = [re: number, im: number];
const times = ([a, b]: Complex, [c, d]: Complex): Complex => [a * c - b * d, a * d + b * c];

function nearKernel([qRe, qIm]: Complex, [yRe, yIm]: Complex): Complex {
  const hRe = qRe / 4;
  const hIm = qIm / 4;
  // I₁ = (y/2) Σ term, K₁ = 1/y + ln(y/2) I₁ − (y/4) Σ (ψ(m+1) + ψ(m+2)) term
  let tRe = 1;
  let tIm = 0;
  let psi = 1 - 2 * EULER;
  let [aRe, aIm, bRe, bIm] = [0, 0, 0, 0];
  for (let m = 1; Math.abs(tRe) + Math.abs(tIm) > 1e-18; m++) {
    aRe += tRe;
    aIm += tIm;
    bRe += psi * tRe;
    bIm += psi * tIm;
    psi += 1 / m + 1 / (m + 1);
    const over = 1 / (m * (m + 1));
    const next = over * (tRe * hRe - tIm * hIm);
    tIm = over * (tRe * hIm + tIm * hRe);
    tRe = next;
  }
  // 2 I₁ K₁ = Σ₁ (1 + y²/4 · (2 ln(y/2) Σ₁ − Σ₂))
  const log: Complex = [2 * Math.log(Math.hypot(yRe, yIm) / 2), 2 * Math.atan2(yIm, yRe)];
  const [re, im] = times(log, [aRe, aIm]);
  const inner = times([hRe, hIm], [re - bRe, im - bIm]);
  return times([aRe, aIm], [1 + inner[0], inner[1]]);
}
const EULER = 0.5772156649015329;

function farKernel([yRe, yIm]: Complex): Complex {
  const size = yRe * yRe + yIm * yIm;
  const inverse: Complex = [yRe / size, -yIm / size];
  // Σ a_k y^−k and its alternating sum, as far as it counts
  let [tRe, tIm] = [1, 0];
  const plus: Complex = [1, 0];
  const minus: Complex = [1, 0];
  for (let k = 1; k < 18 && Math.abs(tRe) + Math.abs(tIm) > 1e-18; k++) {
    const factor = (4 - (2 * k - 1) ** 2) / (8 * k);
    const next = factor * (tRe * inverse[0] - tIm * inverse[1]);
    tIm = factor * (tRe * inverse[1] + tIm * inverse[0]);
    tRe = next;
    const sign = k & 1 ? -1 : 1;
    plus[0] += tRe;
    plus[1] += tIm;
    minus[0] += sign * tRe;
    minus[1] += sign * tIm;
  }
  // I₁ has e^{y} and −j e^{−y} in the first quadrant
  const decay = Math.exp(-2 * yRe);
  const other = times([-decay * Math.sin(2 * yIm), -decay * Math.cos(2 * yIm)], plus);
  return times(inverse, times(plus, [minus[0] + other[0], minus[1] + other[1]]));
}
