/**
 * Where a function crosses 0 between two places at which it has different signs, by Chandrupatla 1997 (Adv. Eng. Softw. 28,
 * 145): inverse quadratic interpolation where its two conditions promise that it helps, halving elsewhere, and wherever a
 * value is not finite. Always between the two; some ten values where halving needs fifty.
 */

/**
 * @param f its sign decides; 0 counts as below
 * @param from one place, and its value there
 * @param to another, with a value of the other sign
 * @param tolerance of the place, relative to it
 * @returns the side of the crossing at which |f| is smaller, within twice the tolerance of the other
 */
export function crossing(
  f: (x: number) => number,
  [from, fFrom]: readonly [number, number],
  [to, fTo]: readonly [number, number],
  tolerance: number,
): number {
  // the newest place, the one across from it, and the one before
  let [x1, f1] = [to, fTo];
  let [x2, f2] = [from, fFrom];
  let t = 0.5;
  for (;;) {
    const x = x1 + t * (x2 - x1);
    const fx = f(x);
    let x3 = x1;
    let f3 = f1;
    if (fx > 0 !== f1 > 0) [x3, f3, x2, f2] = [x2, f2, x1, f1];
    [x1, f1] = [x, fx];
    const [nearest, miss] = Math.abs(f1) < Math.abs(f2) ? [x1, f1] : [x2, f2];
    const least = (tolerance * Math.abs(nearest)) / Math.abs(x2 - x1);
    if (miss === 0 || !(least < 0.5)) return nearest;
    const xi = (x1 - x2) / (x3 - x2);
    const phi = (f1 - f2) / (f3 - f2);
    const helps = phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi;
    const aimed = helps
      ? (f1 * f3) / ((f2 - f1) * (f2 - f3)) + (((x3 - x1) / (x2 - x1)) * f1 * f2) / ((f3 - f1) * (f3 - f2))
      : 0.5;
    t = Math.min(1 - least, Math.max(least, Number.isFinite(aimed) ? aimed : 0.5));
  }
}
