/**
 * How well a setup knows its own gap: the standard uncertainties of receiver depth and insertion in quadrature. One that is
 * not given makes the gap's unknown: a cut must not rest on half of it.
 */
import type { Setup } from "../../setup/setup.ts";
import { uncertaintyBudget } from "./budget.ts";
import type { CoverageFactor } from "./combinedUncertainty.ts";

/** The two lengths that the gap is the difference of, by their path in a setup. */
const LENGTHS = ["receiver.depth", "mouthpiece.insertion"] as const;
export type MeasuredLength = (typeof LENGTHS)[number];

export interface GapUncertainty {
  /** All undefined where it is not known. */
  readonly standardMm: number | undefined;
  /** Welch–Satterthwaite; Infinity where neither length's uncertainty is itself in doubt. */
  readonly degreesOfFreedom: number | undefined;
  /** For 95 %. */
  readonly coverageFactor: number | undefined;
  readonly expandedMm: number | undefined;
  /** The lengths whose uncertainty is not given; empty also where both are given as 0, which makes no uncertainty. */
  readonly missing: readonly MeasuredLength[];
}

/** Standard and expanded uncertainty of the gap of a setup, mm; undefined where the setup does not say enough. */
export function gapUncertainty({ uncertainties }: Setup, coverage: CoverageFactor): GapUncertainty {
  const { standardUncertainty, degreesOfFreedom } = uncertaintyBudget(
    LENGTHS.map((length) => ({
      component: length,
      standardUncertainty: uncertainties[length]?.standard,
      degreesOfFreedom: uncertainties[length]?.degreesOfFreedom,
    })),
  );
  const factor = degreesOfFreedom === undefined ? undefined : coverage(degreesOfFreedom);
  return {
    standardMm: standardUncertainty,
    degreesOfFreedom,
    coverageFactor: factor,
    expandedMm:
      standardUncertainty === undefined || factor === undefined ? undefined : factor * standardUncertainty,
    missing: LENGTHS.filter((length) => uncertainties[length] === undefined),
  };
}
