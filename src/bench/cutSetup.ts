/** The question of a cut from a setup: its gap, shank and receiver. */
import { gapMm, type Setup } from "../setup/setup.ts";
import type { CutQuestion } from "./cut.ts";

/** @param asked what the setup does not hold; a gap in it was measured and stands instead of the setup's own */
export function cutQuestion(
  setup: Setup,
  asked: Omit<CutQuestion, "gapMm" | "shank" | "receiver"> & { readonly gapMm?: number },
): CutQuestion {
  const { profileMm, shankEndDiameterMm, shankTaper } = setup.mouthpiece;
  return {
    gapMm: gapMm(setup),
    ...asked,
    shank: {
      boreMm: profileMm,
      ...(shankEndDiameterMm !== undefined && { endDiameterMm: shankEndDiameterMm }),
      ...(shankTaper !== undefined && { taper: shankTaper }),
    },
    receiver: setup.receiver,
  };
}
