/** A setup's own diameters and tapers held against a gap: the setup's, or one read at the bench. */
import type { Setup } from "../../setup/setup.ts";
import { type Contradiction, contradiction, type GapGivenBy } from "./contradiction.ts";
import type { FitUncertainties } from "./fitDimensions.ts";
import { fitUncertainty } from "./fitUncertainty.ts";

export interface GivenGap {
  readonly gapMm: number;
  /** The depth it was measured with; the setup's where it is not another. */
  readonly depthMm?: number;
  readonly givenBy: GapGivenBy;
  /** U at 95 %. */
  readonly expandedMm: number | undefined;
}

/** Undefined where they go together, or too little is known. */
export function setupContradiction(
  { mouthpiece, receiver, uncertainties }: Setup,
  { gapMm, depthMm = receiver.depthMm, givenBy, expandedMm }: GivenGap,
): Contradiction | undefined {
  const { shankEndDiameterMm, shankTaper = receiver.taper } = mouthpiece;
  const { mouthDiameterMm, taper: receiverTaper } = receiver;
  if (shankEndDiameterMm === undefined) return undefined;
  // the depth is the same in both gaps, and so is its error
  const known: FitUncertainties = Object.fromEntries(
    Object.entries({
      shankEndDiameterMm: uncertainties["mouthpiece.shankEndDiameter"],
      shankTaper: uncertainties["mouthpiece.shankTaper"],
      mouthDiameterMm: uncertainties["receiver.mouthDiameter"],
      receiverTaper: uncertainties["receiver.taper"],
    }).flatMap(([name, uncertainty]) => (uncertainty ? [[name, uncertainty.standard]] : [])),
  );
  const dimensions = { shankEndDiameterMm, shankTaper, mouthDiameterMm, receiverTaper, depthMm };
  const foreseen = Math.max(shankTaper, receiverTaper) > 0 ? fitUncertainty(dimensions, known) : undefined;
  return contradiction({
    gapMm,
    givenBy,
    depthMm,
    endDiameterMm: shankEndDiameterMm,
    mouthDiameterMm,
    shankTaper,
    receiverTaper,
    expandedUncertaintyMm: Math.hypot(expandedMm ?? 0, 2 * (foreseen?.standardUncertaintyMm ?? 0)),
  });
}
