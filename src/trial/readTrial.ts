/** Trials as they were kept. One is null where anything of it is not as it was sealed, since half an order would be a wrong finding. */

import { isRecord } from "../setup/file/jsonRecord.ts";
import {
  FEWEST_ITEMS,
  MEASURED_DECISIONS,
  MOST_ITEMS,
  MOST_REPEATS,
  type Ratings,
  SCALES,
  TOP,
  type Trial,
  type TrialItem,
  type Turn,
  UNRATED,
} from "./trial.ts";

const LONGEST = 200;
const textOf = (json: unknown): string => (typeof json === "string" ? json.slice(0, LONGEST) : "");

export function readTrial(json: unknown): Trial | null {
  if (!isRecord(json) || !Array.isArray(json.items) || !Array.isArray(json.turns)) return null;
  const items = whole(json.items.map(readItem));
  if (!items || items.length < FEWEST_ITEMS || items.length > MOST_ITEMS) return null;
  const { length } = items;
  const turns = whole(json.turns.map((turn) => readTurn(turn, length)));
  if (!turns || turns.length === 0 || turns.length > MOST_REPEATS * length) return null;
  for (let first = 0; first < turns.length; first += length)
    if (new Set(turns.slice(first, first + length).map(({ item }) => item)).size !== length) return null;
  return {
    id: textOf(json.id),
    player: textOf(json.player),
    items,
    passages: textOf(json.passages),
    difference: typeof json.difference === "number" && json.difference > 0 ? json.difference : TOP / 5,
    ...(json.alone === true && { alone: true }),
    ...decisionOf(json.decidedBy),
    turns,
    opened: json.opened === "complete" || json.opened === "early" ? json.opened : "sealed",
    ...(typeof json.openedAt === "string" && { openedAt: textOf(json.openedAt) }),
  };
}

/** Those of a list that are whole, one of each id: a trial is known by it. */
export function readTrials(json: unknown): readonly Trial[] {
  if (!Array.isArray(json)) return [];
  const trials = new Map<string, Trial>();
  for (const one of json) {
    const trial = readTrial(one);
    if (trial && !trials.has(trial.id)) trials.set(trial.id, trial);
  }
  return [...trials.values()];
}

function decisionOf(json: unknown): Pick<Trial, "decidedBy"> {
  const decidedBy = MEASURED_DECISIONS.find((one) => one === json);
  return decidedBy ? { decidedBy } : {};
}

const whole = <T>(list: readonly (T | null)[]): readonly T[] | null =>
  list.includes(null) ? null : (list as readonly T[]);

function readItem(json: unknown): TrialItem | null {
  if (!isRecord(json)) return null;
  const { gapMm } = json;
  if (gapMm !== null && !(typeof gapMm === "number" && gapMm >= 0 && Number.isFinite(gapMm))) return null;
  return { name: textOf(json.name), gapMm };
}

function readTurn(json: unknown, items: number): Turn | null {
  if (!isRecord(json)) return null;
  const { item } = json;
  if (typeof item !== "number" || !Number.isInteger(item) || item < 0 || item >= items) return null;
  return { code: textOf(json.code), item, ratings: readRatings(json.ratings), remark: textOf(json.remark) };
}

function readRatings(json: unknown): Ratings {
  if (!isRecord(json)) return UNRATED;
  const rating = (value: unknown) => (typeof value === "number" && value >= 0 && value <= TOP ? value : null);
  return Object.fromEntries(SCALES.map((scale) => [scale, rating(json[scale])])) as unknown as Ratings;
}
