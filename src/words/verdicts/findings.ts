/** What a finding is called. */
import type { ResistanceFinding } from "../../study/blown/resistanceChange.ts";
import type { Finding } from "../../study/change/verdicts.ts";
import type { SlotWidthFinding } from "../../study/feel/slotChange.ts";

/** Beside a rule of thumb. */
export const FINDING: Readonly<Record<Finding, string>> = {
  agrees: "agrees",
  disagrees: "disagrees",
  "agrees-in-part": "agrees in part",
  "too-small": "too small to feel",
  unknown: "not known well enough",
  "not-for-a-model": "not a question a model can answer",
  "same-gap": "same gap",
  "not-possible": "not possible here",
};

/** Of how firmly a note holds. */
export const HOLD_FINDING: Readonly<Record<SlotWidthFinding, string>> = {
  firmer: "firmer",
  looser: "looser",
  "too-small": "too small to feel",
  "depends-on-lips": "depends on the lips",
  "both-ways": "differs from note to note",
};

/** Of a pressure drop, beside the rule that wider is more. */
export const RESISTANCE_FINDING: Readonly<Record<ResistanceFinding, string>> = {
  agrees: "agrees",
  disagrees: "disagrees",
  "too-small": "too small to feel",
  unknown: "the bounds do not tell",
  "same-gap": "same gap",
};
