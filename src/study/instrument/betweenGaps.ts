/** What a sweep says at any gap within it: by a straight line between its neighbours, as the charts draw it. */
import type { GapSweep } from "./gapSweep.ts";

export interface ModeBetween {
  readonly n: number;
  readonly shiftCents: number;
  /** Null where one of the neighbours has no peak. */
  readonly heightDb: number | null;
}

/** Null beyond the sweep's ends. */
export function betweenGaps({ rows }: GapSweep, gapMm: number): readonly ModeBetween[] | null {
  const next = rows.findIndex((row) => row.gapMm >= gapMm);
  if (next < 0 || (next === 0 && rows[0].gapMm > gapMm)) return null;
  const [below, above] = [rows[Math.max(0, next - 1)], rows[next]];
  const share = above === below ? 0 : (gapMm - below.gapMm) / (above.gapMm - below.gapMm);
  const between = (low: number, high: number) => low + share * (high - low);
  return above.modes.flatMap((mode) => {
    const other = below.modes.find(({ n }) => n === mode.n);
    if (!other) return [];
    const heightDb =
      mode.heightDb === null || other.heightDb === null ? null : between(other.heightDb, mode.heightDb);
    return [{ n: mode.n, shiftCents: between(other.shiftCents, mode.shiftCents), heightDb }];
  });
}
