/**
 * The gap a player prefers: least-squares parabola through preference by gap with an effect of each repeat. As every gap is
 * played once in each repeat, the repeats' effects drop out and the parabola is that through the gaps' means. Its highest
 * place within the gaps tried, never outside; interval by the draws of `itemMeans.ts`.
 */
import { randomLcg } from "d3";
import { fProbability } from "../statistics/distributions.ts";
import { drawnMeans, type Interval, itemMeans, middle } from "./itemMeans.ts";
import { ERROR_RATE } from "./power.ts";
import { repeatability } from "./repeatability.ts";

/** Highest between two of the gaps tried, at the narrowest or widest of them, or at both rather than between. */
export type CurveShape = "peak" | "end" | "valley";

export interface CurvePoint {
  readonly gapMm: number;
  readonly rating: number;
  /** 95 %, at this gap alone. */
  readonly interval: Interval;
}

export interface PreferenceCurve {
  readonly shape: CurveShape;
  readonly bestGapMm: number;
  readonly intervalMm: Interval;
  /** The interval reaches the narrowest, or the widest, gap tried: the best may lie beyond. */
  readonly reachesNarrowest: boolean;
  readonly reachesWidest: boolean;
  /** From the narrowest to the widest gap tried. */
  readonly points: readonly CurvePoint[];
  /** How likely the means lie so far off a parabola by chance; null for three gaps, or where no repeat differs. */
  readonly misfitP: number | null;
}

const DRAWS = 2000;
const POINTS = 41;
/** No preference is known more finely, mm. */
const FINE_MM = 0.05;

/**
 * The parabola of preference against gap and the gap it is highest at, with intervals; ratings 0 to 100, gaps in mm.
 *
 * @param gapsMm different, three or more
 * @param blocks a row a repeat (two or more), a column a gap
 */
export function preferenceCurve(
  gapsMm: readonly number[],
  blocks: readonly (readonly number[])[],
  random: () => number = randomLcg(1),
): PreferenceCurve {
  const through = parabolaFor(gapsMm);
  const means = itemMeans(blocks);
  const parabola = through(means);
  const draws = drawnMeans(blocks, DRAWS, random).map(through);
  const [least, most] = [Math.min(...gapsMm), Math.max(...gapsMm)];
  const points = Array.from({ length: POINTS }, (_, i) => {
    const gapMm = least + (i / (POINTS - 1)) * (most - least);
    return { gapMm, rating: parabola.at(gapMm), interval: middle(draws.map(({ at }) => at(gapMm))) };
  });
  const intervalMm = middle(draws.map(({ bestMm }) => bestMm));
  return {
    shape: parabola.shape,
    bestGapMm: parabola.bestMm,
    intervalMm,
    reachesNarrowest: intervalMm[0] < least + FINE_MM,
    reachesWidest: intervalMm[1] > most - FINE_MM,
    points,
    misfitP: misfit(gapsMm, means, parabola, blocks),
  };
}

/** The means lie too far off the parabola for it to be believed; single gaps are then compared instead. */
export const isMisfit = ({ misfitP }: PreferenceCurve): boolean => misfitP !== null && misfitP < ERROR_RATE;

/** Whether the curve singles out one gap within the gaps tried, if only at their end. */
export const isOneGapBest = (curve: PreferenceCurve): boolean =>
  !isMisfit(curve) && curve.shape !== "valley" && !(curve.reachesNarrowest && curve.reachesWidest);

interface Parabola {
  readonly at: (gapMm: number) => number;
  readonly bestMm: number;
  readonly shape: CurveShape;
}

/** The least-squares parabola for any ratings at these gaps, by polynomials orthogonal over them. */
function parabolaFor(gapsMm: readonly number[]): (ratings: readonly number[]) => Parabola {
  const middleMm = mean(gapsMm);
  const away = gapsMm.map((gapMm) => gapMm - middleMm);
  const square = mean(away.map((u) => u * u));
  const skew = mean(away.map((u) => u ** 3)) / square;
  const bend = (u: number) => u * u - skew * u - square;
  const bends = away.map(bend);
  const [least, most] = [Math.min(...away), Math.max(...away)];
  return (ratings) => {
    const level = mean(ratings);
    const slope = dot(ratings, away) / dot(away, away);
    const curvature = dot(ratings, bends) / dot(bends, bends);
    const rise = (u: number) => slope * u + curvature * bend(u);
    const vertex = (skew - slope / curvature) / 2;
    const isBetween = vertex > least && vertex < most;
    const end = rise(most) > rise(least) ? most : least;
    return {
      at: (gapMm) => level + rise(gapMm - middleMm),
      bestMm: middleMm + (isBetween && curvature < 0 ? vertex : end),
      shape: isBetween ? (curvature < 0 ? "peak" : "valley") : "end",
    };
  };
}

/** F of the means' distance from the parabola against the scatter of the repeats. */
function misfit(
  gapsMm: readonly number[],
  means: readonly number[],
  { at }: Parabola,
  blocks: readonly (readonly number[])[],
): number | null {
  const left = gapsMm.length - 3;
  const { standardDeviation, degreesOfFreedom } = repeatability(blocks);
  if (left === 0 || standardDeviation === 0) return null;
  const off = gapsMm.reduce((sum, gapMm, i) => sum + (means[i] - at(gapMm)) ** 2, 0);
  const f = (blocks.length * off) / left / standardDeviation ** 2;
  return 1 - fProbability(f, left, degreesOfFreedom);
}

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;
const dot = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, value, i) => sum + value * b[i], 0);
