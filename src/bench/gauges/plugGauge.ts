/**
 * A stepped depth plug: turned to one receiver, it tells the depth from the receiver's face to the start of the leadpipe.
 *
 *        A                                   shoulders
 *        ┌───────────────────────────────────┐
 *        │ nose ⌀ n                          └┐
 *        │                                    └┐       stem
 *        │                                     └──────────────
 *        │◄───────── depth ± k·step ────────►│
 *
 * Its flat nose A lands on the lip, so it is wider than the leadpipe's bore e and narrower than the receiver where it lands:
 *
 *   e + 2·lip ≤ n ≤ m − r·(depth + 2·step) − clearance
 *
 * Laid against the face, a straightedge hides the shoulders that are not deep enough yet: the depth lies between two of them.
 * Sizes of clearance, lip, step and stem are common practice, no source.
 */
import { cavityDiameterMm } from "../../setup/geometry.ts";
import type { Receiver } from "../../setup/setup.ts";

export interface PlugQuestion {
  readonly receiver: Receiver;
  /** The leadpipe's bore at its start, mm. */
  readonly leadpipeBoreMm: number;
  /** Between shoulders, mm. */
  readonly stepMm: number;
}

export interface PlugShoulder {
  /** From the nose, mm. */
  readonly lengthMm: number;
  /** Beyond it, towards the hand, mm. */
  readonly diameterMm: number;
}

export interface PlugGauge {
  readonly noseDiameterMm: number;
  /** How much of the lip the nose covers, all round, mm. */
  readonly lipMm: number;
  /** The middle one is at the receiver's depth. */
  readonly shoulders: readonly PlugShoulder[];
  readonly overallMm: number;
}

export type PlugFlaw =
  /** No flat nose fits: the lip is as narrow as this, mm; 0 or less where there is none. */
  | { readonly kind: "no-lip"; readonly lipMm: number; readonly leastMm: number }
  /** Shoulders so far apart begin before the nose. */
  | { readonly kind: "steps-too-long"; readonly stepMm: number; readonly mostMm: number };

/** Between nose and receiver where it is tightest, on the diameter, mm. */
const CLEARANCE_MM = 0.15;
/** Less than this of a lip is no stop, mm. */
const LEAST_LIP_MM = 0.15;
const SHOULDERS_EACH_WAY = 2;
const STEM_LENGTH_MM = 30;
/** Each shoulder's height, on the diameter, mm; less where the stem would become thin. */
const SHOULDER_MM = 0.8;
const THINNEST_STEM = 0.5;
/** Sizes that nothing rests on are whole multiples of this, mm. */
const ROUND_MM = 0.05;

/** The plug for a receiver, or why none can be made. */
export function plugGauge({ receiver, leadpipeBoreMm, stepMm }: PlugQuestion): PlugGauge | PlugFlaw {
  const { mouthDiameterMm, taper, depthMm } = receiver;
  const mostMm = (depthMm - 1) / (SHOULDERS_EACH_WAY + 1);
  if (!(stepMm > 0 && stepMm <= mostMm)) return { kind: "steps-too-long", stepMm, mostMm };
  const deepestMm = depthMm + SHOULDERS_EACH_WAY * stepMm;
  const widestMm = cavityDiameterMm(mouthDiameterMm, taper, deepestMm) - CLEARANCE_MM;
  const noseDiameterMm = Math.floor(widestMm / ROUND_MM + 1e-6) * ROUND_MM;
  const lipMm = (noseDiameterMm - leadpipeBoreMm) / 2;
  if (!(lipMm >= LEAST_LIP_MM))
    return {
      kind: "no-lip",
      lipMm: (cavityDiameterMm(mouthDiameterMm, taper, depthMm) - leadpipeBoreMm) / 2,
      leastMm: LEAST_LIP_MM + CLEARANCE_MM / 2,
    };
  const count = 2 * SHOULDERS_EACH_WAY + 1;
  const heightMm = Math.min(SHOULDER_MM, (noseDiameterMm * (1 - THINNEST_STEM)) / count);
  return {
    noseDiameterMm,
    lipMm,
    shoulders: Array.from({ length: count }, (_, i) => ({
      lengthMm: depthMm + (i - SHOULDERS_EACH_WAY) * stepMm,
      diameterMm: noseDiameterMm - (i + 1) * heightMm,
    })),
    overallMm: Math.ceil(deepestMm + STEM_LENGTH_MM),
  };
}
