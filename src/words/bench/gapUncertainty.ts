/** Why a setup does not know its own gap well enough to say how well. */
import type { GapUncertainty, MeasuredLength } from "../../bench/measure/gapUncertainty.ts";

const NAME: Readonly<Record<MeasuredLength, string>> = {
  "receiver.depth": "receiver depth",
  "mouthpiece.insertion": "insertion",
};

/** Of a gap whose uncertainty is not known. */
export function unknownGapWords({ missing }: GapUncertainty): string {
  if (missing.length === 0)
    return "The setup gives an uncertainty of 0 for receiver depth and insertion, which no measurement can claim.";
  if (missing.length === 1)
    return `The setup does not say how well the ${NAME[missing[0]]} is known, so the gap's uncertainty is unknown.`;
  return "The setup does not say how well receiver depth and insertion are known, so the gap's uncertainty is unknown.";
}
