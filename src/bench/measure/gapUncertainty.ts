/**
 * How well a setup knows its own gap: the standard uncertainties of receiver depth and insertion in quadrature. One that is
 * not given makes the gap's unknown: a cut must not rest on half of it.
 */
import type { Setup } from "../../setup/setup.ts";
import { uncertaintyBudget } from "./budget.ts";
import type { CoverageFactor } from "./combinedUncertainty.ts";

export interface GapUncertainty {
  /** All undefined where it is not known. */
  readonly standardMm: number | undefined;
  /** Welch–Satterthwaite; Infinity where neither length's uncertainty is itself in doubt. */
  readonly degreesOfFreedom: number | undefined;
  /** For 95 %. */
  readonly coverageFactor: number | undefined;
  readonly expandedMm: number | undefined;
  /** Why it is not known; undefined when it is. */
  readonly words: string | undefined;
}

const lengths = [
  ["receiver.depth", "receiver depth"],
  ["mouthpiece.insertion", "insertion"],
] as const;

/** Standard and expanded uncertainty of the gap of a setup, mm; in words where the setup does not say enough. */
export function gapUncertainty({ uncertainties }: Setup, coverage: CoverageFactor): GapUncertainty {
  const { rows, standardUncertainty, degreesOfFreedom } = uncertaintyBudget(
    lengths.map(([path, component]) => ({
      component,
      standardUncertainty: uncertainties[path]?.standard,
      degreesOfFreedom: uncertainties[path]?.degreesOfFreedom,
    })),
  );
  const factor = degreesOfFreedom === undefined ? undefined : coverage(degreesOfFreedom);
  return {
    standardMm: standardUncertainty,
    degreesOfFreedom,
    coverageFactor: factor,
    expandedMm:
      standardUncertainty === undefined || factor === undefined ? undefined : factor * standardUncertainty,
    words:
      standardUncertainty === undefined
        ? unknown(
            rows.filter((row) => row.standardUncertainty === undefined).map(({ component }) => component),
          )
        : undefined,
  };
}

function unknown(missing: readonly string[]): string {
  if (missing.length === 0)
    return "The setup gives an uncertainty of 0 for receiver depth and insertion, which no measurement can claim.";
  if (missing.length === 1)
    return `The setup does not say how well the ${missing[0]} is known, so the gap's uncertainty is unknown.`;
  return "The setup does not say how well receiver depth and insertion are known, so the gap's uncertainty is unknown.";
}
