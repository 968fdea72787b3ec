/**
 * A blind trial by what was measured at its turns: each turn's take is a number (slot width, pitch, or share missed), and the
 * numbers are tested as ratings are, by the same exact permutation test within repeats.
 */
import type { KeptTake } from "../../listen/keptTake.ts";
import type { TakeTest } from "../../listen/takeQuestion.ts";
import { holm } from "../../trial/holm.ts";
import { itemMeans } from "../../trial/itemMeans.ts";
import { type PermutationTest, permutationTest } from "../../trial/permutation.ts";
import { differenceFound, ERROR_RATE } from "../../trial/power.ts";
import { repeatability } from "../../trial/repeatability.ts";
import {
  FEWEST_REPEATS,
  isFinished,
  isRated,
  type MeasuredDecision,
  repeatsOf,
  type Trial,
  type TrialItem,
  type Turn,
} from "../../trial/trial.ts";
import { takeValue, widthOf } from "./measuredGaps.ts";

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
  /**
   * The difference that a trial like this one finds four times in five, at the scatter seen from turn to turn, in the unit of the
   * values; null where it finds none however large, undefined where nothing scattered.
   */
  readonly detectable: number | null | undefined;
  /** With the mean of their turns, the largest first. */
  readonly items: readonly (TrialItem & { readonly value: number })[];
}

/** A trial as it was planned, and what its takes came to. */
export interface MeasuredOutcome {
  /** What was said beforehand to decide it; null: preference. */
  readonly decidedBy: MeasuredDecision | null;
  readonly items: readonly TrialItem[];
  /** As planned. */
  readonly repeats: number;
  /** Before every turn had been played. */
  readonly isEarly: boolean;
  readonly found: readonly MeasuredTrial[];
}

/** Null where the trial is sealed, or where nothing was measured and nothing was to be. */
export function measuredOutcome(
  trial: Trial,
  takes: readonly KeptTake[],
  noteHz: (partial: number) => number,
): MeasuredOutcome | null {
  const decidedBy = trial.decidedBy ?? null;
  const found = measuredTrials(trial, takes, noteHz);
  if (!isFinished(trial) || (decidedBy === null && found.length === 0)) return null;
  return {
    decidedBy,
    items: trial.items,
    repeats: repeatsOf(trial),
    isEarly: trial.opened === "early",
    // what decides comes first
    found: [...found].sort((a, b) => Number(b.test === decidedBy) - Number(a.test === decidedBy)),
  };
}

/** Whether all is known of a turn that its trial needs: a take of what decides, or else its ratings. */
export function isTurnDone(
  { id, decidedBy }: Pick<Trial, "id" | "decidedBy">,
  turn: Turn,
  takes: readonly KeptTake[],
): boolean {
  if (decidedBy === undefined) return isRated(turn);
  return takes.some(
    ({ blind, measured }) =>
      blind?.trial === id &&
      blind.code === turn.code &&
      measured.test === decidedBy &&
      (measured.test !== "slot" || widthOf(measured) !== null),
  );
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
      detectable: detectable(blocks),
      items,
    };
  });
  return found.map((one) => {
    const same = found.filter(({ test }) => test === one.test);
    const correctedP = holm(same.map(({ permutation }) => permutation.p))[same.indexOf(one)];
    return { ...one, correctedP, isDecided: correctedP < ERROR_RATE };
  });
}

function detectable(blocks: readonly (readonly number[])[]): number | null | undefined {
  const { standardDeviation } = repeatability(blocks);
  if (!(standardDeviation > 0)) return undefined;
  const scatters = differenceFound(blocks[0].length, blocks.length);
  return scatters === null ? null : scatters * standardDeviation;
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
