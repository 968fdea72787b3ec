/**
 * The chance to find a difference before anyone plays, by simulated trials: the best and the worst item lie that far apart
 * and all others midway, which is the hardest case to find (any other spread of the items is found more often); ratings
 * scatter normally about them. Found: p < 0.05 by `permutation.ts`, as the real trial decides.
 */
import { randomLcg, randomNormal } from "d3";
import { permutationTest } from "./permutation.ts";

/** Of the test that decides: how often items that do not differ are told apart. */
export const ERROR_RATE = 0.05;

/** How often a difference that counts should be found. */
const AIM = 0.8;
/** No trial worth playing is asked for more, in scatters. */
const MOST_SCATTERS = 16;

const differences = new Map<string, number | null>();

/**
 * The difference, in standard deviations of one turn, that a trial of this size finds four times in five; null where it is too
 * small to find any (its orders are too few for p < 0.05). By simulation as above, to a tenth or so.
 */
export function differenceFound(items: number, repeats: number): number | null {
  const key = `${items} ${repeats}`;
  let found = differences.get(key);
  if (found === undefined) {
    const chanceOf = (difference: number) =>
      power({ items, repeats, difference, scatter: 1, simulations: 150 }).chance;
    let [low, high] = [0, 1];
    while (high <= MOST_SCATTERS && chanceOf(high) < AIM) [low, high] = [high, 2 * high];
    for (let i = 0; high <= MOST_SCATTERS && i < 4; i++) {
      const middle = (low + high) / 2;
      if (chanceOf(middle) < AIM) low = middle;
      else high = middle;
    }
    found = high > MOST_SCATTERS ? null : high;
    differences.set(key, found);
  }
  return found;
}

export interface PowerQuestion {
  readonly items: number;
  readonly repeats: number;
  /** Between the best and the worst, in points. */
  readonly difference: number;
  /** Standard deviation of a player's ratings of one and the same item, in points. */
  readonly scatter: number;
  readonly simulations?: number;
  readonly seed?: number;
}

export interface Power {
  readonly repeats: number;
  readonly chance: number;
  /** From so many simulated trials. */
  readonly standardError: number;
}

const SIMULATIONS = 400;
/** Fewer than the real trial's: each simulated trial needs its own. */
const QUICK = { mostExact: 600, draws: 399 };

/** The chance that a trial of this size finds a difference of this size, with the chance's own standard error. */
export function power({
  items,
  repeats,
  difference,
  scatter,
  simulations = SIMULATIONS,
  seed = 1,
}: PowerQuestion): Power {
  const random = randomLcg(seed);
  const normal = randomNormal.source(random)(0, scatter);
  const effects = Array.from({ length: items }, (_, i) =>
    i === 0 ? difference / 2 : i === items - 1 ? -difference / 2 : 0,
  );
  let found = 0;
  for (let i = 0; i < simulations; i++) {
    const blocks = Array.from({ length: repeats }, () => effects.map((effect) => effect + normal()));
    if (permutationTest(blocks, { ...QUICK, random }).p < ERROR_RATE) found++;
  }
  const chance = found / simulations;
  return { repeats, chance, standardError: Math.sqrt((chance * (1 - chance)) / simulations) };
}
