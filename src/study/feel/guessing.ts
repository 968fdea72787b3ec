/** Right guesses of one of two, held against blind luck: the binomial distribution with p = 1/2. */

/** Chance that who only guesses gets at least so many right. */
export function chanceByGuessing(right: number, of: number): number {
  let term = 0.5 ** of;
  let below = 0;
  for (let k = 0; k < right; k++) {
    below += term;
    term *= (of - k) / (k + 1);
  }
  return Math.max(0, 1 - below);
}
