/**
 * What a trial found, as plain data. Preference decides, by one test: undecided unless its permutation test has p < 0.05,
 * so a player who guesses is believed in at most 5 % of trials.
 */
import type { LengthUnit } from "../units/length.ts";
import { itemMeans } from "./itemMeans.ts";
import { permutationTest } from "./permutation.ts";
import { ERROR_RATE } from "./power.ts";
import { type PreferenceCurve, preferenceCurve } from "./preference.ts";
import { ranking } from "./ranking.ts";
import { cannotTell, isMisfit, isOneGapBest, preferredGap, preferredItem } from "./sentence.ts";
import { FEWEST_REPEATS, isRated, ratingBlocks, type Trial, type TrialItem } from "./trial.ts";

/** With how it was liked. */
export interface FoundItem extends TrialItem {
  /** Mean preference over the repeats, 0 to 100. */
  readonly preference: number;
}

export interface TrialFinding {
  /** In plain words, lengths in the unit asked for. */
  readonly sentence: string;
  /** Whether the player told the items apart by preference (p < 0.05). */
  readonly isDecided: boolean;
  /** Of the permutation test on preference. */
  readonly p: number;
  /** null where nothing was decided, where the items are no gaps, or where no curve singles out one of them. */
  readonly preferredGapMm: number | null;
  /** Of the preferred gap, 95 %. */
  readonly intervalMm: readonly [low: number, high: number] | null;
  readonly items: readonly FoundItem[];
  /** That were wholly rated, and so count. */
  readonly repeats: number;
  readonly player: string;
  /** What the player wrote, by place of the item among `items`. */
  readonly remarks: readonly { readonly item: number; readonly text: string }[];
  /** `early`: before all was rated; `again`: all rated, but the codes had been seen before. */
  readonly opened: "complete" | "early" | "again";
}

/** null while the trial is sealed, or where fewer than two repeats were wholly rated. */
export function trialFinding(trial: Trial | null, unit: LengthUnit): TrialFinding | null {
  if (!trial || trial.opened === "sealed") return null;
  const blocks = ratingBlocks(trial, "preference");
  if (blocks.length < FEWEST_REPEATS) return null;
  const { p } = permutationTest(blocks);
  const isDecided = p < ERROR_RATE;
  const curve = isDecided ? curveOf(trial, blocks) : null;
  const best = curve && isOneGapBest(curve) ? curve : null;
  let sentence = cannotTell(trial.items, unit);
  if (curve && !isMisfit(curve)) sentence = preferredGap(curve, unit);
  else if (isDecided) sentence = preferredItem(trial.items, ranking(blocks), unit);
  return {
    sentence,
    isDecided,
    p,
    preferredGapMm: best?.bestGapMm ?? null,
    intervalMm: best?.intervalMm ?? null,
    items: itemMeans(blocks).map((preference, i) => ({ ...trial.items[i], preference })),
    repeats: blocks.length,
    player: trial.player,
    remarks: trial.turns
      .filter(({ remark }) => remark !== "")
      .map(({ item, remark }) => ({ item, text: remark })),
    opened: trial.opened === "complete" ? "complete" : trial.turns.every(isRated) ? "again" : "early",
  };
}

/** Preference by gap; null where the items are not all gaps. */
export function curveOf({ items }: Trial, blocks: readonly (readonly number[])[]): PreferenceCurve | null {
  const gapsMm = items.flatMap(({ gapMm }) => (gapMm === null ? [] : [gapMm]));
  return gapsMm.length === items.length ? preferenceCurve(gapsMm, blocks) : null;
}
