/** The trade's rules of thumb in the tool's own words: common practice, no source. */
import type { Verdict } from "../../study/change/verdicts.ts";

type Claim = Verdict["claim"];

export const RULE: Readonly<Record<Claim, string>> = {
  slots: "A wider gap makes notes hold more firmly in their slots.",
  resistance: "A wider gap blows with more resistance.",
  noGap: "No gap at all blows freer, as if the bore were larger.",
  tenth: "About a tenth of an inch suits most players.",
};

/** What the model's answer to a rule leaves out; null where nothing is to be said of it. */
export const LEFT_OUT: Readonly<Record<Claim, string | null>> = {
  slots:
    "Lips are modelled as one mass and looked at as a note begins; the gap's own uncertainty is not in the ranges.",
  resistance:
    "A steady stream through even edges; when a note sounds, the lips' opening takes most of the pressure.",
  noGap: null,
  tenth: null,
};
