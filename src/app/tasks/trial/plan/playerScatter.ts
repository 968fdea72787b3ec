/** How far a player's ratings of one and the same thing scattered, from a trial that was played. */
import { repeatability } from "../../../../trial/repeatability.ts";
import { ratingBlocks, type Trial } from "../../../../trial/trial.ts";

/**
 * Standard deviation of the preference, in whole points; null where nothing was finished, or by somebody else.
 *
 * @param player empty: nobody is named
 */
export function scatterOf(trial: Trial | null, player: string): number | null {
  if (!trial || (trial.player && player && trial.player !== player)) return null;
  const blocks = ratingBlocks(trial, "preference");
  return blocks.length < 2 ? null : Math.max(1, Math.round(repeatability(blocks).standardDeviation));
}
