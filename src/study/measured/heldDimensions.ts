/**
 * The price of what a fit leaves as the setup has it. A dimension that is off by Δd moves the residuals by (∂r/∂d) Δd, and the
 * least squares take that up as well as they can in the unknowns,
 *
 *   Δx = −(JᵀJ)⁻¹ Jᵀ (∂r/∂d) Δd,
 *
 * for the setup's stated and assumed uncertainties one after the other (JCGM 100:2008, 5.1.3). Half a degree of the air can be as much as a millimetre of gap.
 */
import type { Setup } from "../../setup/setup.ts";
import { STEP, type UncertainDimension, uncertainDimensions } from "../uncertainty/contributions.ts";
import type { ColumnFitProblem } from "./columnFitProblem.ts";

export interface Held {
  readonly dimension: UncertainDimension;
  /** Δx for its standard uncertainty, in the unknowns' own units. */
  readonly moves: readonly number[];
}

/**
 * @param at where the fit has settled
 * @param columns J there
 * @param inverse (JᵀJ)⁻¹
 */
export function heldDimensions(
  problem: ColumnFitProblem,
  at: readonly number[],
  columns: readonly Float64Array[],
  inverse: readonly (readonly number[])[],
): Held[] {
  return uncertainDimensions(problem.setup).flatMap((dimension): Held[] => {
    const change = residualChange(problem, at, dimension);
    if (!change) return [];
    const pulls = columns.map((column) => column.reduce((sum, x, row) => sum + x * change[row], 0));
    const moves = problem.unknowns.map(
      ({ step }, i) =>
        -step * dimension.standard * inverse[i].reduce((sum, entry, k) => sum + entry * pulls[k], 0),
    );
    return moves.some((by) => by !== 0) ? [{ dimension, moves }] : [];
  });
}

/** ∂r/∂d by differences; null where it changes nothing, as what is fitted itself does. */
function residualChange(
  problem: ColumnFitProblem,
  at: readonly number[],
  { unit, moved }: UncertainDimension,
): Float64Array | null {
  const by = STEP[unit];
  const side = (setup: Setup) => problem.residualsOf(setup, at);
  const [less, more] = [side(moved(problem.setup, -by / 2)), side(moved(problem.setup, by / 2))];
  const change = more.map((r, row) => (r - less[row]) / by);
  return change.every(Number.isFinite) && change.some((x) => x !== 0) ? change : null;
}
