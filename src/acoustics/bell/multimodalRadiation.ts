/**
 * Radiation impedance matrix of a round mouth, radius a, for the functions of `radialBasis.ts`, at real ka.
 *
 * Flanged (a wall around the mouth; Zorumski 1973, J. Acoust. Soc. Am. 54, 1667, in this basis): the field of every function
 * as Hankel integral, whose overlaps are closed,
 *
 *   Z_mn = (ρc/S) (x²/2) ∫₀^∞ D_m(τx) D_n(τx) τ/√(1−τ²) dτ,   D_q(y) = 2√(2q+1) J_{2q+1}(y)/y,   x = ka
 *
 * (1−τ² → a positive imaginary root beyond τ = 1). Unflanged (a thin pipe that goes back for ever): the reflection matrix of
 * `openPipe.ts` in the pipe's own modes, projected. A bell's outside widens behind its mouth and is neither of the two: against
 * finite elements of a free bell with a mouth of 122 mm resonances are within 0.8 cents to 1150 Hz, and |R| at the start of
 * the flare is too small by 0.2 % at 650 Hz, 1.5 % at 900 Hz, 7 % from 1150 Hz on (tests/reference/bell/flare.csv).
 */
import type { Air } from "../medium/air.ts";
import { besselOdd, zeroOfJ1 } from "../numerics/bessel.ts";
import { multiply } from "../numerics/complexMatrix.ts";
import { gaussLegendre } from "../numerics/quadrature.ts";
import { openPipeImpedance } from "./openPipe.ts";
import type { Radiation } from "./radiation.ts";

/**
 * @param count of functions
 * @param ka real, above 0
 * @returns complex, count × count, Pa·s/m³
 */
export function radiationMatrix(
  kind: Radiation,
  count: number,
  ka: number,
  radius: number,
  air: Air,
): Float64Array {
  const area = Math.PI * radius * radius;
  const matrix =
    kind === "open"
      ? new Float64Array(2 * count * count)
      : kind === "flanged"
        ? flanged(count, ka)
        : unflangedOf(count, ka);
  return matrix.map((value) => (value * air.density * air.soundSpeed) / area);
}

/** Where the oscillating tail of the flanged integral is replaced by its mean, in τx. */
const TAIL = 80;
const panel = gaussLegendre(12);

function flanged(count: number, x: number): Float64Array {
  const out = new Float64Array(2 * count * count);
  const bessel = new Float64Array(count + 1);
  const add = (y: number, weight: number, part: 0 | 1) => {
    besselOdd(y, count, bessel);
    for (let m = 0; m < count; m++)
      for (let n = 0; n < count; n++)
        out[2 * (m * count + n) + part] +=
          (weight * 4 * norm(m) * norm(n) * bessel[m + 1] * bessel[n + 1]) / (y * y);
  };
  const integrate = (low: number, high: number, step: number, at: (t: number, weight: number) => void) => {
    const panels = Math.ceil((high - low) / step);
    const half = (high - low) / (2 * panels);
    for (let k = 0; k < panels; k++)
      panel.nodes.forEach((node, i) => {
        at(low + half * (2 * k + 1 + node), half * panel.weights[i]);
      });
  };
  const scale = (x * x) / 2;
  // τ = sin θ, and τ² = 1 + q² beyond 1
  integrate(0, Math.PI / 2, Math.PI / (2 + x), (theta, weight) => {
    const tau = Math.sin(theta);
    add(tau * x, scale * tau * weight, 0);
  });
  const last = Math.sqrt(Math.max(TAIL / x, 2) ** 2 - 1);
  integrate(0, last, 3 / x, (q, weight) => add(Math.hypot(1, q) * x, scale * weight, 1));
  // J_{2m+1} J_{2n+1} → (−1)^{m+n}/(πy) in the mean
  const end = x * Math.hypot(1, last);
  for (let m = 0; m < count; m++)
    for (let n = 0; n < count; n++)
      out[2 * (m * count + n) + 1] +=
        ((m + n) & 1 ? -1 : 1) * ((scale * 4 * norm(m) * norm(n)) / (2 * Math.PI * end * end * x));
  return out;
}

const norm = (q: number): number => Math.sqrt(2 * q + 1);

/** Matrices of the thin pipe made last, by functions and ka: as series ask for the same ka of every bell, most are there. */
const known = new Map<string, Float64Array>();
const KEPT = 512;
/** Digits of ka that count: far more than the matrix is good to, and few enough that rounding makes no second one of the same. */
const DIGITS = 12;

function unflangedOf(count: number, ka: number): Float64Array {
  const rounded = ka.toPrecision(DIGITS);
  const key = `${count} ${rounded}`;
  const found = known.get(key);
  if (found) return found;
  const matrix = unflanged(count, Number(rounded));
  known.set(key, matrix);
  if (known.size > KEPT) known.delete(known.keys().next().value!);
  return matrix;
}

/** Pipe modes that stand for the field at the rim's edge beside twice the functions asked for. */
const EDGE_MODES = 24;

function unflanged(count: number, x: number): Float64Array {
  const modes = 2 * count + EDGE_MODES;
  const pipe = openPipeImpedance(modes, x);
  // overlap of mode n and function q: 2√(2q+1) J_{2q+1}(α_n)/(α_n J₀(α_n))
  const overlap = new Float64Array(2 * modes * count);
  const transposed = new Float64Array(2 * modes * count);
  const bessel = new Float64Array(count + 1);
  overlap[0] = 1;
  for (let n = 1; n < modes; n++) {
    const alpha = zeroOfJ1(n);
    besselOdd(alpha, count, bessel);
    for (let q = 0; q < count; q++)
      overlap[2 * (n * count + q)] = (2 * norm(q) * bessel[q + 1]) / (alpha * bessel[0]);
  }
  for (let n = 0; n < modes; n++)
    for (let q = 0; q < count; q++) transposed[2 * (q * modes + n)] = overlap[2 * (n * count + q)];
  const half = new Float64Array(2 * modes * count);
  const out = new Float64Array(2 * count * count);
  multiply(pipe, overlap, modes, modes, count, half);
  multiply(transposed, half, count, modes, count, out);
  return out;
}
