/**
 * A response as a sum of resonances,
 *
 *   H(s) = e^{−sτ} [ d + Σ rₖ/(s − pₖ) + r̄ₖ/(s − p̄ₖ) ],   s = jω,
 *
 * with all its poles at once: the maximum of a peak is moved by its neighbours, a pole is not. Poles are found by vector fitting in its
 * relaxed form (B. Gustavsen and A. Semlyen, IEEE Trans. Power Delivery 14, 1999; B. Gustavsen, 21, 2006) and then, with the delay
 * and all else, by the least sum of squares (Gauss and Newton), whose normal matrix says how far each can be trusted.
 */
import { CholeskyDecomposition, EigenvalueDecomposition, Matrix } from "ml-matrix";

/** Measured at s = jω: `re` and `im` of the response, `weight` one over its standard deviation. */
export interface Points {
  readonly omega: Float64Array;
  readonly re: Float64Array;
  readonly im: Float64Array;
  readonly weight: Float64Array;
}

/** p = α + jβ, α < 0 < β, rad/s; residue r. */
export interface Pole {
  readonly alpha: number;
  readonly beta: number;
  readonly re: number;
  readonly im: number;
}

export interface PoleFit {
  readonly poles: readonly Pole[];
  /** d */
  readonly constant: number;
  /** τ, s. */
  readonly delay: number;
  /** Sum of squares of weighted differences, and each point's share, two doubles a point. */
  readonly chiSquare: number;
  readonly residual: Float64Array;
}

/** Where a pole is thought to be: α, β. */
export type PolePlace = readonly [alpha: number, beta: number];

/** Columns of the basis at ω: of each pair φ' and φ'', then 1; complex, as re and im. */
function basisAt(omega: number, places: readonly PolePlace[], re: Float64Array, im: Float64Array): void {
  let c = 0;
  for (const [a, b] of places) {
    // 1/(s − p) and 1/(s − p̄)
    const d1 = a * a + (omega - b) ** 2;
    const d2 = a * a + (omega + b) ** 2;
    const r1 = -a / d1;
    const i1 = -(omega - b) / d1;
    const r2 = -a / d2;
    const i2 = -(omega + b) / d2;
    re[c] = r1 + r2;
    im[c++] = i1 + i2;
    // j/(s − p) − j/(s − p̄)
    re[c] = i2 - i1;
    im[c++] = r1 - r2;
  }
  re[c] = 1;
  im[c] = 0;
}

/** Normal equations of real unknowns, complex rows added one by one. */
class Normal {
  readonly gram: Float64Array;
  readonly right: Float64Array;
  constructor(readonly n: number) {
    this.gram = new Float64Array(n * n);
    this.right = new Float64Array(n);
  }
  /** Both parts of a row at once: nearly all of a fit's time goes here. */
  add(re: Float64Array, im: Float64Array, rightRe: number, rightIm: number): void {
    const { n, gram, right } = this;
    for (let i = 0; i < n; i++) {
      const a = re[i];
      const b = im[i];
      right[i] += a * rightRe + b * rightIm;
      const at = i * n;
      for (let k = i; k < n; k++) gram[at + k] += a * re[k] + b * im[k];
    }
  }
  /** The solution, and the inverse of the matrix, by Cholesky with columns brought to one size. */
  solve(damping = 0): { readonly x: Float64Array; readonly inverse: Matrix } {
    const { n, gram, right } = this;
    const size = Float64Array.from({ length: n }, (_, i) => Math.sqrt(gram[i * n + i]) || 1);
    const scaled = Matrix.zeros(n, n);
    for (let i = 0; i < n; i++)
      for (let k = i; k < n; k++) {
        const value = gram[i * n + k] / (size[i] * size[k]) + (i === k ? damping + 1e-13 : 0);
        scaled.set(i, k, value);
        scaled.set(k, i, value);
      }
    const factors = new CholeskyDecomposition(scaled);
    const inverse = factors.solve(Matrix.eye(n, n));
    const x = new Float64Array(n);
    for (let i = 0; i < n; i++) {
      for (let k = 0; k < n; k++) {
        inverse.set(i, k, inverse.get(i, k) / (size[i] * size[k]));
      }
      for (let k = 0; k < n; k++) x[i] += inverse.get(i, k) * right[k];
    }
    return { x, inverse };
  }
}

