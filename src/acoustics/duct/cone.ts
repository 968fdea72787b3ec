/**
 * A lossy cone between radii a₀ and a₁ over length h, plane fronts: the horn equation
 *
 *   p' = −Z_v(x) U,   U' = −Y_t(x) p,   a(x) = a₀ + m x
 *
 * With ψ = a·p the cone's geometry drops out, and only the losses still vary along x:
 *
 *   ψ' = ζ w,   w' = κ ψ,   ζ = jωρ/(π(1−F_v)),   κ = jωπ(1+(γ−1)F_t)/(ρc²) + (m/a) d(1/ζ)/dx,   U = mψ/ζ − a w
 *
 * so a step is exact for a lossless cone of any angle and for a lossy cylinder of any length, and elsewhere a fourth-order
 * Magnus step (Blanes, Casas, Oteo & Ros 2009, Phys. Rep. 470, 151; with Simpson's rule): Ω = [[δ, ζ̄h], [κ̄h, −δ]],
 * δ = −(h²/12)(ζ̄Δκ − κ̄Δζ), and exp(±Ω) = cosh θ ± Ω sinh θ/θ, θ² = δ² + ζ̄κ̄h². Traceless Ω makes det = 1 to rounding.
 * How many steps a cone takes is decided by step doubling in `chain.ts`. Derivative of F: dF/d ln a = 2(1−F) + z²F²/2.
 */
import type { Air } from "../medium/air.ts";
import { wallLoss, wallLossAtRealFrequency } from "../medium/wallLoss.ts";
import { coshSinhc } from "../numerics/coshSinhc.ts";

const loss = new Float64Array(2);
const exponential = new Float64Array(4);

/** The air at one complex angular frequency, in the combinations the cone needs. */
export class Medium {
  /** jωρ/π */
  massRe = 0;
  massIm = 0;
  /** jωπ/(ρc²) */
  springRe = 0;
  springIm = 0;
  /** s/a² = ωρ/μ, divided by the square of the wall-loss factor (boundary layers that much thicker) */
  viscousRe = 0;
  viscousIm = 0;
  readonly prandtl: number;
  readonly heat: number;

  constructor(
    readonly air: Air,
    readonly wallLossFactor: number,
  ) {
    this.prandtl = air.prandtl;
    this.heat = air.heatRatio - 1;
  }

  /** Sets what all places share at a complex angular frequency, rad/s. */
  setFrequency(omegaRe: number, omegaIm: number): void {
    const { density, soundSpeed, viscosity } = this.air;
    const mass = density / Math.PI;
    this.massRe = -omegaIm * mass;
    this.massIm = omegaRe * mass;
    const spring = Math.PI / (density * soundSpeed * soundSpeed);
    this.springRe = -omegaIm * spring;
    this.springIm = omegaRe * spring;
    const viscous = density / viscosity / (this.wallLossFactor * this.wallLossFactor);
    this.viscousRe = omegaRe * viscous;
    this.viscousIm = omegaIm * viscous;
  }
}

/** What the bore at one radius contributes, whatever the cone's slope. Five complex numbers. */
export class Station {
  radius = -1;
  medium: Medium | null = null;
  zetaRe = 0;
  zetaIm = 0;
  /** 1/ζ */
  inverseZetaRe = 0;
  inverseZetaIm = 0;
  /** κ's slope-free part */
  kappaRe = 0;
  kappaIm = 0;
  /** a d(1/ζ)/da */
  inverseZetaSlopeRe = 0;
  inverseZetaSlopeIm = 0;

