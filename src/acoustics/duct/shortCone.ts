/**
 * A lossy cone that is short against the wavelength, between radii a₀ and a₁ over length h, in pressure and flow themselves:
 *
 *   p' = −Z_v U,   U' = −Y_t p,   Z_v = ζ/a²,   Y_t = κa²   (ζ and κ of `cone.ts` without the slope's part)
 *
 * No slope occurs here. In `cone.ts` it does, and its terms mψ/ζ at the two ends cancel but for a thousandth where a cone is steep,
 * short and slow, as where a cup runs into its throat: at 40 Hz half a millimetre of that took 128 steps. Here what varies does
 * so as a^∓2, times kh, which is small: it takes 8. The same fourth-order Magnus step, Ω = [[δ, Z̄h], [Ȳh, −δ]] from the exit to
 * the entrance, δ = (h²/12)(Z̄ΔY − ȲΔZ).
 */
import { coshSinhc } from "../numerics/coshSinhc.ts";
import type { Station } from "./cone.ts";

const exponential = new Float64Array(4);

/**
 * Two-port of a cone from the station `near` (entrance) to `far` (exit) over `length`, `middle` half way.
 * @param out eight doubles
 */
export function shortConeTwoPort(
  near: Station,
  middle: Station,
  far: Station,
  length: number,
  out: Float64Array,
): void {
  const a0 = near.radius * near.radius;
  const am = middle.radius * middle.radius;
  const a1 = far.radius * far.radius;
  const z0Re = near.zetaRe / a0;
  const z0Im = near.zetaIm / a0;
  const z1Re = far.zetaRe / a1;
  const z1Im = far.zetaIm / a1;
  const y0Re = near.kappaRe * a0;
  const y0Im = near.kappaIm * a0;
  const y1Re = far.kappaRe * a1;
  const y1Im = far.kappaIm * a1;
  const sixth = length / 6;
  const zRe = sixth * (z0Re + (4 / am) * middle.zetaRe + z1Re);
  const zIm = sixth * (z0Im + (4 / am) * middle.zetaIm + z1Im);
  const yRe = sixth * (y0Re + 4 * am * middle.kappaRe + y1Re);
  const yIm = sixth * (y0Im + 4 * am * middle.kappaIm + y1Im);
  const dzRe = z1Re - z0Re;
  const dzIm = z1Im - z0Im;
  const dyRe = y1Re - y0Re;
  const dyIm = y1Im - y0Im;
  const twelfth = length / 12;
  const dRe = twelfth * (zRe * dyRe - zIm * dyIm - yRe * dzRe + yIm * dzIm);
  const dIm = twelfth * (zRe * dyIm + zIm * dyRe - yRe * dzIm - yIm * dzRe);
  exponential[0] = dRe * dRe - dIm * dIm + zRe * yRe - zIm * yIm;
  exponential[1] = 2 * dRe * dIm + zRe * yIm + zIm * yRe;
  coshSinhc(exponential);
  const chRe = exponential[0];
  const chIm = exponential[1];
  const shRe = exponential[2];
  const shIm = exponential[3];
  const sdRe = dRe * shRe - dIm * shIm;
  const sdIm = dRe * shIm + dIm * shRe;
  out[0] = chRe + sdRe;
  out[1] = chIm + sdIm;
  out[2] = zRe * shRe - zIm * shIm;
  out[3] = zRe * shIm + zIm * shRe;
  out[4] = yRe * shRe - yIm * shIm;
  out[5] = yRe * shIm + yIm * shRe;
  out[6] = chRe - sdRe;
  out[7] = chIm - sdIm;
}
