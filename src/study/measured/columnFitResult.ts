/** What comes out of a fit of a few unknowns to a measured impedance. */
import type { DimensionUnit } from "../../setup/dimension/dimension.ts";
import type { Setup } from "../../setup/setup.ts";
import type { Unknown } from "./columnUnknowns.ts";

/** What an uncertain dimension of the setup that was not fitted does to an unknown. */
export interface HeldDimension {
  readonly path: string;
  readonly name: string;
  readonly unit: DimensionUnit;
  /** Its standard uncertainty, in `unit`. */
  readonly standard: number;
  /** By how much that moves the unknown, in the unknown's unit, from 0. */
  readonly moves: number;
}

export interface Estimate {
  readonly unknown: Unknown;
  readonly value: number;
  /** Standard uncertainty, in the unknown's unit; null where the measurement does not determine it. */
  readonly standard: number | null;
  /**
   * By how much the largest smooth error of the model that may be in the residuals, seen or hidden by the noise, could move it at
   * worst; null where nothing is determined.
   */
  readonly smoothMoves: number | null;
  /** Parts of the standard uncertainty that come from what the setup does not know for certain and the fit leaves as it is, the largest first. */
  readonly held: readonly HeldDimension[];
  /** 95 %. */
  readonly interval: readonly [low: number, high: number] | null;
  readonly atBound: boolean;
}

/** What is left over beside the measurement's noise. */
export interface FitResidual {
  /** Of the measurement: as stated, or as it jumps from one frequency to the next. */
  readonly noiseDb: number;
  readonly isStated: boolean;
  /** s² over the noise's: about 1 where the model fits. */
  readonly chiSquare: number;
  /** Its autocorrelation over the first lags, in standard deviations of what chance makes. */
  readonly autocorrelationScore: number;
}

/**
 * Whether what is left over is the measurement's noise (`sound`), has something in it that is not (`doubtful`), or is mostly not
 * (`wrong`): then a wrong model has moved the unknowns, by nobody knows how much.
 */
export type Judgement = "sound" | "doubtful" | "wrong";

/** What curved fronts would make of a fit with plane waves in the bell. */
export interface CurvedBell {
  /** What would be left over, by first order. */
  readonly scatterDb: number;
  /** By how much each unknown would move, in its unit. */
  readonly moves: readonly number[];
  /** Which of the two bells the measurement itself has. */
  readonly told: "curved" | "plane" | "neither";
}

/** What to know of a fit; estimates by their place. */
export type FitNote =
  /** Stopped at its last step. */
  | { readonly kind: "not-converged" }
  /** The measurement does not tell the unknowns apart at all. */
  | { readonly kind: "none-told-apart" }
  | {
      readonly kind: "inseparable";
      readonly estimates: readonly [one: number, other: number];
      readonly correlation: number;
    }
  | { readonly kind: "at-bound"; readonly estimate: number }
  /** It could be nearly anything that it can be. */
  | { readonly kind: "cannot-tell"; readonly estimate: number }
  /** What is held moves it by as much as counts. */
  | { readonly kind: "rests-on-held"; readonly estimate: number; readonly held: readonly HeldDimension[] }
  /** What is left over is far more than the noise, and may run together too. */
  | { readonly kind: "above-noise"; readonly runsTogether: boolean }
  | { readonly kind: "runs-together" }
  | { readonly kind: "doubtful" }
  /** An error of the model that would count could be under the noise. */
  | { readonly kind: "noise-hides"; readonly estimates: readonly number[] }
  /** A bell of plane waves puts upper resonances too high. */
  | { readonly kind: "plane-bell"; readonly curved: CurvedBell | null }
  /** Nothing holds the phase against the model. */
  | { readonly kind: "no-phase" }
  | { readonly kind: "effective-temperature" };

export interface ColumnFit {
  readonly setup: Setup;
  readonly estimates: readonly Estimate[];
  /** Correlation of every two estimates by the measurement's noise alone; null where nothing is determined. */
  readonly correlation: readonly (readonly number[])[] | null;
  /** Scatter of the residuals, dB and degrees alike: s as both; no degrees without a phase. */
  readonly scatterDb: number;
  readonly scatterDegrees: number | null;
  readonly startDb: number;
  /** ρ, between neighbouring frequencies. */
  readonly lag1Autocorrelation: number;
  readonly degreesOfFreedom: number;
  readonly converged: boolean;
  readonly residual: FitResidual;
  /** null where the bell follows curved fronts, or cannot. */
  readonly curved: CurvedBell | null;
  readonly judgement: Judgement;
  /** What to know of the result before it is trusted. */
  readonly notes: readonly FitNote[];
}
