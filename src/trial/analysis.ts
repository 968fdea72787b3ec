/** Everything a finished trial tells, scale by scale; the sentence itself is in `finding.ts`. */
import { OutOfRange } from "../units/outOfRange.ts";
import { curveOf } from "./finding.ts";
import { type Friedman, friedman } from "./friedman.ts";
import { holm } from "./holm.ts";
import { type PermutationTest, permutationTest } from "./permutation.ts";
import { type Power, power } from "./power.ts";
import type { PreferenceCurve } from "./preference.ts";
import { type RankedItem, ranking } from "./ranking.ts";
import { type Repeatability, repeatability } from "./repeatability.ts";
import { FEWEST_REPEATS, ratingBlocks, repeatsOf, SCALES, type Scale, type Trial } from "./trial.ts";

export interface ScaleAnalysis {
  readonly scale: Scale;
  /** A row a repeat, a column an item. */
  readonly blocks: readonly (readonly number[])[];
  readonly test: PermutationTest;
  /** p, corrected by Holm's rule for the scales that do not decide; preference decides by its own. */
  readonly correctedP: number;
  readonly friedman: Friedman;
  readonly repeatability: Repeatability;
  /** Best first. */
  readonly ranking: readonly RankedItem[];
  /** null where the items are not all gaps. */
  readonly curve: PreferenceCurve | null;
}

export interface TrialAnalysis {
  /** Repeats that were wholly rated, and so count; the others do not. */
  readonly repeats: number;
  readonly leftOut: number;
  readonly scales: readonly ScaleAnalysis[];
  /** How often a trial like this one would find the difference that matters, at the scatter seen in preference. */
  readonly power: Power;
}

/** Steps done, of how many. */
export interface AnalysisStep {
  readonly done: number;
  readonly of: number;
}

/** @throws OutOfRange in words where too few repeats were rated */
export function* analysisSteps(trial: Trial): Generator<AnalysisStep, TrialAnalysis, void> {
  const of = SCALES.length + 1;
  const repeats = ratingBlocks(trial, "preference").length;
  if (repeats < FEWEST_REPEATS)
    throw new OutOfRange(
      `Too little was rated for any finding: ${repeats} whole ${repeats === 1 ? "repeat" : "repeats"}, and ${FEWEST_REPEATS} are the fewest.`,
    );
  const scales: Omit<ScaleAnalysis, "correctedP">[] = [];
  for (const scale of SCALES) {
    scales.push(analysed(trial, scale));
    yield { done: scales.length, of };
  }
  const others = scales.filter(({ scale }) => scale !== "preference");
  const corrected = holm(others.map(({ test }) => test.p));
  const preference = scales[SCALES.indexOf("preference")];
  const found = power({
    items: trial.items.length,
    repeats,
    difference: trial.difference,
    scatter: preference.repeatability.standardDeviation,
  });
  yield { done: of, of };
  return {
    repeats,
    leftOut: repeatsOf(trial) - repeats,
    scales: scales.map((one) => ({
      ...one,
      correctedP: one === preference ? one.test.p : corrected[others.indexOf(one)],
    })),
    power: found,
  };
}

function analysed(trial: Trial, scale: Scale): Omit<ScaleAnalysis, "correctedP"> {
  const blocks = ratingBlocks(trial, scale);
  return {
    scale,
    blocks,
    test: permutationTest(blocks),
    friedman: friedman(blocks),
    repeatability: repeatability(blocks),
    ranking: ranking(blocks),
    curve: curveOf(trial, blocks),
  };
}
