/**
 * From a goal to a leadpipe: Levenberg and Marquardt's method on the residuals and the exact Jacobian of `designProblem.ts`, from the present leadpipe and from a seeded spread of others, since a goal may have several valleys. One
 * step at a time, so that whoever asked can show how it goes, and stop it.
 */

import { randomLcg } from "d3";
import type { Setup } from "../../setup/setup.ts";
import { OutOfRange } from "../../units/outOfRange.ts";
import { levenbergMarquardt, sumOfSquares } from "../leastSquares/levenbergMarquardt.ts";
import { DESIGN_DEFAULTS } from "./designDefaults.ts";
import type { DesignGoal, Target } from "./designGoal.ts";
import type { DesignLimits } from "./designLimits.ts";
import { DesignProblem, missOf, UNIT_MM } from "./designProblem.ts";

export interface DesignOptions {
  readonly goal: DesignGoal;
  readonly limits: DesignLimits;
  /** How many starts, your leadpipe the first of them. */
  readonly restarts?: number;
  /** The same seed starts from the same leadpipes. */
  readonly seed?: number;
  readonly stepsEach?: number;
}

/** How far the search has come, after every step. */
export interface DesignProgress {
  readonly start: number;
  readonly of: number;
  readonly step: number;
  /** Weighted root mean square of the misses, here and at the best so far, cents or dB. */
  readonly miss: number;
  readonly best: number;
}

export interface ReachedTarget extends Target {
  /** null where the bore lacks it. */
  readonly before: number | null;
  readonly after: number | null;
  /** What it was off by, and what is left, in cents or dB. */
  readonly missedBefore: number | null;
  readonly missedBy: number | null;
  /** Farther from its target than it was, or gone. */
  readonly isWorse: boolean;
}

/**
 * How a start came to its end: no step is left worth taking, it stopped at its last step on the way, or whoever asked had enough.
 */
export type StartEnd = "converged" | "not-converged" | "stopped";

export interface Design {
  readonly setup: Setup;
  readonly gapMm: number;
  readonly knots: readonly { readonly positionMm: number; readonly diameterMm: number }[];
  readonly targets: readonly ReachedTarget[];
  /** Weighted root mean square before, of the leadpipe and gap there were, and after. */
  readonly missBefore: number;
  readonly missAfter: number;
  /** Where each start came to; several that are as good are several bores that serve. */
  readonly starts: readonly {
    readonly miss: number;
    readonly steps: number;
    readonly ended: StartEnd;
    readonly diametersMm: readonly number[];
  }[];
  /** Which of them is the leadpipe found, from 0. */
  readonly chosen: number;
  /** How far the spline of the first start is from the leadpipe there was, mm of diameter at most. */
  readonly splineOffByMm: number;
  /** Largest part by which a limit of the shape is broken: mm of narrowing between knots where it should widen. */
  readonly narrowsByMm: number;
  readonly problem: DesignProblem;
  /** The variables found. */
  readonly variables: readonly number[];
}

/** Less than this, in cents or dB, is no change for the worse: what the search and its spline are accurate to. Own choice. */
const WORSE_BY = 0.05;

interface Found {
  readonly x: readonly number[];
  readonly miss: number;
  readonly steps: number;
  readonly ended: StartEnd;
}

/** A start has come to its end where a step gains less than this part, or moves no variable by more. */
const SETTLED = { squares: 1e-7, variables: 1e-7 };

/**
 * A true given back after a step ends the search with the best so far.
 * @throws OutOfRange on limits that leave nothing to design, SetupError on a gap the receiver cannot have
 */
