/** The items in the order of their mean preference, each with the places it may have: for shanks and instruments, which no curve joins. */
import { randomLcg } from "d3";
import { drawnMeans, type Interval, itemMeans, middle } from "./itemMeans.ts";

export interface RankedItem {
  readonly item: number;
  readonly mean: number;
  /** Of the mean, 95 %. */
  readonly interval: Interval;
  /** From 1, the most preferred. */
  readonly rank: number;
  /** Places that hold 95 % of the draws. */
  readonly ranks: Interval;
}

const DRAWS = 2000;

/** Best first. @param blocks a row a repeat (two or more), a column an item */
export function ranking(
  blocks: readonly (readonly number[])[],
  random: () => number = randomLcg(1),
): RankedItem[] {
  const draws = drawnMeans(blocks, DRAWS, random);
  const rankOf = (means: readonly number[], item: number): number =>
    1 + means.filter((mean) => mean > means[item]).length;
  const means = itemMeans(blocks);
  return means
    .map((mean, item) => {
      const [best, worst] = middle(draws.map((drawn) => rankOf(drawn, item)));
      return {
        item,
        mean,
        interval: middle(draws.map((drawn) => drawn[item])),
        rank: rankOf(means, item),
        ranks: [Math.floor(best), Math.ceil(worst)] as const,
      };
    })
    .sort((a, b) => b.mean - a.mean || a.item - b.item);
}