/** One relocation of the poles. @param delay taken out of the points, s */
function relocated(points: Points, places: readonly PolePlace[], delay: number): PolePlace[] {
  const { omega, re, im, weight } = points;
  const n = 2 * places.length;
  const bRe = new Float64Array(n + 1);
  const bIm = new Float64Array(n + 1);
  // unknown: the numerator's n + 1, then of σ its n and its constant
  const normal = new Normal(2 * n + 2);
  const rowRe = new Float64Array(2 * n + 2);
  const rowIm = new Float64Array(2 * n + 2);
  const sums = new Float64Array(2 * n + 2);
  let norm = 0;
  for (let i = 0; i < omega.length; i++) {
    basisAt(omega[i], places, bRe, bIm);
    const cos = Math.cos(omega[i] * delay);
    const sin = Math.sin(omega[i] * delay);
    const hRe = re[i] * cos - im[i] * sin;
    const hIm = re[i] * sin + im[i] * cos;
    const w = weight[i];
    norm += w * w * (hRe * hRe + hIm * hIm);
    for (let c = 0; c < n + 1; c++) {
      rowRe[c] = w * bRe[c];
      rowIm[c] = w * bIm[c];
    }
    for (let c = 0; c < n; c++) {
      rowRe[n + 1 + c] = -w * (hRe * bRe[c] - hIm * bIm[c]);
      rowIm[n + 1 + c] = -w * (hRe * bIm[c] + hIm * bRe[c]);
      sums[n + 1 + c] += bRe[c];
    }
    rowRe[2 * n + 1] = -w * hRe;
    rowIm[2 * n + 1] = -w * hIm;
    normal.add(rowRe, rowIm, 0, 0);
  }
  // σ is one on the mean, lest all be zero
  sums[2 * n + 1] = omega.length;
  const pull = Math.sqrt(norm) / omega.length;
  normal.add(
    sums.map((value) => value * pull),
    new Float64Array(sums.length),
    omega.length * pull,
    0,
  );
  const { x } = normal.solve();
  const constant = Math.abs(x[2 * n + 1]) > 1e-8 ? x[2 * n + 1] : 1e-8;
  // zeros of σ: eigenvalues of A − b c̃ᵀ/d̃ in real form
  const matrix = Matrix.zeros(n, n);
  places.forEach(([a, b], k) => {
    const at = 2 * k;
    matrix.set(at, at, a);
    matrix.set(at, at + 1, b);
    matrix.set(at + 1, at, -b);
    matrix.set(at + 1, at + 1, a);
    for (let c = 0; c < n; c++) matrix.set(at, c, matrix.get(at, c) - (2 * x[n + 1 + c]) / constant);
  });
  const { realEigenvalues, imaginaryEigenvalues } = new EigenvalueDecomposition(matrix);
  const pairs: PolePlace[] = [];
  const real: number[] = [];
  realEigenvalues.forEach((a, k) => {
    const b = imaginaryEigenvalues[k];
    if (b > 1e-6 * Math.abs(a)) pairs.push([-Math.abs(a), b]);
    else if (Math.abs(b) <= 1e-6 * Math.abs(a)) real.push(-Math.abs(a));
  });
  // two that do not swing stand for a pair that hardly does
  for (let k = 0; k + 1 < real.length; k += 2)
    pairs.push([(real[k] + real[k + 1]) / 2, -(real[k] + real[k + 1]) / 4]);
  return pairs;
}

/** Residues and background for poles that stand. */
function withResidues(points: Points, places: readonly PolePlace[], delay: number): PoleFit {
  const { omega, re, im, weight } = points;
  const n = 2 * places.length + 1;
  const bRe = new Float64Array(n);
  const bIm = new Float64Array(n);
  const normal = new Normal(n);
  for (let i = 0; i < omega.length; i++) {
    basisAt(omega[i], places, bRe, bIm);
    const cos = Math.cos(omega[i] * delay);
    const sin = Math.sin(omega[i] * delay);
    const w = weight[i];
    for (let c = 0; c < n; c++) {
      bRe[c] *= w;
      bIm[c] *= w;
    }
    normal.add(bRe, bIm, w * (re[i] * cos - im[i] * sin), w * (re[i] * sin + im[i] * cos));
  }
  const { x } = normal.solve();
  const poles = places.map(([alpha, beta], k) => ({ alpha, beta, re: x[2 * k], im: x[2 * k + 1] }));
  return measured(points, { poles, constant: x[n - 1], delay });
}

type Parameters = Omit<PoleFit, "chiSquare" | "residual">;

/** The bracket of the formula, without the delay. */
function bracket({ poles, constant }: Parameters, omega: number): [re: number, im: number] {
  let re = constant;
  let im = 0;
  for (const { alpha, beta, re: a, im: b } of poles) {
    const d1 = alpha * alpha + (omega - beta) ** 2;
    const d2 = alpha * alpha + (omega + beta) ** 2;
    re += (-alpha * a + b * (omega - beta)) / d1 + (-alpha * a - b * (omega + beta)) / d2;
    im += (-alpha * b - a * (omega - beta)) / d1 + (alpha * b - a * (omega + beta)) / d2;
  }
  return [re, im];
}

function measured(points: Points, fit: Parameters): PoleFit {
  const { omega, re, im, weight } = points;
  const residual = new Float64Array(2 * omega.length);
  let chiSquare = 0;
  for (let i = 0; i < omega.length; i++) {
    const [a, b] = bracket(fit, omega[i]);
    const cos = Math.cos(omega[i] * fit.delay);
    const sin = Math.sin(omega[i] * fit.delay);
    residual[2 * i] = weight[i] * (re[i] - (a * cos + b * sin));
    residual[2 * i + 1] = weight[i] * (im[i] - (b * cos - a * sin));
    chiSquare += residual[2 * i] ** 2 + residual[2 * i + 1] ** 2;
  }
  return { ...fit, chiSquare, residual };
}

