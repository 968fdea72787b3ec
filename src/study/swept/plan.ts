/** Which side is to be mounted next: before and after in turn (A B A B), so that warming up and settling favour neither. */
import type { KeptSweep, Side } from "../../response/keptSweep.ts";

/** Takes of each side that a comparison wants; fewer leave its scatter a guess. */
export const WANTED = 3;

export interface SweepPlan {
  readonly next: Side;
  readonly counts: Readonly<Record<Side, number>>;
  readonly isDone: boolean;
}

/**
 * @param takes of the two gaps compared, in order
 * @param canGoBack whether the first can be mounted again: metal that was cut cannot
 */
export function sweepPlan(takes: readonly Pick<KeptSweep, "side">[], canGoBack: boolean): SweepPlan {
  const count = (side: Side) => takes.filter((take) => take.side === side).length;
  const counts = { before: count("before"), after: count("after") };
  const isDone = counts.before >= WANTED && counts.after >= WANTED;
  const isBefore = canGoBack ? counts.before <= counts.after : counts.before < WANTED && counts.after === 0;
  return { next: isBefore ? "before" : "after", counts, isDone };
}
