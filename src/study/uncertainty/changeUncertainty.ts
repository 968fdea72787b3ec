/**
 * How well the change between two gaps is known. An error of any dimension is the same at both gaps and mostly drops out of
 * the change; the insertion alone is set and measured anew at each, so its two errors are independent. What is assumed is
 * the same at both gaps: there it is one instrument among those like it.
 */
import {
  type CoverageFactor,
  combinedUncertainty,
  effectiveDegreesOfFreedom,
} from "../../bench/measure/combinedUncertainty.ts";
import { isSetAnew, type ModeContributions, type UncertainDimension } from "./contributions.ts";

/** A component of a change. */
export interface ChangeSource {
  readonly path: string;
  readonly name: string;
  readonly degreesOfFreedom: number;
  /** How instruments like this one differ, rather than how well this one is measured. */
  readonly isAssumed: boolean;
}

export interface Uncertain {
  /** u, in the unit of the change. */
  readonly standard: number;
  readonly degreesOfFreedom: number;
  /** U = k·u, 95 %. */
  readonly expanded: number;
  /** Share of each source in u², 0 to 1; all 0 where u is. */
  readonly shares: readonly number[];
}

/** Of one resonance's changes; null where the change itself does not exist. */
export interface ModeUncertainty {
  readonly n: number;
  readonly shiftCents: Uncertain;
  readonly heightDb: Uncertain | null;
  /** To the next resonance. */
  readonly spacingCents: Uncertain | null;
  /** Of the shift that remains after the slide brought one resonance back; null without one. */
  readonly retunedCents: Uncertain | null;
}

export interface ChangeUncertainty {
  readonly sources: readonly ChangeSource[];
  readonly modes: readonly ModeUncertainty[];
}

/**
 * Uncertainty of every resonance's change from one gap to another, by first order (JCGM 100:2008).
 * @param reference contributions of these dimensions at the reference gap
 * @param chosen the same at the chosen one
 * @param retune number of the resonance that the slide brings back
 */
export function changeUncertainty(
  dimensions: readonly UncertainDimension[],
  reference: readonly ModeContributions[],
  chosen: readonly ModeContributions[],
  coverage: CoverageFactor,
  retune: number | null = null,
): ChangeUncertainty {
  const sources = dimensions.flatMap((dimension): ChangeSource[] => {
    const { path, name, degreesOfFreedom, isAssumed } = dimension;
    return isSetAnew(dimension)
      ? ["reference", "chosen"].map((gap) => ({
          path,
          name: `${name} at the ${gap} gap`,
          degreesOfFreedom,
          isAssumed,
        }))
      : [{ path, name, degreesOfFreedom, isAssumed }];
  });
  /** Contribution of every source to chosen less reference. */
  const change = (from: readonly number[], to: readonly number[]): number[] =>
    dimensions.flatMap((dimension, i) => (isSetAnew(dimension) ? [-from[i], to[i]] : [to[i] - from[i]]));
  const uncertain = (contributions: readonly number[]): Uncertain => {
    const components = contributions.map((contribution, i) => ({
      standardUncertainty: Math.abs(contribution),
      degreesOfFreedom: sources[i].degreesOfFreedom,
    }));
    const standard = combinedUncertainty(components);
    const degreesOfFreedom = effectiveDegreesOfFreedom(components);
    const expanded = standard === 0 ? 0 : coverage(degreesOfFreedom) * standard;
    const shares = contributions.map((contribution) => (standard === 0 ? 0 : (contribution / standard) ** 2));
    return { standard, degreesOfFreedom, expanded, shares };
  };

  const pairs = chosen.flatMap((to) => {
    const from = reference.find(({ n }) => n === to.n);
    return from ? [{ n: to.n, from, to, shift: change(from.cents, to.cents) }] : [];
  });
  const held = pairs.find(({ n }) => n === retune);
  const modes = pairs.map(({ n, from, to, shift }, i): ModeUncertainty => {
    const next = pairs[i + 1]?.n === n + 1 ? pairs[i + 1] : undefined;
    // the slide takes the held resonance's error back, and so much of every other
    const back = held && held.to.slideCents !== 0 ? to.slideCents / held.to.slideCents : null;
    return {
      n,
      shiftCents: uncertain(shift),
      heightDb: from.decibels && to.decibels && uncertain(change(from.decibels, to.decibels)),
      spacingCents: next ? uncertain(next.shift.map((value, k) => value - shift[k])) : null,
      retunedCents:
        held && back !== null ? uncertain(shift.map((value, k) => value - back * held.shift[k])) : null,
    };
  });
  return { sources, modes };
}
