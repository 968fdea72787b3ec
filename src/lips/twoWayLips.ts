/**
 * The parameters of lips that move two ways, swinging out and stretching open: the model of Adachi & Sato 1996 (J. Acoust. Soc.
 * Am. 99, 1200, "Trumpet sound simulation using a two-dimensional lip vibration model"), whose equations are in `twoWay.ts`.
 */
import { type LipParameter, usualValues } from "./lipParameter.ts";

export interface TwoWayLips {
  readonly model: "two-way";
  /** m₀ of m = m₀/((2π)² f_l), both lips together, kg/s. */
  readonly massFactor: number;
  /** Q_l of either movement. */
  readonly quality: number;
  /** x₀, how far the lips' edge stands into the cup without pressure, m. */
  readonly protrusion: number;
  /** 2y₀, opening without pressure, m. */
  readonly restOpening: number;
  /** b, m. */
  readonly width: number;
  /** d, along the stream, m. */
  readonly thickness: number;
  /** k_y/k_x: how much stiffer the lips are against stretching than against swinging. */
  readonly stiffnessRatio: number;
}

/** ℓ, from where the lips are held to the middle of the opening, m; S_c, m²: Adachi & Sato 1996, as tabulated by others. */
export const LIP_LENGTH = 4e-3;
export const CUP_AREA = 2.3e-4;

export type TwoWayName = Exclude<keyof TwoWayLips, "model">;

/**
 * What is used unless a person says otherwise. With the paper's own numbers, and the pressure's work on the lips counted once,
 * only notes 2 to 4 start, 100 to 185 cents below their resonances. Held to are instead, in this order: one frequency for both
 * movements, and the paper's lengths where they decide nothing; sounding near the resonance, as trombonists do, 1.1 % or 19
 * cents above it (Boutin, Fletcher, Smith & Wolfe 2015, J. Acoust. Soc. Am. 137, 1195); starting pressures that rise as the
 * frequency, to some 6 kPa at the eighth note (Fletcher & Tarnopolsky 1999, J. Acoust. Soc. Am. 105, 874: the law; the size from
 * memory); 180 to 630 ml/s in playing (Fréour, Caussé & Cossette 2010, Congrès Français d'Acoustique, from others' measurements).
 * No gap was looked at in choosing them. The ranges are own judgement; each keeps what sounds within a semitone of the resonance.
 * Trumpet lips are seen to strike outwards on the lowest note and upwards on higher ones (Yoshikawa 1995, J. Acoust. Soc. Am. 97,
 * 1929): thick, little protruding lips do so here, and sound below the resonance.
 */
export const TWO_WAY_PARAMETERS: { readonly [Name in TwoWayName]: LipParameter } = {
  massFactor: {
    label: "mass factor",
    value: 1.1,
    range: [0.8, 1.5],
    allowed: [0.01, 100],
    unit: "kg/s",
    source:
      "m = 1.5 kg/s / ((2π)² f_l) of Adachi & Sato 1996, as tabulated by others; less, so that high notes start at the pressures players have",
  },
  quality: {
    label: "quality factor",
    value: 6,
    range: [4, 8],
    allowed: [0.5, 1000],
    unit: "1",
    source:
      "own choice between 3 (Adachi & Sato 1996) and the 9 to 11 of water-filled rubber lips (Cullen, Gilbert & Campbell 2000, Acta Acustica 86, 704, from memory)",
  },
  protrusion: {
    label: "protrusion",
    value: 2.5e-3,
    range: [2.2e-3, 2.8e-3],
    allowed: [0, 0.01],
    unit: "m",
    source: "own choice, by where notes sound; Adachi & Sato 1996: 1 mm",
  },
  restOpening: {
    label: "rest opening",
    value: 0.15e-3,
    range: [0.06e-3, 0.3e-3],
    allowed: [1e-5, 0.005],
    unit: "m",
    source:
      "own choice, by players' flow; Adachi & Sato 1996 have lips that nearly touch. Below some 0.03 mm friction in the slit is missing",
  },
  width: {
    label: "width",
    value: 7e-3,
    range: [5e-3, 10e-3],
    allowed: [1e-4, 0.1],
    unit: "m",
    source: "Adachi & Sato 1996, as tabulated by others",
  },
  thickness: {
    label: "thickness",
    value: 1.2e-3,
    range: [1e-3, 1.4e-3],
    allowed: [0, 0.02],
    unit: "m",
    source: "own choice, by where notes sound; Adachi & Sato 1996: 2 mm",
  },
  stiffnessRatio: {
    label: "ratio of stiffnesses",
    value: 1,
    range: [0.9, 1.25],
    allowed: [0.1, 10],
    unit: "1",
    source:
      "stretching over swinging: one frequency for both, as Adachi & Sato 1996 have it; rubber lips have two, some 10 % apart (Cullen, Gilbert & Campbell 2000, from memory)",
  },
};

export const DEFAULT_TWO_WAY_LIPS: TwoWayLips = Object.freeze({
  model: "two-way",
  ...usualValues(TWO_WAY_PARAMETERS),
});
