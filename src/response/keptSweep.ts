/** A take of sweeps as it is kept in a job: before or after what was changed, at which gap, in what air, and what was found. Numbers only. */
import { isRecord } from "../setup/file/jsonRecord.ts";
import type { SweepTake } from "./sweepTake.ts";

export type Side = "before" | "after";

export interface KeptSweep {
  /** What its sound is kept under, where it is. */
  readonly id: string;
  /** When it was kept, ISO 8601, UTC. */
  readonly at: string;
  readonly side: Side;
  /** What was mounted. */
  readonly gapMm: number;
  /** Of the air in the instrument, as it was read at this take, and half of its 95 % interval, K. */
  readonly temperatureC: number;
  readonly temperatureUncertaintyK: number;
  /** The lowest first. */
  readonly resonances: readonly KeptResonance[];
  /** By how much the recorder's clock was found to be faster and corrected for, parts per million; null where it is not known. */
  readonly clockPpm: number | null;
  readonly signalToNoiseDb: number | null;
  readonly warnings: readonly string[];
  readonly hasSound: boolean;
}

/** Halves of 95 % intervals go by the names with U before them. */
export interface KeptResonance {
  readonly hz: number;
  readonly UHz: number;
  readonly q: number;
  readonly UQ: number;
}

/** What of a take is kept; null where it tells nothing. */
export function foundIn({
  resonances,
  clock,
  signalToNoiseDb,
  warnings,
}: SweepTake): Pick<KeptSweep, "resonances" | "clockPpm" | "signalToNoiseDb" | "warnings"> | null {
  if (resonances.length === 0) return null;
  return {
    resonances: resonances.map(({ hz, hzUncertainty, q, qUncertainty }) => ({
      hz,
      UHz: hzUncertainty,
      q,
      UQ: qUncertainty,
    })),
    clockPpm: clock?.ppm ?? null,
    signalToNoiseDb,
    warnings,
  };
}

const LONGEST = 200;
const MOST_TAKES = 500;
const MOST_RESONANCES = 40;

/** Those of a list that are whole, one of each id. */
export function readSweeps(json: unknown): readonly KeptSweep[] {
  if (!Array.isArray(json)) return [];
  const takes = new Map<string, KeptSweep>();
  for (const one of json.slice(0, MOST_TAKES)) {
    const take = readSweep(one);
    if (take && !takes.has(take.id)) takes.set(take.id, take);
  }
  return [...takes.values()];
}

function readSweep(json: unknown): KeptSweep | null {
  if (!isRecord(json)) return null;
  const { id, at, side, gapMm, temperatureC, temperatureUncertaintyK, clockPpm, signalToNoiseDb } = json;
  const resonances = Array.isArray(json.resonances) ? json.resonances.slice(0, MOST_RESONANCES) : [];
  const read = resonances.flatMap((one) => readResonance(one) ?? []).sort((a, b) => a.hz - b.hz);
  const isPlaced = side === "before" || side === "after";
  if (!isText(id) || !isText(at) || !isPlaced || read.length === 0) return null;
  if (!isNumber(gapMm) || gapMm < 0 || !isTemperature(temperatureC)) return null;
  if (!isNumber(temperatureUncertaintyK) || temperatureUncertaintyK < 0) return null;
  return {
    id,
    at,
    side,
    gapMm,
    temperatureC,
    temperatureUncertaintyK,
    resonances: read,
    clockPpm: isNumber(clockPpm) ? clockPpm : null,
    signalToNoiseDb: isNumber(signalToNoiseDb) ? signalToNoiseDb : null,
    warnings: Array.isArray(json.warnings) ? json.warnings.filter(isText).slice(0, 20) : [],
    hasSound: json.hasSound === true,
  };
}

function readResonance(json: unknown): KeptResonance | null {
  if (!isRecord(json)) return null;
  const { hz, UHz, q, UQ } = json;
  return isPositive(hz) && isPositive(q) && isNumber(UHz) && UHz >= 0 && isNumber(UQ) && UQ >= 0
    ? { hz, UHz, q, UQ }
    : null;
}

const isText = (json: unknown): json is string => typeof json === "string" && json.length <= LONGEST;
const isNumber = (json: unknown): json is number => typeof json === "number" && Number.isFinite(json);
const isPositive = (json: unknown): json is number => isNumber(json) && json > 0;
const isTemperature = (json: unknown): json is number => isNumber(json) && json > -30 && json < 60;
