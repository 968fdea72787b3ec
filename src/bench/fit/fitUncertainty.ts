/**
 * The uncertainty of a gap foreseen from five dimensions, by first order (JCGM 100:2008, 5.1.2) with exact derivatives of
 *
 *   g = D − (m − d)/t,  t = max(s, r):   ∂g/∂D = 1,  ∂g/∂m = −1/t,  ∂g/∂d = 1/t,  ∂g/∂t = (m − d)/t² = i/t.
 *
 * Only the larger taper counts, and which one is the larger may not be known. Where they differ by less than twice their
 * combined uncertainty θ = √(u_s² + u_r²), the larger of two answers is taken: the first-order one, and that of equal
 * tapers, i/t·θ/√2, which is exact there: E[max(a,b)²] + E[min(a,b)²] = u_s² + u_r² and the two halves are the same.
 */
import {
  type FitDimension,
  type FitDimensions,
  type FitUncertainties,
  fitDimensions,
} from "./fitDimensions.ts";
import { seatTaper } from "./seat.ts";

export type FitSensitivities = Readonly<Record<FitDimension, number>>;

export interface FitBudgetRow {
  readonly dimension: FitDimension;
  readonly standardUncertainty: number;
  /** Change of gap per change of dimension: mm per mm, or mm per unit of taper. */
  readonly sensitivity: number;
  /** |sensitivity| × uncertainty, mm. */
  readonly contributionMm: number;
  /** 0 to 1; the shares sum to 1. */
  readonly varianceShare: number;
}

export interface FitUncertainty {
  readonly standardUncertaintyMm: number;
  readonly budget: readonly FitBudgetRow[];
  /** False where the tapers are too close, for their uncertainties, to say which end touches. */
  readonly isTouchKnown: boolean;
}

/** ∂gap/∂dimension where the shank is seated. At equal tapers each has half, the mean of its two one-sided derivatives. */
export function gapSensitivities(dimensions: FitDimensions): FitSensitivities {
  const { shankEndDiameterMm, shankTaper, mouthDiameterMm, receiverTaper } = dimensions;
  const t = seatTaper(shankTaper, receiverTaper);
  const perTaper = (mouthDiameterMm - shankEndDiameterMm) / t ** 2;
  const shankPart = shankTaper === receiverTaper ? 0.5 : shankTaper > receiverTaper ? 1 : 0;
  return {
    shankEndDiameterMm: 1 / t,
    shankTaper: shankPart * perTaper,
    mouthDiameterMm: -1 / t,
    receiverTaper: (1 - shankPart) * perTaper,
    depthMm: 1,
  };
}

/** Undefined when no dimension has an uncertainty above 0. */
export function fitUncertainty(
  dimensions: FitDimensions,
  uncertainties: FitUncertainties,
): FitUncertainty | undefined {
  const u = (dimension: FitDimension) => uncertainties[dimension] ?? 0;
  const { shankTaper, receiverTaper } = dimensions;
  const combinedTaper = Math.hypot(u("shankTaper"), u("receiverTaper"));
  const isTouchKnown = combinedTaper === 0 || Math.abs(shankTaper - receiverTaper) >= 2 * combinedTaper;
  const firstOrder = gapSensitivities(dimensions);
  const perTaper = firstOrder.shankTaper + firstOrder.receiverTaper;
  const larger = shankTaper > receiverTaper ? "shankTaper" : "receiverTaper";
  const asEqual = shankTaper === receiverTaper || (!isTouchKnown && combinedTaper / Math.SQRT2 > u(larger));
  const sensitivities = asEqual
    ? { ...firstOrder, shankTaper: perTaper / Math.SQRT2, receiverTaper: perTaper / Math.SQRT2 }
    : firstOrder;

  const contributions = fitDimensions.map((dimension) => Math.abs(sensitivities[dimension]) * u(dimension));
  const standardUncertaintyMm = Math.hypot(...contributions);
  if (!(standardUncertaintyMm > 0)) return undefined;
  return {
    standardUncertaintyMm,
    isTouchKnown,
    budget: fitDimensions.map((dimension, i) => ({
      dimension,
      standardUncertainty: u(dimension),
      sensitivity: sensitivities[dimension],
      contributionMm: contributions[i],
      varianceShare: (contributions[i] / standardUncertaintyMm) ** 2,
    })),
  };
}
