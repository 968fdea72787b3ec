/** What finished trials found, each worked out once: some tenths of a second, and a finished trial does not change. */
import { type TrialFinding, trialFinding } from "../../../trial/finding.ts";
import type { Trial } from "../../../trial/trial.ts";

const findings = new WeakMap<Trial, TrialFinding | null>();

/** null where too little was rated for any. */
export function findingOf(trial: Trial): TrialFinding | null {
  if (!findings.has(trial)) findings.set(trial, trialFinding(trial));
  return findings.get(trial)!;
}

/** What is worked out already; undefined where it is not. */
export const knownFinding = (trial: Trial): TrialFinding | null | undefined => findings.get(trial);
