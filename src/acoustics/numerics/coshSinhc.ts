/** What the exponential of a traceless 2×2 matrix takes: exp(Ω) = cosh θ + Ω sinh θ/θ, θ² = −det Ω. */

/**
 * cosh √t and sinh √t/√t of complex t.
 * @param out four doubles, t in the first two: a number handed over in a call would be put on the heap
 */
export function coshSinhc(out: Float64Array): void {
  const tRe = out[0];
  const tIm = out[1];
  if (Math.abs(tRe) + Math.abs(tIm) < 0.5) {
    // Taylor to t⁶/12!: 1e-17 at |t| = ½
    let cRe = 1 / 479001600;
    let cIm = 0;
    let sRe = 1 / 6227020800;
    let sIm = 0;
    for (let k = 5; k >= 0; k--) {
      let x = cRe * tRe - cIm * tIm + COSH[k];
      cIm = cRe * tIm + cIm * tRe;
      cRe = x;
      x = sRe * tRe - sIm * tIm + SINHC[k];
      sIm = sRe * tIm + sIm * tRe;
      sRe = x;
    }
    out[0] = cRe;
    out[1] = cIm;
    out[2] = sRe;
    out[3] = sIm;
    return;
  }
  const size = Math.sqrt(tRe * tRe + tIm * tIm);
  let re: number;
  let im: number;
  if (tRe >= 0) {
    re = Math.sqrt((size + tRe) / 2);
    im = tIm / (2 * re);
  } else {
    im = Math.sqrt((size - tRe) / 2);
    re = tIm / (2 * im);
  }
  const ch = Math.cosh(re);
  const sh = Math.sinh(re);
  const co = Math.cos(im);
  const si = Math.sin(im);
  out[0] = ch * co;
  out[1] = sh * si;
  const nRe = sh * co;
  const nIm = ch * si;
  out[2] = (nRe * re + nIm * im) / size;
  out[3] = (nIm * re - nRe * im) / size;
}
const COSH = Float64Array.of(1, 1 / 2, 1 / 24, 1 / 720, 1 / 40320, 1 / 3628800);
const SINHC = Float64Array.of(1, 1 / 6, 1 / 120, 1 / 5040, 1 / 362880, 1 / 39916800);
