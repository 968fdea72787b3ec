/**
 * A blind trial by what was measured at its turns: each turn's take is a number (slot width, pitch, or share missed), and the
 * numbers are tested as ratings are, by the same exact permutation test within repeats.
 */
import type { KeptTake } from "../../listen/keptTake.ts";
import type { TakeTest } from "../../listen/takeQuestion.ts";
import { holm } from "../../trial/holm.ts";
import { itemMeans } from "../../trial/itemMeans.ts";
import { type PermutationTest, permutationTest } from "../../trial/permutation.ts";
import { ERROR_RATE } from "../../trial/power.ts";
import { FEWEST_REPEATS, isFinished, type Trial, type TrialItem } from "../../trial/trial.ts";
import { takeValue } from "./measuredGaps.ts";

export interface MeasuredTrial {
  readonly test: TakeTest;
  readonly partial: number;
  readonly toPartial: number | null;
  /** Repeats in which every turn has a take, and which so count. */
  readonly repeats: number;
  readonly permutation: PermutationTest;
  /** p by Holm's rule, where several notes were listened to for the same test. */
  readonly correctedP: number;
  readonly isDecided: boolean;
  /** With the mean of their turns, the largest first. */
  readonly items: readonly (TrialItem & { readonly value: number })[];
}

/** Note by note, what a finished trial measured; nothing of a sealed one. @param noteHz what a partial is written for */
export function measuredTrials(
  trial: Trial,
  takes: readonly KeptTake[],
  noteHz: (partial: number) => number,
): readonly MeasuredTrial[] {
  if (!isFinished(trial)) return [];
  const groups = new Map<string, KeptTake[]>();
  for (const take of takes) {
    if (take.blind?.trial !== trial.id || takeValue(take, noteHz) === null) continue;
    const key = `${take.measured.test} ${take.partial} ${take.toPartial}`;
    groups.set(key, [...(groups.get(key) ?? []), take]);
  }
  const found = [...groups.values()].flatMap((group) => {
    const blocks = blocksOf(trial, valuesByTurn(trial, group, noteHz));
    if (blocks.length < FEWEST_REPEATS) return [];
    const [{ measured, partial, toPartial }] = group;
    const items = itemMeans(blocks)
      .map((value, i) => ({ ...trial.items[i], value }))
      .sort((a, b) => b.value - a.value);
    return {
      test: measured.test,
      partial,
      toPartial,
      repeats: blocks.length,
      permutation: permutationTest(blocks),
      items,
    };
  });
  return found.map((one) => {
    const same = found.filter(({ test }) => test === one.test);
    const correctedP = holm(same.map(({ permutation }) => permutation.p))[same.indexOf(one)];
    return { ...one, correctedP, isDecided: correctedP < ERROR_RATE };
  });
}

/** The mean of each turn's takes, whose code no other turn has; null where it has none. */
const valuesByTurn = (
  { turns }: Trial,
  takes: readonly KeptTake[],
  noteHz: (partial: number) => number,
): (number | null)[] =>
  turns.map(({ code }) => {
    const own = takes.filter(({ blind }) => blind!.code === code).map((take) => takeValue(take, noteHz)!);
    return own.length === 0 ? null : own.reduce((sum, one) => sum + one, 0) / own.length;
  });

/** A row a repeat, a column an item; repeats in which a turn has no take are left out. */
function blocksOf({ items, turns }: Trial, values: readonly (number | null)[]): number[][] {
  const blocks: number[][] = [];
  for (let first = 0; first < turns.length; first += items.length) {
    const block: number[] = [];
    for (let i = first; i < first + items.length; i++) {
      const value = values[i];
      if (value !== null) block[turns[i].item] = value;
    }
    if (Object.keys(block).length === items.length) blocks.push(block);
  }
  return blocks;
}
