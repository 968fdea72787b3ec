/**
 * What a report recommends: only a gap that was planned, or that a blind trial found, and on what that rests. Where the
 * slider stands is a view, never a recommendation.
 */
import { isSameGap } from "../../setup/setup.ts";
import type { TrialFinding } from "../../trial/finding.ts";

/** A preference is told to a tenth of a mm: closer than half of that, two gaps are the same. */
const PREFERENCE_MM = 0.05;

/** What a blind trial says of a gap. */
export type TrialOnGap = "not-played" | "measured" | "undecided" | "agrees" | "prefers-another";

export type Recommendation =
  | { readonly kind: "planned" | "preferred"; readonly gapMm: number; readonly trial: TrialOnGap }
  | {
      readonly kind: "none";
      /** `as-it-is`: the gap measured is the one planned or preferred already. */
      readonly because: "nothing-planned" | "as-it-is" | "no-difference";
    };

export interface RecommendationQuestion {
  readonly measuredGapMm: number;
  /** Of a plan that can be carried out; null where there is none. */
  readonly plannedGapMm: number | null;
  readonly trial: TrialFinding | null;
  /** A trial was played that takes decide, and no preference. */
  readonly isMeasured: boolean;
  /** Whether the model finds every change from the measured gap too small to notice; null while it is not known. */
  readonly isTooSmall: boolean | null;
}

/** What a finding says of a gap. */
export function trialOnGap(trial: TrialFinding | null, gapMm: number): TrialOnGap {
  if (!trial) return "not-played";
  const { preferredGapMm, intervalMm } = trial;
  if (!trial.isDecided || preferredGapMm === null) return "undecided";
  const [low, high] = intervalMm ?? [preferredGapMm, preferredGapMm];
  return gapMm > low - PREFERENCE_MM && gapMm < high + PREFERENCE_MM ? "agrees" : "prefers-another";
}

export function recommendation({
  measuredGapMm,
  plannedGapMm,
  trial,
  isMeasured,
  isTooSmall,
}: RecommendationQuestion): Recommendation {
  const toGapMm = plannedGapMm ?? trial?.preferredGapMm ?? null;
  if (toGapMm === null)
    return { kind: "none", because: trial && !trial.isDecided ? "no-difference" : "nothing-planned" };
  const kind = plannedGapMm === null ? "preferred" : "planned";
  const isThere =
    isSameGap(toGapMm, measuredGapMm) ||
    (kind === "preferred" && trialOnGap(trial, measuredGapMm) === "agrees");
  if (isThere) return { kind: "none", because: "as-it-is" };
  // the player could not tell gaps apart and the model finds nothing to notice: nothing asks for work
  if (trial && !trial.isDecided && isTooSmall) return { kind: "none", because: "no-difference" };
  return { kind, gapMm: toGapMm, trial: trial || !isMeasured ? trialOnGap(trial, toGapMm) : "measured" };
}