  /** Puts the station at a radius, m, in a medium whose frequency is set. */
  set(radius: number, medium: Medium): void {
    this.radius = radius;
    this.medium = medium;
    if (medium.viscousIm === 0) {
      this.#setAtRealFrequency(medium);
      return;
    }
    const a2 = radius * radius;
    const sRe = a2 * medium.viscousRe;
    const sIm = a2 * medium.viscousIm;
    wallLoss(sRe, sIm, loss);
    const fRe = loss[0];
    const fIm = loss[1];
    // 1/ζ = (1−F)/(jωρ/π)
    const mRe = medium.massRe;
    const mIm = medium.massIm;
    const m2 = 1 / (mRe * mRe + mIm * mIm);
    const iRe = mRe * m2;
    const iIm = -mIm * m2;
    this.inverseZetaRe = (1 - fRe) * iRe + fIm * iIm;
    this.inverseZetaIm = (1 - fRe) * iIm - fIm * iRe;
    const y2 = 1 / (this.inverseZetaRe * this.inverseZetaRe + this.inverseZetaIm * this.inverseZetaIm);
    this.zetaRe = this.inverseZetaRe * y2;
    this.zetaIm = -this.inverseZetaIm * y2;
    // dF/d ln a = 2(1−F) + z²F²/2, z² = −js
    const f2Re = fRe * fRe - fIm * fIm;
    const f2Im = 2 * fRe * fIm;
    const dRe = 2 * (1 - fRe) + 0.5 * (sIm * f2Re + sRe * f2Im);
    const dIm = -2 * fIm + 0.5 * (sIm * f2Im - sRe * f2Re);
    this.inverseZetaSlopeRe = -(dRe * iRe - dIm * iIm);
    this.inverseZetaSlopeIm = -(dRe * iIm + dIm * iRe);
    wallLoss(sRe * medium.prandtl, sIm * medium.prandtl, loss);
    const tRe = 1 + medium.heat * loss[0];
    const tIm = medium.heat * loss[1];
    this.kappaRe = medium.springRe * tRe - medium.springIm * tIm;
    this.kappaIm = medium.springRe * tIm + medium.springIm * tRe;
  }

  /** The same where jωρ/π and jωπ/(ρc²) are imaginary, with half the arithmetic: what whole bores are sampled at. */
  #setAtRealFrequency({ massIm, springIm, viscousRe, prandtl, heat }: Medium): void {
    const s = this.radius * this.radius * viscousRe;
    wallLossAtRealFrequency(s, loss);
    const fRe = loss[0];
    const fIm = loss[1];
    const i = -1 / massIm;
    this.inverseZetaRe = fIm * i;
    this.inverseZetaIm = (1 - fRe) * i;
    const y2 = 1 / (this.inverseZetaRe * this.inverseZetaRe + this.inverseZetaIm * this.inverseZetaIm);
    this.zetaRe = this.inverseZetaRe * y2;
    this.zetaIm = -this.inverseZetaIm * y2;
    const dRe = 2 * (1 - fRe) + s * fRe * fIm;
    const dIm = -2 * fIm - 0.5 * s * (fRe * fRe - fIm * fIm);
    this.inverseZetaSlopeRe = dIm * i;
    this.inverseZetaSlopeIm = -dRe * i;
    wallLossAtRealFrequency(s * prandtl, loss);
    this.kappaRe = -springIm * heat * loss[1];
    this.kappaIm = springIm * (1 + heat * loss[0]);
  }
}

/**
 * Two-port of a cone from the station `near` (entrance) to `far` (exit) over `length`, `middle` half way.
 * A cylinder may have a negative length (a slide pushed in) and needs `near` alone.
 * @param out eight doubles at `at`
 */
