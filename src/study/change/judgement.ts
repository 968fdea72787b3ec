/**
 * Whether a change would be noticed: held against the smallest difference a player is assumed to notice, and against how
 * well it is known. How well is one of three things, and each asks for its own proof:
 *
 * - a standard uncertainty propagated from the dimensions (JCGM 100:2008): the change has to be as large as the threshold
 *   and larger than its own expanded uncertainty. It is unknown where that uncertainty reaches the threshold and hides it;
 * - the values found with everything tried that nobody can measure, such as the player's lips: every one of them has to be
 *   as large as the threshold, to one side;
 * - bounds of a computation around its estimate: the estimate has to be as large as the threshold, and no bound may reach it
 *   on the other side.
 *
 * Without a doubt all three are the same: a change counts from the threshold on.
 */

/** More or less by what is noticed; smaller than that; or not to be told. */
export type Judgement = "more" | "less" | "too-small" | "unknown";

type Range = readonly [low: number, high: number];

/** How well a change is known. */
export type Doubt =
  /** U, 95 %. */
  | { readonly expanded: number }
  /** Least and greatest of all that was tried. */
  | { readonly tried: Range }
  /** Around the estimate. */
  | { readonly bounds: Range };

/** @param threshold smallest change noticed, in the change's unit */
export function judge(change: number, threshold: number, doubt: Doubt = { expanded: 0 }): Judgement {
  if ("expanded" in doubt) {
    const amount = Math.abs(change);
    if (amount >= threshold && amount > doubt.expanded) return change > 0 ? "more" : "less";
    return doubt.expanded > 0 && doubt.expanded >= Math.max(amount, threshold) ? "unknown" : "too-small";
  }
  const [low, high] = "tried" in doubt ? doubt.tried : doubt.bounds;
  if (low > -threshold && high < threshold) return "too-small";
  const [least, most] = "tried" in doubt ? doubt.tried : [change, change];
  if (least >= threshold && low > -threshold) return "more";
  if (most <= -threshold && high < threshold) return "less";
  return "unknown";
}

/** Whether there is more or less of it, by what is noticed. */
export const isDecided = (judgement: Judgement): judgement is "more" | "less" =>
  judgement === "more" || judgement === "less";

/** Whether a change that is known well enough would be noticed. */
export const isNoticeable = (change: number, threshold: number): boolean =>
  judge(change, threshold) !== "too-small";
