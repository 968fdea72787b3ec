/** What a finding is called. */
import type { ResistanceFinding } from "../../study/blown/resistanceChange.ts";
import type { Finding } from "../../study/change/verdicts.ts";
import type { SlotWidthFinding } from "../../study/feel/slotChange.ts";

/** Of any change below what a player is assumed to notice. */
export const TOO_SMALL = "too small to notice";

/** Beside a rule of thumb. */
export const FINDING: Readonly<Record<Finding, string>> = {
  agrees: "agrees",
  disagrees: "disagrees",
  mixed: "no overall change",
  "too-small": TOO_SMALL,
  unknown: "too uncertain to say",
  "not-for-a-model": "no calculation can answer this",
  "same-gap": "same gap",
  "not-possible": "not possible here",
};

/** Of how firmly a note slots. */
export const HOLD_FINDING: Readonly<Record<SlotWidthFinding, string>> = {
  firmer: "firmer",
  looser: "looser",
  "too-small": TOO_SMALL,
  "depends-on-lips": "depends on the lips",
  "both-ways": "no overall change",
};

/** Of a pressure drop, beside the rule that wider is more. */
export const RESISTANCE_FINDING: Readonly<Record<ResistanceFinding, string>> = {
  agrees: "agrees",
  disagrees: "disagrees",
  "too-small": TOO_SMALL,
  unknown: "too uncertain to say",
  "same-gap": "same gap",
};

/** The same within a sentence. */
export const RESISTANCE_PHRASE: Readonly<Record<ResistanceFinding, string>> = {
  agrees: "the rule of thumb is right",
  disagrees: "the rule of thumb is wrong here",
  "too-small": TOO_SMALL,
  unknown: "too uncertain to say",
  "same-gap": "the same gap",
};
