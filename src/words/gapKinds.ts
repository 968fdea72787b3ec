/** Which gap is meant, in a word or two: what is said beside every length that is called a gap. */
import { gapProvenance } from "../setup/dimension/provenance.ts";
import { gapMm, isSameGap, type Setup } from "../setup/setup.ts";

/** `measured`, `file` and `assumed` are the setup's own, by where its depth and insertion come from. */
export type GapKind = "measured" | "file" | "assumed" | "foreseen" | "what-if" | "planned" | "preferred";

export const GAP_KIND: Readonly<Record<GapKind, string>> = {
  measured: "measured",
  file: "from the file",
  assumed: "assumed, not measured",
  foreseen: "predicted",
  "what-if": "what if",
  planned: "planned",
  preferred: "preferred",
};

/** The setup's own gap is as it was come by; any other is a what-if. */
export const gapKind = (setup: Setup, atGapMm: number): GapKind =>
  isSameGap(atGapMm, gapMm(setup)) ? gapProvenance(setup) : "what-if";

/** `measured`, `from the file`, `what if` … */
export const gapKindWords = (setup: Setup, atGapMm: number): string => GAP_KIND[gapKind(setup, atGapMm)];
