/**
 * A gap tried with a wrap of foil or paper, thin and even over the whole seat. A thickness τ all round makes the shank 2τ larger,
 * and it stops further out by (seat.ts; t the taper that stops it)
 *
 *   Δg = 2τ/t:   0.01 mm at 1:20 opens the gap by 0.4 mm.
 *
 * A wrap only ever widens.
 */
import { smallestTaper } from "../fit/fitDimensions.ts";

/** How much a wrap of this thickness opens the gap, mm; undefined without a taper, where nothing stops a shank. */
export const gapOfWrapMm = (thicknessMm: number, seatTaper: number): number | undefined =>
  seatTaper < smallestTaper ? undefined : (2 * thicknessMm) / seatTaper;

/** How thick a wrap opens the gap by this much, mm. */
export const wrapForGapMm = (gapMm: number, seatTaper: number): number => (gapMm * seatTaper) / 2;

export interface WrapPlan {
  readonly thicknessMm: number;
  /** One layer opens the gap by this, mm. */
  readonly perLayerMm: number;
  /** The number of layers that comes nearest to the planned gap; undefined where none is planned, or it is no wider. */
  readonly layers: number | undefined;
  /** The gap with those layers, mm. */
  readonly gapMm: number | undefined;
}

/** One layer is no thinner, nor thicker, mm (own choice). */
export const WRAP_THICKNESS_MM = [0.001, 0.5] as const;

/** More layers than this are no even wrap. Common practice, no source. */
export const MOST_LAYERS = 4;

/** What a foil or paper of a measured thickness does; undefined without a taper or a thickness. */
export function planWrap({
  thicknessMm,
  seatTaper,
  gapMm,
  plannedMm,
}: {
  readonly thicknessMm: number;
  readonly seatTaper: number;
  readonly gapMm: number;
  readonly plannedMm: number | undefined;
}): WrapPlan | undefined {
  const perLayerMm = gapOfWrapMm(thicknessMm, seatTaper);
  if (perLayerMm === undefined || !(perLayerMm > 0 && Number.isFinite(perLayerMm))) return undefined;
  const wider = plannedMm === undefined ? 0 : plannedMm - gapMm;
  if (!(wider > 0)) return { thicknessMm, perLayerMm, layers: undefined, gapMm: undefined };
  const layers = Math.min(MOST_LAYERS, Math.max(1, Math.round(wider / perLayerMm)));
  return { thicknessMm, perLayerMm, layers, gapMm: gapMm + layers * perLayerMm };
}
