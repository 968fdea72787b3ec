/**
 * Do ratings differ between items? Were there no difference, the ratings of one repeat could stand in any order, each
 * repeat by itself. Statistic: sum of the items' squared totals, which over these orders rises with the F of the two-way
 * analysis of variance (Fisher 1935; Edgington & Onghena, Randomization Tests). p is the share of all orders in which it
 * is at least as large as here: exact where all can be counted, else from seeded draws, (1 + hits)/(1 + draws).
 */
import { randomLcg } from "d3";

export interface PermutationTest {
  readonly p: number;
  readonly isExact: boolean;
  /** Orders that were counted or drawn. */
  readonly orders: number;
  /** Of p; 0 where it is exact. */
  readonly standardError: number;
}

export interface PermutationOptions {
  /** Count all orders up to so many. */
  readonly mostExact?: number;
  readonly draws?: number;
  /** Uniform in [0, 1); seeded if absent. */
  readonly random?: () => number;
}

const MOST_EXACT = 2_000_000;
const DRAWS = 20_000;
/** Two orders with the same totals may differ by rounding. */
const ROUNDING = 1e-9;

/**
 * Whether ratings differ between items by more than their order within the repeats explains.
 *
 * @param blocks a row a repeat, a column an item
 */
export function permutationTest(
  blocks: readonly (readonly number[])[],
  { mostExact = MOST_EXACT, draws = DRAWS, random = randomLcg(1) }: PermutationOptions = {},
): PermutationTest {
  const centred = blocks.map((block) => {
    const mean = block.reduce((sum, one) => sum + one, 0) / block.length;
    return block.map((one) => one - mean);
  });
  const observed = sumOfSquares(centred[0].map((_, i) => centred.reduce((sum, block) => sum + block[i], 0)));
  const least = observed - ROUNDING * (1 + observed);
  const orders = orderCount(blocks.length, blocks[0].length);
  if (orders <= mostExact) {
    const p = countedShare(centred, least);
    return { p, isExact: true, orders, standardError: 0 };
  }
  const p = (1 + drawnHits(centred, least, draws, random)) / (1 + draws);
  return { p, isExact: false, orders: draws, standardError: Math.sqrt((p * (1 - p)) / draws) };
}

/** The first repeat can stay as it is: only what the others do against it matters. */
function orderCount(repeats: number, items: number): number {
  let factorial = 1;
  for (let i = 2; i <= items; i++) factorial *= i;
  return factorial ** (repeats - 1);
}

function countedShare(blocks: readonly (readonly number[])[], least: number): number {
  const items = blocks[0].length;
  const orders = permutations(items);
  const totals = blocks.map(() => new Float64Array(items));
  totals[0].set(blocks[0]);
  let hits = 0;
  const count = (repeat: number): void => {
    const [before, block] = [totals[repeat - 1], blocks[repeat]];
    if (repeat === blocks.length) {
      if (sumOfSquares(before) >= least) hits++;
      return;
    }
    for (const order of orders) {
      for (let i = 0; i < items; i++) totals[repeat][i] = before[i] + block[order[i]];
      count(repeat + 1);
    }
  };
  count(1);
  return hits / orderCount(blocks.length, items);
}

function drawnHits(
  blocks: readonly (readonly number[])[],
  least: number,
  draws: number,
  random: () => number,
): number {
  const items = blocks[0].length;
  const shuffled = blocks.map((block) => Float64Array.from(block));
  const totals = new Float64Array(items);
  let hits = 0;
  for (let draw = 0; draw < draws; draw++) {
    totals.set(shuffled[0]);
    for (let repeat = 1; repeat < shuffled.length; repeat++) {
      const block = shuffled[repeat];
      for (let i = items - 1; i > 0; i--) {
        const other = Math.floor(random() * (i + 1));
        const kept = block[i];
        block[i] = block[other];
        block[other] = kept;
        totals[i] += block[i];
      }
      totals[0] += block[0];
    }
    if (sumOfSquares(totals) >= least) hits++;
  }
  return hits;
}

function permutations(count: number): number[][] {
  if (count === 0) return [[]];
  return permutations(count - 1).flatMap((shorter) =>
    Array.from({ length: count }, (_, at) => [...shorter.slice(0, at), count - 1, ...shorter.slice(at)]),
  );
}

function sumOfSquares(totals: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < totals.length; i++) sum += totals[i] * totals[i];
  return sum;
}
