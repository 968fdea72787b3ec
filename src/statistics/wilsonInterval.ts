/**
 * Interval of a proportion seen as `count` of `of`, by Wilson's score (1927, J. Am. Stat. Assoc. 22, 209): the proportions
 * p with |p̂ − p| ≤ z sqrt(p(1 − p)/n). It stays within 0 to 1 and says something where nothing was seen.
 */

/** Normal quantile of 95 % in the middle. */
const Z95 = 1.959963984540054;

/** Wilson's interval of a share, `count` of `of`; 95 % where no `z` is given. */
export function wilsonInterval(count: number, of: number, z = Z95): [low: number, high: number] {
  if (of === 0) return [0, 1];
  const p = count / of;
  const z2 = (z * z) / of;
  const middle = (p + z2 / 2) / (1 + z2);
  const half = (z / (1 + z2)) * Math.sqrt((p * (1 - p)) / of + z2 / (4 * of));
  return [Math.max(0, middle - half), Math.min(1, middle + half)];
}