export function* designSteps(
  setup: Setup,
  options: DesignOptions,
): Generator<DesignProgress, Design, boolean | undefined> {
  const { goal, limits, restarts, seed, stepsEach } = { ...DESIGN_DEFAULTS, ...options };
  if (!Number.isInteger(restarts) || restarts < 1 || restarts > 1000)
    throw new OutOfRange(`${restarts} is no number of restarts: give a whole number from 1 to 1000`);
  const problem = new DesignProblem(setup, goal, limits);
  if (problem.start.length === 0)
    throw new OutOfRange("every knot is held and the gap stays: free one of them");
  const found: Found[] = [];
  const leastSquares = {
    low: problem.low,
    high: problem.high,
    residuals: (x: readonly number[]) => problem.residuals(x),
    columns: (x: readonly number[]) => {
      const rows = problem.jacobian(x);
      return x.map((_, j) => rows.map((row) => row[j]));
    },
  };
  let best = Infinity;
  let isStopped = false;
  for (const [i, start] of startsOf(problem, restarts, seed).entries()) {
    let last: Found = { x: start, miss: Infinity, steps: 0, ended: "not-converged" };
    const search = { ...leastSquares, start };
    for (const { x, squares, settled } of levenbergMarquardt(search, SETTLED)) {
      const step = last.steps + 1;
      const miss = missOfAll(goal, squares);
      last = { x, miss, steps: step, ended: settled ? "converged" : "not-converged" };
      best = Math.min(best, miss);
      isStopped = (yield { start: i + 1, of: restarts, step, miss, best }) === true;
      if (isStopped || step === stepsEach) break;
    }
    found.push(isStopped && last.ended !== "converged" ? { ...last, ended: "stopped" } : last);
    if (isStopped) break;
  }
  return designOf(problem, found);
}

/** All at once. */
export function design(setup: Setup, options: DesignOptions): Design {
  const steps = designSteps(setup, options);
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
  }
}

/** √(Σ w·miss²/Σ w) of the targets, and of what breaks limits, from the sum of the weighted squares. */
const missOfAll = ({ targets }: DesignGoal, squares: number): number =>
  Math.sqrt(squares / targets.reduce((sum, { weight }) => sum + weight, 0));

/** The present leadpipe, then any between the bounds; in rising order where it shall widen. */
function startsOf(problem: DesignProblem, count: number, seed: number): number[][] {
  const random = randomLcg(seed);
  const { start, low, high, free, limits } = problem;
  return Array.from({ length: count }, (_, i) => {
    if (i === 0) return [...start];
    const x = start.map((_, j) => low[j] + (high[j] - low[j]) * random());
    if (!limits.widens) return x;
    // between ends that are held
    const controls = problem.controlsOf(start);
    const from = limits.holdsEntry ? controls[0] / UNIT_MM : low[0];
    const to = limits.holdsEnd ? controls[controls.length - 1] / UNIT_MM : high[0];
    const rising = free.map(() => from + (to - from) * random()).sort((a, b) => a - b);
    return x.map((value, j) => rising[j] ?? value);
  });
}

function designOf(problem: DesignProblem, found: readonly Found[]): Design {
  const chosen = found.reduce((best, { miss }, i) => (miss < found[best].miss ? i : best), 0);
  const variables = found[chosen].x;
  const { goal, limits, spline } = problem;
  const values = (x: readonly number[]) => problem.valuesOf(problem.instrumentOf(x).modes(problem.gapOf(x)));
  const before = problem.present();
  const after = values(variables);
  const controls = problem.controlsOf(variables);
  const narrowing = controls.slice(1).map((d, k) => controls[k] - d);
  return {
    setup: problem.setupOf(variables),
    gapMm: problem.gapOf(variables),
    knots: spline.controlsMm.map((positionMm, k) => ({ positionMm, diameterMm: controls[k] })),
    targets: goal.targets.map((target, i) => {
      const missed = (value: number | null) => (value === null ? null : missOf(target, value));
      const [missedBefore, missedBy] = [missed(before[i]), missed(after[i])];
      return {
        ...target,
        before: before[i],
        after: after[i],
        missedBefore,
        missedBy,
        isWorse:
          missedBefore !== null &&
          (missedBy === null || Math.abs(missedBy) > Math.abs(missedBefore) + WORSE_BY),
      };
    }),
    missBefore: missOfAll(goal, sumOfSquares(problem.missesOf(before))),
    missAfter: missOfAll(goal, sumOfSquares(problem.residuals(variables))),
    starts: found.map(({ x, ...start }) => ({ ...start, diametersMm: problem.controlsOf(x) })),
    chosen,
    splineOffByMm: problem.splineOffByMm(),
    narrowsByMm: limits.widens ? Math.max(0, ...narrowing) : 0,
    problem,
    variables,
  };
}
