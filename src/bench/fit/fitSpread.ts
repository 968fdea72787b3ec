/**
 * Why a dozen gaps differ: how far they spread, and which dimension makes them. By first order about the mean dimensions
 * (JCGM 100:2008, 5.1.2, over a set of parts instead of repeat readings),
 *
 *   var(g) = Σₖ (∂g/∂xₖ)²·var(xₖ) + rest,   share of k = (∂g/∂xₖ)²·var(xₖ) / var(g),
 *
 * the rest being what dimensions do together: going up and down with each other, and curvature. It can be negative, when
 * two dimensions make up for each other, and then single shares may pass 1. All of them sum to 1.
 */
import {
  type FitDimension,
  type FitDimensions,
  type FitUncertainties,
  fitDimensions,
} from "./fitDimensions.ts";
import { fitUncertainty, gapSensitivities } from "./fitUncertainty.ts";

/** The gap of a shank that seats, and what it came from. */
export interface SpreadSample {
  readonly gapMm: number;
  readonly dimensions: FitDimensions;
  readonly uncertainties: FitUncertainties;
}

export interface SpreadCause {
  /** A dimension, or what they do together. */
  readonly cause: FitDimension | "together";
  /** Standard deviation over the set, in the unit of the dimension; undefined for "together". */
  readonly standardDeviation: number | undefined;
  /** Change of gap per change of dimension; undefined for "together". */
  readonly sensitivity: number | undefined;
  /** Share of the gap's variance over the set; all shares sum to 1. */
  readonly varianceShare: number;
}

export interface FitSpread {
  /** What was held and what varied: the mouthpiece's or the instrument's name, or "all". */
  readonly of: string;
  /** What varied, and was counted. */
  readonly among: "instruments" | "mouthpieces" | "pairs";
  readonly count: number;
  /** How many more touch the leadpipe: their gap is 0 whatever the dimensions, so it explains nothing. */
  readonly onLeadpipe: number;
  /** How many more are unknown, or do not fit at all. */
  readonly leftOut: number;
  readonly meanMm: number | undefined;
  readonly lowMm: number | undefined;
  readonly highMm: number | undefined;
  /** Undefined below two gaps. */
  readonly standardDeviationMm: number | undefined;
  /** What measuring alone would scatter them by, mm; undefined when no uncertainty is known. */
  readonly measuringMm: number | undefined;
  /** The largest share first, "together" last; empty when nothing spreads. */
  readonly causes: readonly SpreadCause[];
}

/** Gaps closer than this are the same gap. */
const sameMm = 1e-6;

/**
 * How much the gap spreads over a row or a column of the matrix, and which dimension makes it.
 * @param of what the set has in common
 * @param among what varies
 * @param varying the dimensions that can differ within the set
 */
export function fitSpread(
  of: string,
  among: FitSpread["among"],
  samples: readonly SpreadSample[],
  others: { readonly onLeadpipe: number; readonly leftOut: number },
  varying: readonly FitDimension[] = fitDimensions,
): FitSpread {
  const gaps = samples.map(({ gapMm }) => gapMm);
  const count = gaps.length;
  const lowMm = count > 0 ? Math.min(...gaps) : undefined;
  const highMm = count > 0 ? Math.max(...gaps) : undefined;
  const standardDeviationMm = count > 1 ? Math.sqrt(variance(gaps)) : undefined;
  const spreads = count > 1 && highMm! - lowMm! > sameMm;
  return {
    of,
    among,
    count,
    ...others,
    meanMm: count > 0 ? mean(gaps) : undefined,
    lowMm,
    highMm,
    standardDeviationMm,
    measuringMm: measuringScatter(samples, varying),
    causes: spreads ? causes(samples, varying) : [],
  };
}

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

function variance(values: readonly number[]): number {
  const middle = mean(values);
  return values.reduce((sum, value) => sum + (value - middle) ** 2, 0) / (values.length - 1);
}

function causes(samples: readonly SpreadSample[], varying: readonly FitDimension[]): SpreadCause[] {
  const over = (dimension: FitDimension) => samples.map(({ dimensions }) => dimensions[dimension]);
  const middle = Object.fromEntries(
    fitDimensions.map((dimension) => [dimension, mean(over(dimension))]),
  ) as FitDimensions;
  const sensitivities = gapSensitivities(middle);
  const gapVariance = variance(samples.map(({ gapMm }) => gapMm));
  const single = varying
    .map((dimension) => {
      const dimensionVariance = variance(over(dimension));
      return {
        cause: dimension,
        standardDeviation: Math.sqrt(dimensionVariance),
        sensitivity: sensitivities[dimension],
        varianceShare: (sensitivities[dimension] ** 2 * dimensionVariance) / gapVariance,
      };
    })
    .sort((a, b) => b.varianceShare - a.varianceShare);
  const rest = 1 - single.reduce((sum, { varianceShare }) => sum + varianceShare, 0);
  return [
    ...single,
    {
      cause: "together",
      standardDeviation: undefined,
      sensitivity: undefined,
      varianceShare: rest,
    },
  ];
}

/** Root mean square of the uncertainties from the varying dimensions: a dimension common to all scatters nothing. */
function measuringScatter(
  samples: readonly SpreadSample[],
  varying: readonly FitDimension[],
): number | undefined {
  const squares = samples.flatMap(({ dimensions, uncertainties }) => {
    const own = Object.fromEntries(
      Object.entries(uncertainties).filter(([dimension]) => varying.includes(dimension as FitDimension)),
    );
    const u = fitUncertainty(dimensions, own)?.standardUncertaintyMm;
    return u === undefined ? [] : [u ** 2];
  });
  return squares.length > 0 ? Math.sqrt(mean(squares)) : undefined;
}
