/**
 * Whether curved fronts in the bell would fit a measurement better than plane waves do. With r′ the residuals of the other bell
 * where the fit has settled, the unknowns take up what they can of them, by first order (as in `heldDimensions.ts`),
 *
 *   Δx = −(JᵀJ)⁻¹Jᵀr′,   |r″|² = |r′|² + (Jᵀr′)ᵀΔx,
 *
 * and no second fit has to be waited for to know that one is worth it.
 */
import { withBell } from "../../setup/withBell.ts";
import { OutOfRange } from "../../units/outOfRange.ts";
import type { ColumnFitProblem } from "./columnFitProblem.ts";
import type { CurvedBell } from "./columnFitResult.ts";

/** Twice the logarithm of a ratio of likelihoods from which one bell is told from the other: one in several hundred by chance. */
const TELLS = 9;

/**
 * null where the bell follows curved fronts already, or cannot.
 * @param at where the fit has settled
 * @param squares of the residuals there
 * @param columns J there
 * @param inverse (JᵀJ)⁻¹
 * @param worth how many independent residuals there are
 */
export function curvedBell(
  problem: ColumnFitProblem,
  at: readonly number[],
  squares: number,
  columns: readonly Float64Array[],
  inverse: readonly (readonly number[])[],
  worth: number,
): CurvedBell | null {
  if (problem.setup.model.bell !== "plane") return null;
  const other = residualsOfCurved(problem, at);
  if (!other) return null;
  const pulls = columns.map((column) => column.reduce((sum, x, row) => sum + x * other[row], 0));
  const steps = inverse.map((row) => -row.reduce((sum, entry, k) => sum + entry * pulls[k], 0));
  const whole = other.reduce((sum, r) => sum + r * r, 0);
  const left = Math.max(
    0,
    pulls.reduce((sum, pull, k) => sum + pull * steps[k], whole),
  );
  return {
    scatterDb: problem.scatterDb(left),
    moves: problem.unknowns.map(({ step }, i) => step * steps[i]),
    told: toldBy(worth * Math.log(squares / Math.max(left, Number.MIN_VALUE))),
  };
}

const toldBy = (evidence: number): CurvedBell["told"] =>
  evidence > TELLS ? "curved" : evidence < -TELLS ? "plane" : "neither";

function residualsOfCurved(problem: ColumnFitProblem, at: readonly number[]): Float64Array | null {
  try {
    const residuals = problem.residualsOf(withBell(problem.setup, "multimodal"), at);
    return residuals.every(Number.isFinite) ? residuals : null;
  } catch (error) {
    // a mouth too wide for them
    if (error instanceof OutOfRange) return null;
    throw error;
  }
}
