/** What is said before a cut of the blind trial: whether one was played, and what it found. */
import type { KeptTake } from "../../listen/keptTake.ts";
import type { MeasuredOutcome } from "../../study/listened/measuredTrial.ts";
import type { TrialFinding } from "../../trial/finding.ts";
import type { Trial } from "../../trial/trial.ts";
import type { LengthUnit } from "../../units/length.ts";
import { standingText } from "./listed.ts";
import { measuredOutcomeWords } from "./measuredTrial.ts";
import { TOO_LITTLE, trialSentence } from "./sentence.ts";

/**
 * @param last the one finished last, with what it found; null: none was
 * @param sealed one that is being played; null: none is
 */
export function trialBeforeCut(
  last: {
    readonly trial: Trial;
    readonly finding: TrialFinding | null;
    readonly measured: MeasuredOutcome | null;
  } | null,
  sealed: Trial | null,
  takes: readonly KeptTake[],
  unit: LengthUnit,
): string {
  if (last) {
    const { trial, finding, measured } = last;
    const rated = finding ? [trialSentence(finding, unit)] : measured ? [] : [TOO_LITTLE];
    const said = [...(measured ? measuredOutcomeWords(measured, unit) : []), ...rated].join(" ");
    return `A blind trial was played, ${standingText(trial, takes)}. ${said}`;
  }
  if (sealed)
    return `A blind trial is under way (${standingText(sealed, takes)}). Finish it before anything is cut.`;
  return "No blind trial was played in this job. Let the player try gaps blind first: a cut cannot be undone.";
}
