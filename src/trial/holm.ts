/** Holm's correction of several tests at once (Holm 1979, Scand. J. Stat. 6, 65): each p as if it had been the only one asked. */
export function holm(ps: readonly number[]): number[] {
  const order = ps.map((_, i) => i).sort((a, b) => ps[a] - ps[b]);
  const adjusted = new Array<number>(ps.length);
  let largest = 0;
  order.forEach((at, i) => {
    largest = Math.max(largest, Math.min(1, (ps.length - i) * ps[at]));
    adjusted[at] = largest;
  });
  return adjusted;
}