/** Poles moved to where vector fitting puts them. */
export function vectorFit(points: Points, places: readonly PolePlace[], delay: number, rounds = 6): PoleFit {
  let best: PoleFit | null = null;
  let now = places;
  for (let round = 0; round < rounds; round++) {
    now = relocated(points, now, delay);
    const fit = withResidues(points, now, delay);
    if (!best || fit.chiSquare < best.chiSquare) best = fit;
  }
  return best!;
}

export interface Refined {
  readonly fit: PoleFit;
  /** Variances and covariance of each pole's α and β, (rad/s)², where the points have the weights' scatter. */
  readonly covariance: readonly { readonly alpha: number; readonly beta: number; readonly both: number }[];
  /** By how much the sum of squares would grow without the pole, at first. */
  readonly gain: readonly number[];
}

const MOST_STEPS = 12;

/** Everything at once, the delay with it, by Gauss's and Newton's steps. */
export function refined(points: Points, start: PoleFit): Refined {
  let fit = start;
  let damping = 1e-6;
  let normal = normalOf(points, fit);
  for (let step = 0; step < MOST_STEPS; step++) {
    const { x } = normal.solve(damping);
    const next = moved(points, fit, x);
    if (next && next.chiSquare < fit.chiSquare) {
      const isDone = fit.chiSquare - next.chiSquare < 1e-6 * fit.chiSquare;
      fit = next;
      normal = normalOf(points, fit);
      damping = Math.max(1e-9, damping / 10);
      if (isDone) break;
    } else damping *= 30;
    if (damping > 1e3) break;
  }
  const { inverse } = normal.solve();
  const covariance = fit.poles.map((_, k) => ({
    alpha: inverse.get(4 * k, 4 * k),
    beta: inverse.get(4 * k + 1, 4 * k + 1),
    both: inverse.get(4 * k, 4 * k + 1),
  }));
  const gain = fit.poles.map(({ re, im }, k) => {
    const [a, b, c] = [
      [2, 2],
      [2, 3],
      [3, 3],
    ].map(([i, j]) => inverse.get(4 * k + i, 4 * k + j));
    return (c * re * re - 2 * b * re * im + a * im * im) / (a * c - b * b);
  });
  return { fit, covariance, gain };
}

/** Unknown, in order: α, β, r', r'' of every pole, d, τ. */
function normalOf(points: Points, fit: PoleFit): Normal {
  const { omega, weight } = points;
  const { poles, delay, residual } = fit;
  const n = 4 * poles.length + 2;
  const normal = new Normal(n);
  const rowRe = new Float64Array(n);
  const rowIm = new Float64Array(n);
  for (let i = 0; i < omega.length; i++) {
    const w = omega[i];
    const cos = weight[i] * Math.cos(w * delay);
    const sin = weight[i] * Math.sin(w * delay);
    // times e^{−jωτ}
    const put = (c: number, re: number, im: number) => {
      rowRe[c] = re * cos + im * sin;
      rowIm[c] = im * cos - re * sin;
    };
    for (let k = 0; k < poles.length; k++) {
      const { alpha, beta, re, im } = poles[k];
      const d1 = alpha * alpha + (w - beta) ** 2;
      const d2 = alpha * alpha + (w + beta) ** 2;
      const u = -alpha / d1;
      const v = -(w - beta) / d1;
      const x = -alpha / d2;
      const y = -(w + beta) / d2;
      // r/(s − p)² and r̄/(s − p̄)²
      const uu = u * u - v * v;
      const vv = 2 * u * v;
      const xx = x * x - y * y;
      const yy = 2 * x * y;
      const aRe = re * uu - im * vv;
      const aIm = re * vv + im * uu;
      const bRe = re * xx + im * yy;
      const bIm = re * yy - im * xx;
      put(4 * k, aRe + bRe, aIm + bIm);
      put(4 * k + 1, bIm - aIm, aRe - bRe);
      put(4 * k + 2, u + x, v + y);
      put(4 * k + 3, y - v, u - x);
    }
    const [re, im] = bracket(fit, w);
    put(n - 2, 1, 0);
    put(n - 1, w * im, -w * re);
    normal.add(rowRe, rowIm, residual[2 * i], residual[2 * i + 1]);
  }
  return normal;
}

/** A step taken; null where a pole would leave the left half. */
function moved(points: Points, { poles, constant, delay }: PoleFit, x: Float64Array): PoleFit | null {
  const n = 4 * poles.length;
  const next = poles.map(({ alpha, beta, re, im }, k) => ({
    alpha: alpha + x[4 * k],
    beta: beta + x[4 * k + 1],
    re: re + x[4 * k + 2],
    im: im + x[4 * k + 3],
  }));
  if (next.some(({ alpha, beta }) => !(alpha < 0 && beta > 0))) return null;
  return measured(points, {
    poles: next,
    constant: constant + x[n],
    delay: delay + x[n + 1],
  });
}
