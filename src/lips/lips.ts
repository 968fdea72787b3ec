/**
 * The player's lips as one mass striking outwards, after Velut, Vergez, Gilbert & Djahanbani 2017 (Acta Acustica united with
 * Acustica 103, "How well can linear stability analysis predict the behaviour of an outward-striking valve brass instrument
 * model?"; after Elliott & Bowsher 1982, J. Sound Vib. 83, 181):
 *
 *   ÿ + (ω_l/Q_l) ẏ + ω_l² (y − y₀) = (p_m − p)/μ
 *   u = W · max(y, 0) · sqrt(2|p_m − p|/ρ) · sign(p_m − p)
 *
 * y is the opening, p_m the pressure in the mouth, p in the cup, u the flow between the lips; μ may fall as the lips are
 * tightened. Left out: the flow the moving lips displace, the Bernoulli force, collision, the mouth's own resonances, and the
 * second, upward-striking movement that real lips add at high notes: `twoWayLips.ts` has those but the mouth's resonances.
 */

import { type LipParameter, usualValues } from "./lipParameter.ts";

export interface OneMassLips {
  /** μ at `MASS_REFERENCE_HZ`, mass per area the pressure acts on, kg/m². */
  readonly massPerArea: number;
  /** e of μ ∝ f_l^−e: how much less of the lips moves as a player tightens them. */
  readonly massExponent: number;
  /** Q_l of the lips alone. */
  readonly quality: number;
  /** y₀, opening without pressure, m. */
  readonly restOpening: number;
  /** W, m. */
  readonly width: number;
}

/** Lip frequency at which `massPerArea` holds, Hz: written B-flat below the stave of a B-flat instrument. */
export const MASS_REFERENCE_HZ = 233.08;

/** μ at a lip frequency, kg/m². */
export const massPerAreaAt = ({ massPerArea, massExponent }: OneMassLips, lipHz: number): number =>
  massPerArea * (MASS_REFERENCE_HZ / lipHz) ** massExponent;

/**
 * What is used unless a person says otherwise. Nobody can yet measure these in a playing mouth: published sets differ by
 * factors, and the ranges say so (own judgement). The mass law matters most. With one μ for all notes the threshold rises
 * as f² and the tenth note of a trumpet needs more than a player has; Adachi & Sato's lips lose mass as 1/f, which leaves
 * thresholds rising about as f.
 */
export const LIP_PARAMETERS: { readonly [Name in keyof OneMassLips]: LipParameter } = {
  massPerArea: {
    label: "mass per area",
    value: 5.8,
    range: [3, 10],
    allowed: [0.01, 1000],
    unit: "kg/m²",
    source:
      "m = 1.5 kg/s / ((2π)² f_l) of Adachi & Sato 1996 (J. Acoust. Soc. Am. 99, 1200; as tabulated by others) over their " +
      "7 mm × 4 mm of lip; Velut et al. 2017: 9 for a trombone, from memory",
  },
  massExponent: {
    label: "mass exponent",
    value: 1,
    range: [0.7, 1.2],
    allowed: [0, 2],
    unit: "1",
    source: "the same law of Adachi & Sato 1996; 0 keeps one mass for all notes, as Velut et al. 2017 do",
  },
  quality: {
    label: "quality factor",
    value: 7,
    range: [3, 10],
    allowed: [0.5, 1000],
    unit: "1",
    source: "Velut et al. 2017, from memory; Adachi & Sato 1996: 3",
  },
  restOpening: {
    label: "rest opening",
    value: 0.5e-3,
    range: [0.25e-3, 0.8e-3],
    allowed: [1e-6, 0.02],
    unit: "m",
    source: "Velut et al. 2017, from memory",
  },
  width: {
    label: "width",
    value: 7e-3,
    range: [5e-3, 10e-3],
    allowed: [1e-4, 0.1],
    unit: "m",
    source:
      "Adachi & Sato 1996, as tabulated by others; Velut et al. 2017: 12 mm for a trombone, from memory",
  },
};

export const DEFAULT_LIPS: OneMassLips = usualValues(LIP_PARAMETERS);
