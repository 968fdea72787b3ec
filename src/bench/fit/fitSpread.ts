/**
 * Why a dozen gaps differ: how far they spread, and which dimension makes them. By first order about the mean dimensions
 * (JCGM 100:2008, 5.1.2, over a set of parts instead of repeat readings),
 *
 *   var(g) = Σₖ (∂g/∂xₖ)²·var(xₖ) + rest,   share of k = (∂g/∂xₖ)²·var(xₖ) / var(g),
 *
 * the rest being what dimensions do together: going up and down with each other, and curvature. It can be negative, when
 * two dimensions make up for each other, and then single shares may pass 1. All of them sum to 1.
 */
import type { LengthUnit } from "../../units/length.ts";
import { lengthInWords } from "../measure/inWords.ts";
import {
  dimensionName,
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
  readonly name: string;
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
  readonly words: string;
}

/** Gaps closer than this are the same gap. */
const sameMm = 1e-6;

/**
 * How much the gap spreads over a row or a column of the matrix, and what to do about it in words.
 * @param of what the set has in common
 * @param among what varies, for the words: "instruments"
 * @param varying the dimensions that can differ within the set
 * @param unit what the words speak in
 */
export function fitSpread(
  of: string,
  among: string,
  samples: readonly SpreadSample[],
  others: { readonly onLeadpipe: number; readonly leftOut: number },
  varying: readonly FitDimension[] = fitDimensions,
  unit: LengthUnit = "mm",
): FitSpread {
  const gaps = samples.map(({ gapMm }) => gapMm);
  const count = gaps.length;
  const lowMm = count > 0 ? Math.min(...gaps) : undefined;
  const highMm = count > 0 ? Math.max(...gaps) : undefined;
  const standardDeviationMm = count > 1 ? Math.sqrt(variance(gaps)) : undefined;
  const spreads = count > 1 && highMm! - lowMm! > sameMm;
  const numbers = {
    of,
    count,
    ...others,
    meanMm: count > 0 ? mean(gaps) : undefined,
    lowMm,
    highMm,
    standardDeviationMm,
    measuringMm: measuringScatter(samples, varying),
    causes: spreads ? causes(samples, varying) : [],
  };
  return { ...numbers, words: words(among, numbers, unit) };
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
        name: dimensionName[dimension],
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
      name: "together",
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

function words(among: string, spread: Omit<FitSpread, "words">, unit: LengthUnit): string {
  const { count, onLeadpipe, leftOut, lowMm, highMm, standardDeviationMm, measuringMm, causes } = spread;
  const inWords = lengthInWords(unit);
  const more = [
    ...(onLeadpipe > 0 ? [`${onLeadpipe} on the leadpipe`] : []),
    ...(leftOut > 0 ? [`${leftOut} unknown or without a fit`] : []),
  ];
  const without = more.length > 0 ? ` (besides ${more.join(", ")})` : "";
  if (count === 0) return `None seats with a known gap among these ${among}${without}.`;
  if (count === 1)
    return `One gap is known among these ${among}${without}, ${inWords(lowMm!)}: no spread to explain.`;
  if (causes.length === 0) return `The gap is ${inWords(lowMm!)} in all ${count} ${among}${without}.`;
  const rest = causes[causes.length - 1].varianceShare;
  const shares = causes
    .filter(({ varianceShare }) => Math.abs(varianceShare) >= 0.01)
    .map(({ name, varianceShare }) => `${name} ${Math.round(100 * varianceShare)} %`)
    .join(", ");
  const why =
    rest < -0.5
      ? "The dimensions make up for one another here, so no single one is the cause."
      : `Shares of its variance: ${shares}.`;
  const doubt =
    measuringMm !== undefined && standardDeviationMm! < 2 * measuringMm
      ? ` Measuring alone would scatter it by ${inWords(measuringMm)}, so the parts may be more alike than this.`
      : "";
  return (
    `Over ${count} ${among}${without} the gap runs from ${inWords(lowMm!)} to ${inWords(highMm!)}, standard deviation ` +
    `${inWords(standardDeviationMm!)}. ${why}${doubt}`
  );
}
