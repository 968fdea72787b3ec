/** What comes out of a fit of a few unknowns to a measured impedance. */
import type { Setup } from "../setup/setup.ts";
import type { Unknown } from "./columnUnknowns.ts";

export interface Estimate {
  readonly unknown: Unknown;
  readonly value: number;
  /** Standard uncertainty, in the unknown's unit; null where the measurement does not determine it. */
  readonly standard: number | null;
  /** 95 %. */
  readonly interval: readonly [low: number, high: number] | null;
  readonly atBound: boolean;
}

export interface ColumnFit {
  readonly setup: Setup;
  readonly estimates: readonly Estimate[];
  /** Correlation of every two estimates; null where nothing is determined. */
  readonly correlation: readonly (readonly number[])[] | null;
  /** Scatter of the residuals, dB and degrees alike: s as both. */
  readonly scatterDb: number;
  readonly scatterDegrees: number;
  readonly startDb: number;
  /** ρ, between neighbouring frequencies. */
  readonly neighbours: number;
  readonly degreesOfFreedom: number;
  readonly converged: boolean;
  /** What to know of the result, each a sentence. */
  readonly words: readonly string[];
}
