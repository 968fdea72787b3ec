/**
 * Agreement of a player with himself. Two-way analysis of variance of items and repeats without interaction; a drift from
 * repeat to repeat drops out. s_r² = residual mean square; two ratings of one item differ by less than 1.96·√2·s_r in 95 %
 * of cases (repeatability limit, ISO 5725-6). Intraclass correlation ICC(3,1) = (MS_items − MS_r)/(MS_items + (n−1)MS_r) with
 * its exact interval from F (Shrout & Fleiss 1979, Psychol. Bull. 86, 420).
 */
import { fProbability, fQuantile } from "../statistics/distributions.ts";

/** How well repeats agree, by the correlation; `all-alike`: every turn got the same rating. */
export type Agreement = "all-alike" | "good" | "fair" | "poor";

export interface Repeatability {
  /** s_r, in points of the scale. */
  readonly standardDeviation: number;
  readonly degreesOfFreedom: number;
  readonly limit: number;
  /** ICC(3,1): the share of the ratings' spread that comes from the items; null where no rating differs from any other. */
  readonly correlation: number | null;
  readonly interval: readonly [low: number, high: number] | null;
  /** Of the analysis of variance; null where the residuals are all 0. */
  readonly pNormal: number | null;
  readonly agreement: Agreement;
}

/** Above this a correlation is called good, above the other fair (Koo & Li 2016, J. Chiropr. Med. 15, 155). */
const GOOD = 0.75;
const FAIR = 0.5;

/**
 * How well repeats of one and the same item agree, ratings 0 to 100.
 *
 * @param blocks a row a repeat (two or more), a column an item
 */
export function repeatability(blocks: readonly (readonly number[])[], confidence = 0.95): Repeatability {
  const [n, k] = [blocks.length, blocks[0].length];
  const mean = (values: readonly number[]) => values.reduce((sum, one) => sum + one, 0) / values.length;
  const whole = mean(blocks.map(mean));
  const items = blocks[0].map((_, item) => mean(blocks.map((block) => block[item])));
  const repeats = blocks.map(mean);
  const degreesOfFreedom = (n - 1) * (k - 1);
  let residual = 0;
  for (const [repeat, block] of blocks.entries())
    for (const [item, rating] of block.entries())
      residual += (rating - items[item] - repeats[repeat] + whole) ** 2;
  const residualSquare = residual / degreesOfFreedom;
  const itemSquare = (n * items.reduce((sum, item) => sum + (item - whole) ** 2, 0)) / (k - 1);
  const spread = itemSquare + (n - 1) * residualSquare;
  const correlation = spread > 0 ? (itemSquare - residualSquare) / spread : null;
  const isExactlyAlike = residualSquare <= 1e-12 * spread;
  const standardDeviation = Math.sqrt(residualSquare);
  let interval: [number, number] | null = null;
  if (correlation !== null && isExactlyAlike) interval = [1, 1];
  else if (correlation !== null) {
    const f = itemSquare / residualSquare;
    const tail = (1 + confidence) / 2;
    const low = f / fQuantile(tail, k - 1, degreesOfFreedom);
    const high = f * fQuantile(tail, degreesOfFreedom, k - 1);
    interval = [(low - 1) / (low + n - 1), (high - 1) / (high + n - 1)];
  }
  return {
    standardDeviation,
    degreesOfFreedom,
    limit: 1.96 * Math.SQRT2 * standardDeviation,
    correlation,
    interval,
    pNormal: isExactlyAlike ? null : 1 - fProbability(itemSquare / residualSquare, k - 1, degreesOfFreedom),
    agreement: agreementOf(correlation),
  };
}

function agreementOf(correlation: number | null): Agreement {
  if (correlation === null) return "all-alike";
  if (correlation >= GOOD) return "good";
  return correlation >= FAIR ? "fair" : "poor";
}
