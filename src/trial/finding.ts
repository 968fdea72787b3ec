/**
 * What a trial found, as plain data. Preference decides, by one test: undecided unless its permutation test has p < 0.05,
 * so a player who guesses is believed in at most 5 % of trials.
 */
import { itemMeans } from "./itemMeans.ts";
import { permutationTest } from "./permutation.ts";
import { ERROR_RATE } from "./power.ts";
import { isMisfit, isOneGapBest, type PreferenceCurve, preferenceCurve } from "./preference.ts";
import { type RankedItem, ranking } from "./ranking.ts";
import { FEWEST_REPEATS, isRated, ratingBlocks, type Trial, type TrialItem } from "./trial.ts";

/** With how it was liked. */
export interface FoundItem extends TrialItem {
  /** Mean preference over the repeats, 0 to 100. */
  readonly preference: number;
}

/** What the trial allows to be said: nothing, by the curve through the gaps, or item by item, best first. */
export type TrialSaid =
  | { readonly kind: "undecided" }
  | { readonly kind: "curve"; readonly curve: PreferenceCurve }
  | { readonly kind: "ranking"; readonly ranked: readonly RankedItem[] };

export interface TrialFinding {
  readonly said: TrialSaid;
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
export function trialFinding(trial: Trial | null): TrialFinding | null {
  if (!trial || trial.opened === "sealed") return null;
  const blocks = ratingBlocks(trial, "preference");
  if (blocks.length < FEWEST_REPEATS) return null;
  const { p } = permutationTest(blocks);
  const isDecided = p < ERROR_RATE;
  const curve = isDecided ? curveOf(trial, blocks) : null;
  const best = curve && isOneGapBest(curve) ? curve : null;
  let said: TrialSaid = { kind: "undecided" };
  if (curve && !isMisfit(curve)) said = { kind: "curve", curve };
  else if (isDecided) said = { kind: "ranking", ranked: ranking(blocks) };
  return {
    said,
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
