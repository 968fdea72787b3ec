/**
 * The player's lips as one mass striking outwards, after Velut, Vergez, Gilbert & Djahanbani 2017 (Acta Acustica united with
 * Acustica 103, "How well can linear stability analysis predict the behaviour of an outward-striking valve brass instrument
 * model?"; after Elliott & Bowsher 1982, J. Sound Vib. 83, 181):
 *
 *   ÿ + (ω_l/Q_l) ẏ + ω_l² (y − y₀) = (p_m − p)/μ
 *   u = W · max(y, 0) · sqrt(2|p_m − p|/ρ) · sign(p_m − p)
 *
 * y is the opening, p_m the pressure in the mouth, p in the cup, u the flow between the lips; μ may fall as the lips are
 * tightened. Left out: the flow the moving
 * lips displace, the Bernoulli force, collision, the mouth's own resonances, and the second, upward-striking movement that
 * real lips add at high notes.
 */

import { OutOfRange } from "../units/outOfRange.ts";

export interface Lips {
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

/** Lips in an air of density ρ, kg/m³. */
export interface Valve extends Lips {
  readonly density: number;
}

/** Lip frequency at which `massPerArea` holds, Hz: written B-flat below the stave of a B-flat instrument. */
export const MASS_REFERENCE_HZ = 233.08;

/** μ at a lip frequency, kg/m². */
export const massPerAreaAt = ({ massPerArea, massExponent }: Lips, lipHz: number): number =>
  massPerArea * (MASS_REFERENCE_HZ / lipHz) ** massExponent;

/** A parameter's usual value, where it comes from, and how far it may be off. */
export interface LipParameter {
  /** In words. */
  readonly label: string;
  readonly value: number;
  /** It is thought to lie between these. */
  readonly range: readonly [low: number, high: number];
  /** What `checkLips` takes. */
  readonly allowed: readonly [low: number, high: number];
  readonly unit: string;
  readonly source: string;
}

/**
 * What is used unless a person says otherwise. Nobody can yet measure these in a playing mouth: published sets differ by
 * factors, and the ranges say so (own judgement). The mass law matters most. With one μ for all notes the threshold rises
 * as f² and the tenth note of a trumpet needs more than a player has; Adachi & Sato's lips lose mass as 1/f, which leaves
 * thresholds rising about as f.
 */
export const LIP_PARAMETERS: { readonly [Name in keyof Lips]: LipParameter } = {
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

export const DEFAULT_LIPS: Lips = Object.freeze({
  massPerArea: LIP_PARAMETERS.massPerArea.value,
  massExponent: LIP_PARAMETERS.massExponent.value,
  quality: LIP_PARAMETERS.quality.value,
  restOpening: LIP_PARAMETERS.restOpening.value,
  width: LIP_PARAMETERS.width.value,
});

/** @throws OutOfRange naming the parameter, its value and what would be right */
export function checkLips(lips: Lips): void {
  for (const name of Object.keys(LIP_PARAMETERS) as (keyof Lips)[]) {
    const { label, allowed, unit } = LIP_PARAMETERS[name];
    const value = lips[name];
    if (!(value >= allowed[0] && value <= allowed[1]))
      throw new OutOfRange(
        `the lips' ${label} of ${value} cannot be used: give ${allowed[0]} to ${allowed[1]}${unit === "1" ? "" : ` ${unit}`}`,
      );
  }
}
