/**
 * What a goal leaves open. The singular values of the targets' Jacobian (ml-matrix; Golub & Van Loan) say how much each
 * direction in the space of leadpipes changes the targets: along one with a small value the bore may move far and the goal
 * hardly notices, so that many bores serve equally and a search finds one of them.
 */
import { Matrix, SVD } from "ml-matrix";
import { type DesignProblem, UNIT_MM } from "./designProblem.ts";

export interface Direction {
  /** Change of the targets, weighted cents or dB, a mm along the direction. */
  readonly singularPerMm: number;
  /** How far the bore may go along it until the targets have changed by one, mm; Infinity where they never do, by first order. */
  readonly reachMm: number;
  /** Change of each control diameter (held ones 0), and of the gap last if it may change; length 1, mm. */
  readonly changeMm: readonly number[];
}

export interface Freedom {
  readonly directions: readonly Direction[];
  /** How many directions the goal settles to within `settledMm`. */
  readonly settled: number;
  readonly settledMm: number;
}

/** A bore that is known to this is settled: what a mandrel is turned to and a leadpipe drawn to. Own choice, no source. */
const SETTLED_MM = 0.1;

/** What the goal leaves open near a solution: directions in which the bore may change and the targets hardly do. */
export function freedomOf(problem: DesignProblem, variables: readonly number[]): Freedom {
  const { goal, free, spline, limits } = problem;
  const perMm = problem
    .jacobian(variables)
    .slice(0, goal.targets.length)
    .map((row) => row.map((value, j) => (j < free.length ? value / UNIT_MM : value)));
  const { diagonal, rightSingularVectors } = svdOf(perMm, variables.length);
  const largest = Math.max(...diagonal, 0);
  const directions = diagonal
    .map((value, i): Direction => {
      const vector = rightSingularVectors.getColumn(i);
      const controls: number[] = spline.controlsMm.map(() => 0);
      free.forEach((k, j) => {
        controls[k] = vector[j];
      });
      // below what the resonances are found to, a value is rounding
      const isNothing = !(value > 1e-7 * largest);
      return {
        singularPerMm: isNothing ? 0 : value,
        reachMm: isNothing ? Infinity : 1 / value,
        changeMm: [...controls, ...(limits.gapMm ? [vector[vector.length - 1]] : [])],
      };
    })
    .sort((a, b) => a.reachMm - b.reachMm);
  const settled = directions.filter(({ reachMm }) => reachMm <= SETTLED_MM).length;
  return { directions, settled, settledMm: SETTLED_MM };
}

/** All right singular vectors, also those that no row answers to. */
function svdOf(rows: readonly (readonly number[])[], columns: number) {
  const missing = Math.max(0, columns - rows.length);
  const padded = [
    ...rows.map((row) => [...row]),
    ...Array.from({ length: missing }, () => Array<number>(columns).fill(0)),
  ];
  return new SVD(new Matrix(padded), { computeLeftSingularVectors: false, autoTranspose: false });
}
