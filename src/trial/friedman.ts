/**
 * Friedman's test on ranks within each repeat (Friedman 1937, J. Am. Stat. Assoc. 32, 675), corrected for ties as in
 * Hollander & Wolfe, Nonparametric Statistical Methods, 7.1: χ² = (k−1) Σ(R_j − n(k+1)/2)² / (Σr² − nk(k+1)²/4), p from χ²
 * with k−1 degrees of freedom: an approximation, rough for few repeats. Kendall's W = χ²/(n(k−1)): 1 where all repeats rank alike.
 */
import { chiSquareTail } from "../statistics/distributions.ts";

export interface Friedman {
  readonly chiSquare: number;
  readonly degreesOfFreedom: number;
  readonly p: number;
  /** Kendall's W, 0 to 1. */
  readonly concordance: number;
}

/**
 * Friedman's test with ties, its p by χ².
 *
 * @param blocks a row a repeat, a column an item
 */
export function friedman(blocks: readonly (readonly number[])[]): Friedman {
  const [n, k] = [blocks.length, blocks[0].length];
  const ranks = blocks.map(ranksOf);
  const expected = (n * (k + 1)) / 2;
  let between = 0;
  for (let item = 0; item < k; item++)
    between += (ranks.reduce((sum, row) => sum + row[item], 0) - expected) ** 2;
  const spread = ranks.flat().reduce((sum, rank) => sum + rank * rank, 0) - (n * k * (k + 1) ** 2) / 4;
  const degreesOfFreedom = k - 1;
  // all tied in every repeat: nothing differs
  const value = spread > 0 ? (degreesOfFreedom * between) / spread : 0;
  return {
    chiSquare: value,
    degreesOfFreedom,
    p: chiSquareTail(value, degreesOfFreedom),
    concordance: value / (n * degreesOfFreedom),
  };
}

/** From 1, least first; equal values share the mean of their ranks. */
export const ranksOf = (values: readonly number[]): number[] =>
  values.map((value) => {
    const below = values.filter((other) => other < value).length;
    const equal = values.filter((other) => other === value).length;
    return below + (equal + 1) / 2;
  });