export function coneTwoPort(
  near: Station,
  middle: Station,
  far: Station,
  length: number,
  out: Float64Array,
  at = 0,
): void {
  const r0 = near.radius;
  const r1 = far.radius;
  const m = (r1 - r0) / length;
  let zRe = near.zetaRe * length;
  let zIm = near.zetaIm * length;
  let kRe = near.kappaRe * length;
  let kIm = near.kappaIm * length;
  let dRe = 0;
  let dIm = 0;
  if (m !== 0) {
    const n = (m / r0) ** 2;
    const k0Re = near.kappaRe + n * near.inverseZetaSlopeRe;
    const k0Im = near.kappaIm + n * near.inverseZetaSlopeIm;
    const h = (m / middle.radius) ** 2;
    const kmRe = middle.kappaRe + h * middle.inverseZetaSlopeRe;
    const kmIm = middle.kappaIm + h * middle.inverseZetaSlopeIm;
    const f = (m / r1) ** 2;
    const k1Re = far.kappaRe + f * far.inverseZetaSlopeRe;
    const k1Im = far.kappaIm + f * far.inverseZetaSlopeIm;
    const sixth = length / 6;
    zRe = sixth * (near.zetaRe + 4 * middle.zetaRe + far.zetaRe);
    zIm = sixth * (near.zetaIm + 4 * middle.zetaIm + far.zetaIm);
    kRe = sixth * (k0Re + 4 * kmRe + k1Re);
    kIm = sixth * (k0Im + 4 * kmIm + k1Im);
    const dzRe = far.zetaRe - near.zetaRe;
    const dzIm = far.zetaIm - near.zetaIm;
    const dkRe = k1Re - k0Re;
    const dkIm = k1Im - k0Im;
    const twelfth = -length / 12;
    dRe = twelfth * (zRe * dkRe - zIm * dkIm - kRe * dzRe + kIm * dzIm);
    dIm = twelfth * (zRe * dkIm + zIm * dkRe - kRe * dzIm - kIm * dzRe);
  }
  exponential[0] = dRe * dRe - dIm * dIm + zRe * kRe - zIm * kIm;
  exponential[1] = 2 * dRe * dIm + zRe * kIm + zIm * kRe;
  coshSinhc(exponential);
  const chRe = exponential[0];
  const chIm = exponential[1];
  const shRe = exponential[2];
  const shIm = exponential[3];
  // exp(−Ω): from the exit back to the entrance
  const sdRe = dRe * shRe - dIm * shIm;
  const sdIm = dRe * shIm + dIm * shRe;
  const e11Re = chRe - sdRe;
  const e11Im = chIm - sdIm;
  const e22Re = chRe + sdRe;
  const e22Im = chIm + sdIm;
  const e12Re = -(zRe * shRe - zIm * shIm);
  const e12Im = -(zRe * shIm + zIm * shRe);
  const e21Re = -(kRe * shRe - kIm * shIm);
  const e21Im = -(kRe * shIm + kIm * shRe);
  // [p,U] = [[1/a, 0], [m/ζ, −a]] [ψ,w] at the entrance, [ψ,w] = [[a, 0], [m/ζ, −1/a]] [p,U] at the exit
  const g1Re = m * far.inverseZetaRe;
  const g1Im = m * far.inverseZetaIm;
  const g0Re = m * near.inverseZetaRe;
  const g0Im = m * near.inverseZetaIm;
  // Q = exp(−Ω)·[[r1, 0], [g1, −1/r1]]
  const q11Re = e11Re * r1 + e12Re * g1Re - e12Im * g1Im;
  const q11Im = e11Im * r1 + e12Re * g1Im + e12Im * g1Re;
  const q12Re = -e12Re / r1;
  const q12Im = -e12Im / r1;
  const q21Re = e21Re * r1 + e22Re * g1Re - e22Im * g1Im;
  const q21Im = e21Im * r1 + e22Re * g1Im + e22Im * g1Re;
  const q22Re = -e22Re / r1;
  const q22Im = -e22Im / r1;
  out[at] = q11Re / r0;
  out[at + 1] = q11Im / r0;
  out[at + 2] = q12Re / r0;
  out[at + 3] = q12Im / r0;
  out[at + 4] = g0Re * q11Re - g0Im * q11Im - r0 * q21Re;
  out[at + 5] = g0Re * q11Im + g0Im * q11Re - r0 * q21Im;
  out[at + 6] = g0Re * q12Re - g0Im * q12Im - r0 * q22Re;
  out[at + 7] = g0Re * q12Im + g0Im * q12Re - r0 * q22Im;
}
