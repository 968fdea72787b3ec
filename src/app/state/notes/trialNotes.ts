/** A blind trial: its plan as typed, and once it is sealed the order with its key and all that the player has said. */
import {
  FEWEST_ITEMS,
  MOST_ITEMS,
  MOST_REPEATS,
  type Ratings,
  SCALES,
  TOP,
  type Trial,
  type TrialItem,
  type Turn,
  UNRATED,
} from "../../../trial/trial.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { inUnit, isRecord, textOf, textsLike, textsOf, unitOf } from "./typed.ts";

export type TrialKind = "gaps" | "names";
export type PlanPart = "player" | "repeats" | "passages" | "difference" | "scatter";

export interface TrialNotes extends Readonly<Record<PlanPart, string>> {
  /** What a bare length is in. */
  readonly unit: LengthUnit;
  readonly kind: TrialKind;
  /** Both are kept, whichever is to be tried. */
  readonly gaps: readonly string[];
  readonly names: readonly string[];
  /** null while it is being planned. */
  readonly trial: Trial | null;
}

const NO_TEXTS: Readonly<Record<PlanPart, string>> = {
  player: "",
  repeats: "",
  passages: "",
  difference: "",
  scatter: "",
};

export const NO_TRIAL: TrialNotes = {
  unit: "mm",
  kind: "gaps",
  gaps: [],
  names: [],
  ...NO_TEXTS,
  trial: null,
};

export function readTrialNotes(json: unknown): TrialNotes {
  if (!isRecord(json)) return NO_TRIAL;
  return {
    unit: unitOf(json.unit),
    kind: json.kind === "names" ? "names" : "gaps",
    gaps: textsOf(json.gaps).slice(0, MOST_ITEMS),
    names: textsOf(json.names).slice(0, MOST_ITEMS),
    ...textsLike(NO_TEXTS, json),
    trial: readTrial(json.trial),
  };
}

/** null where anything of it is not as it was sealed: half an order would be a wrong finding. */
function readTrial(json: unknown): Trial | null {
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
    turns,
    opened: json.opened === "complete" || json.opened === "early" ? json.opened : "sealed",
  };
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

/** The same plan under another unit; what is sealed is in mm. */
export const trialNotesIn = (notes: TrialNotes, unit: LengthUnit): TrialNotes =>
  notes.unit === unit
    ? notes
    : { ...notes, unit, gaps: notes.gaps.map((text) => inUnit(text, notes.unit, unit)) };

/** One turn of the sealed trial written anew. */
export function withTurn(
  notes: TrialNotes,
  at: number,
  part: Partial<Pick<Turn, "ratings" | "remark">>,
): TrialNotes {
  const { trial } = notes;
  if (!trial) return notes;
  const turns = trial.turns.map((turn, i) => (i === at ? { ...turn, ...part } : turn));
  return { ...notes, trial: { ...trial, turns } };
}
