/**
 * A change in stages: never more than half of what remains, then measure again, until what remains is within the tolerance
 * or below what the gap is known to, ±U. (Common practice, no source.) From R to E = max(tolerance, U) in the fewest such
 * stages, n = ⌈log₂(R/E)⌉, each leaving the same share q = (E/R)^{1/n} ≥ 1/2 of what remained before it. What remains is
 * never below U, so not even the far end of the measuring interval is overshot, and no stage is too small to make.
 */

import type { CutWayStage } from "./cutWay.ts";

/**
 * The finest that a lathe takes off and that is still seen at the bench, mm: on the diameter (0.1 mm of insertion at 1:20), and
 * of length. Common practice, no source.
 */
export const FINEST_OFF_DIAMETER_MM = 0.005;
export const FINEST_OFF_LENGTH_MM = 0.02;

/** The stages that can be cut and checked: the last ones, where they are finer than that, are not worked to. */
export function workableStages(stages: readonly CutWayStage[], finest: number): readonly CutWayStage[] {
  // a millionth of a stage too fine is fine enough
  const tooFine = stages.findIndex(({ size }) => size < finest * (1 - 1e-6));
  return tooFine < 0 ? stages : stages.slice(0, tooFine);
}

/** Sizes of the stages, all above 0; empty when nothing remains to do. All arguments in the same unit. */
export function stagedSteps(remaining: number, expandedUncertainty: number, tolerance: number): number[] {
  const enough = Math.max(tolerance, expandedUncertainty);
  if (!(remaining > enough)) return [];
  // a millionth of a stage too many is no stage
  const count = Math.max(1, Math.ceil(Math.log2(remaining / enough) - 1e-6));
  const kept = (enough / remaining) ** (1 / count);
  return Array.from({ length: count }, (_, i) => remaining * kept ** i * (1 - kept));
}
