/** A take as it is kept in a job: which note, at which gap or under which blind code, and what was measured. Numbers only. */
import { isRecord } from "../setup/file/jsonRecord.ts";
import type { Take } from "./take.ts";
import { cents, mean } from "./track.ts";
import type { ListenWarning } from "./warnings.ts";

export interface KeptTake {
  /** What its sound is kept under, where it is. */
  readonly id: string;
  /** When it was kept, ISO 8601, UTC. */
  readonly at: string;
  /** The note meant, by its partial; of slurs the lower one. */
  readonly partial: number;
  /** The other note of slurs. */
  readonly toPartial: number | null;
  /** What was mounted; null where nobody was to know. */
  readonly gapMm: number | null;
  /** The turn of a blind trial it was played at. */
  readonly blind: BlindTurn | null;
  readonly measured: Measured;
  /** Kinds of what was not as it should be. */
  readonly warnings: readonly string[];
  readonly hasSound: boolean;
}

export interface BlindTurn {
  readonly trial: string;
  readonly code: string;
}

export type Measured = MeasuredPitch | MeasuredSlot | MeasuredShare;

export interface MeasuredPitch {
  readonly test: "steady";
  readonly hz: number;
  /** Standard uncertainty within the take. */
  readonly uCents: number;
}

/** Where each bend ended, about the resting pitch. */
export interface MeasuredSlot {
  readonly test: "slot";
  readonly restHz: number;
  readonly lowCents: readonly number[];
  readonly highCents: readonly number[];
  /** Bends that broke into another note; the others stopped. */
  readonly broke: number;
}

export interface MeasuredShare {
  readonly test: "slur" | "attack";
  readonly missed: number;
  readonly of: number;
}

/** A note this far from the one meant is another. */
const NOTE_CENTS = 150;

/** The numbers of a take that are worth keeping; null where it has none. @param nearHz the note meant */
export function measuredIn(take: Take, nearHz: number): Measured | null {
  switch (take.test) {
    case "steady": {
      const own = take.notes.filter(({ hz }) => Math.abs(cents(hz, nearHz)) < NOTE_CENTS);
      if (own.length === 0) return null;
      const hz = nearHz * 2 ** (mean(own.map((note) => cents(note.hz, nearHz))) / 1200);
      return { test: "steady", hz, uCents: Math.hypot(...own.map(({ uCents }) => uCents)) / own.length };
    }
    case "slot": {
      const { slot } = take;
      if (!slot || slot.bends.length === 0) return null;
      const ends = (side: "low" | "high") =>
        slot.bends.filter((bend) => bend.side === side).map((bend) => bend.cents);
      const broke = slot.bends.filter(({ end }) => end === "broke").length;
      return { test: "slot", restHz: slot.restHz, lowCents: ends("low"), highCents: ends("high"), broke };
    }
    case "slur":
      return share("slur", take.slurs?.missed);
    case "attack":
      return share("attack", take.attacks?.missed);
  }
}

const share = (
  test: "slur" | "attack",
  missed: { readonly count: number; readonly of: number } | undefined,
): MeasuredShare | null => (missed && missed.of > 0 ? { test, missed: missed.count, of: missed.of } : null);

export const warningKinds = (warnings: readonly ListenWarning[]): string[] => [
  ...new Set(warnings.map(({ kind }) => kind)),
];

const LONGEST = 200;
const MOST_TAKES = 2000;
const MOST_BENDS = 200;
const MOST_PARTIAL = 16;

/** Those of a list that are whole, one of each id. */
export function readTakes(json: unknown): readonly KeptTake[] {
  if (!Array.isArray(json)) return [];
  const takes = new Map<string, KeptTake>();
  for (const one of json.slice(0, MOST_TAKES)) {
    const take = readTake(one);
    if (take && !takes.has(take.id)) takes.set(take.id, take);
  }
  return [...takes.values()];
}

function readTake(json: unknown): KeptTake | null {
  if (!isRecord(json)) return null;
  const { id, at, partial, toPartial, gapMm } = json;
  const measured = readMeasured(json.measured);
  const blind = readBlind(json.blind);
  if (!isText(id) || !isText(at) || !isPartial(partial) || !measured) return null;
  const isSlur = measured.test === "slur";
  if (isSlur !== isPartial(toPartial)) return null;
  const mountedMm = isNumber(gapMm) && gapMm >= 0 ? gapMm : null;
  if ((mountedMm === null) === (blind === null)) return null;
  return {
    id,
    at,
    partial,
    toPartial: isSlur ? (toPartial as number) : null,
    gapMm: mountedMm,
    blind,
    measured,
    warnings: Array.isArray(json.warnings) ? json.warnings.filter(isText).slice(0, 20) : [],
    hasSound: json.hasSound === true,
  };
}

function readBlind(json: unknown): BlindTurn | null {
  if (!isRecord(json)) return null;
  const { trial, code } = json;
  return isText(trial) && isText(code) ? { trial, code } : null;
}

function readMeasured(json: unknown): Measured | null {
  if (!isRecord(json)) return null;
  const { test, hz, uCents, restHz, broke, missed, of } = json;
  switch (test) {
    case "steady":
      return isPositive(hz) && isNumber(uCents) && uCents >= 0 ? { test, hz, uCents } : null;
    case "slot": {
      const [lowCents, highCents] = [numbers(json.lowCents), numbers(json.highCents)];
      return isPositive(restHz) && isCount(broke) && lowCents && highCents
        ? { test, restHz, lowCents, highCents, broke }
        : null;
    }
    case "slur":
    case "attack":
      return isCount(missed) && isCount(of) && of > 0 && missed <= of ? { test, missed, of } : null;
    default:
      return null;
  }
}

const isText = (json: unknown): json is string => typeof json === "string" && json.length <= LONGEST;
const isNumber = (json: unknown): json is number => typeof json === "number" && Number.isFinite(json);
const isPositive = (json: unknown): json is number => isNumber(json) && json > 0;
const isCount = (json: unknown): json is number => Number.isInteger(json) && (json as number) >= 0;
const isPartial = (json: unknown): json is number => isCount(json) && json >= 1 && json <= MOST_PARTIAL;
const numbers = (json: unknown): readonly number[] | null =>
  Array.isArray(json) && json.length <= MOST_BENDS && json.every(isNumber) ? json : null;
