/** A plan becomes a sealed trial: the order and the codes are drawn. */

import { randomLcg } from "d3";
import { OutOfRange } from "../units/outOfRange.ts";
import { sealedCodes } from "./codes.ts";
import { envelopeCodes } from "./envelopes.ts";
import {
  FEWEST_ITEMS,
  FEWEST_REPEATS,
  type MeasuredDecision,
  MOST_ITEMS,
  MOST_REPEATS,
  type Trial,
  type TrialItem,
  UNRATED,
} from "./trial.ts";
import { playingOrder } from "./williams.ts";

export interface TrialPlan {
  readonly id: string;
  readonly player: string;
  readonly items: readonly TrialItem[];
  readonly repeats: number;
  readonly passages: string;
  readonly difference: number;
  /** By one person, from envelopes. */
  readonly alone?: true;
  readonly decidedBy?: MeasuredDecision;
}

/** @param seed whole; the same one draws the same order and codes @throws OutOfRange in words */
export function sealTrial({ repeats, ...plan }: TrialPlan, seed: number): Trial {
  const isCount = (count: number, least: number, most: number) =>
    Number.isInteger(count) && count >= least && count <= most;
  if (!isCount(plan.items.length, FEWEST_ITEMS, MOST_ITEMS))
    throw new OutOfRange(
      `A trial has ${FEWEST_ITEMS} to ${MOST_ITEMS} items; here are ${plan.items.length}.`,
    );
  if (!isCount(repeats, FEWEST_REPEATS, MOST_REPEATS))
    throw new OutOfRange(
      `${repeats} is no number of repeats: give a whole number from ${FEWEST_REPEATS} to ${MOST_REPEATS}.`,
    );
  const random = randomLcg(seed);
  const order = playingOrder(plan.items.length, repeats, random).flat();
  const { length } = plan.items;
  const codes = plan.alone ? envelopeCodes(order, length) : sealedCodes(order.length, random);
  const turns = order.map((item, i) => ({ code: codes[i], item, ratings: UNRATED, remark: "" }));
  return { ...plan, turns, opened: "sealed" };
}
