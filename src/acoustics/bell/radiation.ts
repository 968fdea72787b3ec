/**
 * Radiation from the open end of a round pipe, unflanged or with an infinite flange, in the closed form of Silva,
 * Guillemain, Kergomard, Mallaroni & Norris 2009 (J. Sound Vib. 322, 255), fitted for 0 < ka < 3.5 and causal beyond:
 *
 *   R = −|R| e^{−2jkL},   x = ka
 *   |R| = (1 + a₁x²)/(1 + (β+a₁)x² + a₂x⁴ + a₃x⁶),   L = ηa(1 + b₁x²)/(1 + b₂x² + b₃x⁴ + b₄x⁶)
 *   Z_r = (ρc/S)(1 + R)/(1 − R)
 *
 * An `open` end is the ideal p = 0 of textbooks.
 */
import type { Air } from "../medium/air.ts";

export type Radiation = "unflanged" | "flanged" | "open";

interface Coefficients {
  readonly beta: number;
  readonly eta: number;
  readonly a: readonly [number, number, number];
  readonly b: readonly [number, number, number, number];
}

const TABLE: Record<"unflanged" | "flanged", Coefficients> = {
  unflanged: { beta: 0.5, eta: 0.6133, a: [0.8, 0.266, 0.0263], b: [0.0599, 0.238, -0.0153, 0.0015] },
  flanged: { beta: 1, eta: 0.8216, a: [0.73, 0.372, 0.0231], b: [0.244, 0.723, -0.0198, 0.00366] },
};

/**
 * [p, U] at the open end, up to a common factor, for radius `radius` m at complex angular frequency ω.
 * @param out four doubles at `at`
 */
export function radiationState(
  kind: Radiation,
  radius: number,
  air: Air,
  omegaRe: number,
  omegaIm: number,
  out: Float64Array,
  at = 0,
): void {
  const zc = (air.density * air.soundSpeed) / (Math.PI * radius * radius);
  if (kind === "open") {
    out[at] = 0;
    out[at + 1] = 0;
    out[at + 2] = 1;
    out[at + 3] = 0;
    return;
  }
  const [rRe, rIm] = reflection(
    kind,
    (omegaRe / air.soundSpeed) * radius,
    (omegaIm / air.soundSpeed) * radius,
  );
  out[at] = zc * (1 + rRe);
  out[at + 1] = zc * rIm;
  out[at + 2] = 1 - rRe;
  out[at + 3] = -rIm;
}

/** Pressure reflection coefficient R at complex x = ka. */
export function reflection(
  kind: "unflanged" | "flanged",
  xRe: number,
  xIm: number,
): [re: number, im: number] {
  const { beta, eta, a, b } = TABLE[kind];
  const qRe = xRe * xRe - xIm * xIm;
  const qIm = 2 * xRe * xIm;
  const size = ratio(qRe, qIm, [1, a[0]], [1, beta + a[0], a[1], a[2]]);
  const length = ratio(qRe, qIm, [1, b[0]], [1, b[1], b[2], b[3]]);
  // −2jxL/a
  const eRe = 2 * eta * (xRe * length[1] + xIm * length[0]);
  const eIm = -2 * eta * (xRe * length[0] - xIm * length[1]);
  const m = -Math.exp(eRe);
  const cRe = m * Math.cos(eIm);
  const cIm = m * Math.sin(eIm);
  return [size[0] * cRe - size[1] * cIm, size[0] * cIm + size[1] * cRe];
}

/** Ratio of two polynomials in complex q. */
function ratio(
  qRe: number,
  qIm: number,
  above: readonly number[],
  below: readonly number[],
): [re: number, im: number] {
  const [nRe, nIm] = polynomial(qRe, qIm, above);
  const [dRe, dIm] = polynomial(qRe, qIm, below);
  const d = dRe * dRe + dIm * dIm;
  return [(nRe * dRe + nIm * dIm) / d, (nIm * dRe - nRe * dIm) / d];
}

function polynomial(qRe: number, qIm: number, c: readonly number[]): [re: number, im: number] {
  let re = 0;
  let im = 0;
  for (let k = c.length - 1; k >= 0; k--) {
    const t = re * qRe - im * qIm + c[k];
    im = re * qIm + im * qRe;
    re = t;
  }
  return [re, im];
}
