/**
 * A lip model as the rest of this folder uses it, whatever moves in it: lips at rest in a steady stream, their answer to a
 * small change of the cup's pressure, and a step in time.
 *
 *   at rest          Δ = p_m − p_e the drop across the lips, u_e the flow, p_e = R₀ u_e
 *   small changes    δu = −A(s) δp,   A(s) = N(s)/D(s),   D monic, N and D of the same degree
 *   with a column    δp = Z(s) δu   ⇒   D(s) + Z(s) N(s) = 0
 *   in time          movement under last sample's pressures, then Δ = ½ρφ|u_j|u_j and u = u_j + u_s
 *
 * u_j passes between the lips, u_s is the air they sweep before them, φ depends on how far they are open.
 */
import type { Modes } from "./modes.ts";

/** No player has this much, Pa; what would need more does not count as a threshold. */
export const MOST_PRESSURE = 100e3;

/** Where something begins to grow. */
export interface Threshold {
  /** p_m, Pa */
  readonly mouthPressure: number;
  /** At which the note starts, Hz. */
  readonly frequencyHz: number;
}

/** Lips at rest in a steady stream. */
export interface Equilibrium {
  /** v = sqrt(2Δ/ρ), m/s */
  readonly jetSpeed: number;
  /** Between the lips, m. */
  readonly opening: number;
  /** How far the lips' edge stands into the cup, m; 0 where the model has no such movement. */
  readonly swing: number;
  /** u_e, m³/s */
  readonly flow: number;
  /** p_e, Pa */
  readonly cupPressure: number;
  /** p_m, Pa */
  readonly mouthPressure: number;
}

/** N and D by rising powers of s; of one length. */
export interface Response {
  readonly numerator: Float64Array;
  readonly denominator: Float64Array;
}

/** A movement of the lips alone: where a search for eigenvalues begins. */
export interface OwnMode {
  /** rad/s */
  readonly omega: number;
  readonly quality: number;
}

/** Y of the column at the frequencies one note is searched at, rad/s. */
export interface Band {
  readonly omega: Float64Array;
  readonly re: Float64Array;
  readonly im: Float64Array;
}

export interface LipModel {
  readonly density: number;
  /** Its movements, one or two, of the lips alone without a stream. */
  ownModes(lipHz: number): readonly OwnMode[];
  /** The rest with a jet of v m/s, above 0. */
  restWith(resistance: number, lipHz: number, jetSpeed: number): Equilibrium;
  /** The rest under a mouth pressure above 0 Pa. */
  restUnder(resistance: number, lipHz: number, mouthPressure: number): Equilibrium;
  /** A(s) about a rest at the same lip frequency. */
  response(lipHz: number, rest: Equilibrium): Response;
  /** Where within a band an eigenvalue lies on the imaginary axis: of all such, that of least mouth pressure. */
  neutral(column: NeutralColumn, band: Band, lipHz: number): Threshold | null;
  /**
   * What a neutral state of a lip frequency close by has become; null where it is lost. Models whose search is quick as it is
   * have none.
   */
  readonly followed:
    | ((column: NeutralColumn, band: Band, lipHz: number, near: Threshold) => Threshold | null)
    | null;
  motion(sampleRate: number): Motion;
}

/** What a search for neutral stability needs of the column. */
export interface NeutralColumn {
  readonly modes: Modes;
  /** R₀ */
  readonly resistance: number;
}

/** The lips from sample to sample; its owner moves the coefficients between lip frequencies. */
export interface Motion {
  /** As many as `coefficientsAt` writes. */
  readonly coefficientCount: number;
  /** Between the lips, m; below 0: closed. */
  readonly opening: number;
  /** φ, 1/m⁴: Δ = ½ρφ u_j²; ∞ where the lips are closed. */
  readonly loss: number;
  /** u_s = sₒ + s_Δ Δ + s_p p: what the lips sweep as this sample's pressures move them; sₒ in m³/s, the others a Pa. */
  readonly swept: number;
  readonly sweptByDrop: number;
  readonly sweptByCup: number;
  /** A stable recursion's at this lip frequency; between two of them lie only such. */
  coefficientsAt(lipHz: number, out: Float64Array): void;
  /** One sample on, under the pressures `press` was last told. */
  advance(coefficients: Float64Array): void;
  /** The pressures at this sample: Δ across the lips and p in the cup, Pa. */
  press(drop: number, cupPressure: number): void;
  /** Takes over another's movement. */
  copy(other: this): void;
  /** At rest in a stream, the opening then larger by `kick` of itself; without a pressure where `mouthPressure` is 0. */
  rest(resistance: number, lipHz: number, mouthPressure: number, kick: number): Equilibrium | null;
}
