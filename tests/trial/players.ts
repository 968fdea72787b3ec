/** Simulated players: what they like is known, and how much their word scatters. */
import { randomLcg, randomNormal } from "d3";
import { sealTrial } from "../../src/trial/seal.ts";
import { type Ratings, SCALES, type Trial, type TrialItem } from "../../src/trial/trial.ts";

export const gapItems = (...gapsMm: number[]): TrialItem[] => gapsMm.map((gapMm) => ({ name: "", gapMm }));
export const namedItems = (...names: string[]): TrialItem[] => names.map((name) => ({ name, gapMm: null }));

export interface Player {
  /** What is expected of an item, from 0 to 100. */
  readonly likes: (item: TrialItem, place: number) => number;
  readonly scatter: number;
}

/** A trial played to its end and opened. */
export function played(
  items: readonly TrialItem[],
  repeats: number,
  { likes, scatter }: Player,
  seed: number,
): Trial {
  const trial = sealTrial({ id: "", player: "", items, repeats, passages: "", difference: 20 }, seed);
  const normal = randomNormal.source(randomLcg(seed * 7919 + 17))(0, scatter);
  const within = (value: number) => Math.round(Math.max(0, Math.min(100, value)));
  const turns = trial.turns.map((turn) => {
    const ratings = SCALES.map((scale) => [scale, within(likes(items[turn.item], turn.item) + normal())]);
    return { ...turn, ratings: Object.fromEntries(ratings) as Ratings };
  });
  return { ...trial, turns, opened: "complete" };
}

/** Likes one gap best, and others less by the square of their distance. */
export const prefers = (bestMm: number, scatter: number, depth = 16): Player => ({
  likes: ({ gapMm }) => 70 - depth * (gapMm! - bestMm) ** 2,
  scatter,
});

export const guesses: Player = { likes: () => 50, scatter: 18 };
