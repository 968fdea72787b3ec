/** The question of a cut from a setup: its gap and how well that is known, shank and receiver. */
import { gapMm, type Setup } from "../../setup/setup.ts";
import { coverageFactor } from "../measure/coverage.ts";
import { gapUncertainty } from "../measure/gapUncertainty.ts";
import type { CutQuestion } from "./cutQuestion.ts";

/**
 * The question of a cut, its dimensions and their uncertainties taken from a setup.
 * @param asked what the setup does not hold; a gap or an uncertainty in it was measured and stands instead of the setup's
 * own: the setup knows nothing of how well another gap is known
 */
export function cutQuestion(
  setup: Setup,
  asked: Omit<CutQuestion, "gapMm" | "shank" | "receiver"> & { readonly gapMm?: number },
): CutQuestion {
  const { profileMm, shankEndDiameterMm, shankTaper } = setup.mouthpiece;
  const isOwn = asked.gapMm === undefined && asked.standardUncertaintyMm === undefined;
  return {
    gapMm: gapMm(setup),
    ...(isOwn && ownUncertainty(setup)),
    ...asked,
    shank: {
      boreMm: profileMm,
      ...(shankEndDiameterMm !== undefined && { endDiameterMm: shankEndDiameterMm }),
      ...(shankTaper !== undefined && { taper: shankTaper }),
    },
    receiver: setup.receiver,
  };
}

function ownUncertainty(setup: Setup): Pick<CutQuestion, "standardUncertaintyMm" | "coverageFactor"> {
  const known = gapUncertainty(setup, coverageFactor);
  return known.standardMm === undefined || known.coverageFactor === undefined
    ? {}
    : { standardUncertaintyMm: known.standardMm, coverageFactor: known.coverageFactor };
}
