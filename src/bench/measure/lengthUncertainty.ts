/** How well each of the two lengths behind a measured gap is known: its own part of the gap's budget. */
import type { Uncertainty } from "../../setup/setup.ts";
import { type BudgetRow, uncertaintyBudget } from "./budget.ts";
import { coverageFactor } from "./coverage.ts";

/** Beyond these, Student's t is the normal distribution to six figures, and a setup file takes no larger number. */
const MOST_DEGREES_OF_FREEDOM = 1e6;

/**
 * The standard uncertainty of one length, mm. What drops out of the gap (the zero of a tool that measured both) is in
 * neither length, so that the two put together again give the gap's. Undefined when the readings cannot tell.
 */
export function lengthUncertainty(
  budget: readonly BudgetRow[],
  length: "depth" | "insertion",
): Uncertainty | undefined {
  const { standardUncertainty, degreesOfFreedom } = uncertaintyBudget(
    budget.filter(({ component }) => component.startsWith(`${length}-`)),
  );
  if (standardUncertainty === undefined || degreesOfFreedom === undefined) return undefined;
  return {
    standard: standardUncertainty,
    degreesOfFreedom: degreesOfFreedom > MOST_DEGREES_OF_FREEDOM ? Infinity : degreesOfFreedom,
  };
}

/** ±U: half of the interval that holds the value with this probability (JCGM 100:2008, 6.2). */
export const expandedUncertainty = ({ standard, degreesOfFreedom }: Uncertainty, confidence = 0.95): number =>
  coverageFactor(degreesOfFreedom, confidence) * standard;
