/**
 * A two-port at one frequency, [p, U] at its entrance = [[A, B], [C, D]] · [p, U] at its exit, U flowing from entrance to
 * exit. Stored as eight doubles, re and im of A, B, C, D; a state [p, U] as four. det = 1 wherever the air is the same at
 * both ends (reciprocity).
 */

export const TWO_PORT = 8;
export const STATE = 4;

/** Y ← X·Y for two-ports, Y at `yo`. */
export function cascadeOnto(y: Float64Array, x: Float64Array, yo = 0): void {
  const ar = x[0];
  const ai = x[1];
  const br = x[2];
  const bi = x[3];
  const cr = x[4];
  const ci = x[5];
  const dr = x[6];
  const di = x[7];
  for (let at = yo; at < yo + 4; at += 2) {
    const er = y[at];
    const ei = y[at + 1];
    const gr = y[at + 4];
    const gi = y[at + 5];
    y[at] = ar * er - ai * ei + br * gr - bi * gi;
    y[at + 1] = ar * ei + ai * er + br * gi + bi * gr;
    y[at + 4] = cr * er - ci * ei + dr * gr - di * gi;
    y[at + 5] = cr * ei + ci * er + dr * gi + di * gr;
  }
}

/** state ← X·state. */
export function applyTo(state: Float64Array, x: Float64Array, xo = 0, so = 0): void {
  const pr = state[so];
  const pi = state[so + 1];
  const ur = state[so + 2];
  const ui = state[so + 3];
  state[so] = x[xo] * pr - x[xo + 1] * pi + x[xo + 2] * ur - x[xo + 3] * ui;
  state[so + 1] = x[xo] * pi + x[xo + 1] * pr + x[xo + 2] * ui + x[xo + 3] * ur;
  state[so + 2] = x[xo + 4] * pr - x[xo + 5] * pi + x[xo + 6] * ur - x[xo + 7] * ui;
  state[so + 3] = x[xo + 4] * pi + x[xo + 5] * pr + x[xo + 6] * ui + x[xo + 7] * ur;
}

/** X⁻¹ of a two-port whose determinant is 1. */
export const inverse = ([aRe, aIm, bRe, bIm, cRe, cIm, dRe, dIm]: Float64Array): Float64Array =>
  Float64Array.of(dRe, dIm, -bRe, -bIm, -cRe, -cIm, aRe, aIm);

/** Writes the two-port that changes nothing, eight doubles at `xo`. */
export function setIdentity(x: Float64Array, xo = 0): void {
  x.fill(0, xo, xo + TWO_PORT);
  x[xo] = 1;
  x[xo + 6] = 1;
}
