/** What is asked of lips and breath: the notes' texts as numbers, or what is wrong with each of them. */
import type { Setup } from "../../setup/setup.ts";
import { LIP_PARAMETERS, type Lips } from "../../study/feel/lipParameters.ts";
import type { Pressure } from "../../study/feel/slots.ts";
import { formatLength } from "../../units/formatLength.ts";
import { LengthError, type LengthUnit, parseLengthMm } from "../../units/length.ts";
import { type Limits, number, type Quantity, readQuantity } from "../form/quantity.ts";
import { type LeapPart, LIP_LENGTHS, type LipName, type PlayNotes } from "../state/notes/playNotes.ts";
import type { Document } from "../state/state.ts";

export interface FeelQuestion {
  readonly setup: Setup;
  readonly gapMm: number;
  readonly referenceGapMm: number;
  /** null where a text cannot be read. */
  readonly lips: Lips | null;
  readonly pressure: Pressure | null;
  readonly litresPerMinute: number;
}

/** A text read: its value, or what is wrong in words. */
export type Read = { readonly value: number } | { readonly refused: string };

/** What a field takes where nothing is typed, and between what. */
export interface Field {
  readonly usual: number;
  readonly limits: Limits;
  readonly isWhole?: boolean;
}

export const PRESSURE: Field = { usual: 1.3, limits: { least: 1.05, most: 20 } };
/** L/min (common practice, no source). */
export const FLOW: Field = { usual: 20, limits: { least: 5, most: 60 }, isWhole: true };
export const LEAP: Readonly<Record<LeapPart, Field>> = {
  from: { usual: 4, limits: { least: 2, most: 10 }, isWhole: true },
  to: { usual: 6, limits: { least: 2, most: 10 }, isWhole: true },
  aim: { usual: 100, limits: { least: 0, most: 1200 } },
  runs: { usual: 100, limits: { least: 1, most: 10_000 }, isWhole: true },
};

export function feelQuestion({ setup, gapMm, referenceGapMm, notes }: Document): FeelQuestion {
  const { play } = notes;
  const lips = Object.keys(LIP_PARAMETERS).map((name) => [name, readLip(play, name as LipName)] as const);
  const pressure = readField(play.pressure, PRESSURE);
  const flow = readField(play.flow, FLOW);
  return {
    setup,
    gapMm,
    referenceGapMm,
    lips: lips.every(([, read]) => "value" in read)
      ? (Object.fromEntries(
          lips.map(([name, read]) => [name, (read as { value: number }).value]),
        ) as unknown as Lips)
      : null,
    pressure: "value" in pressure ? { timesThreshold: pressure.value } : null,
    litresPerMinute: "value" in flow ? flow.value : FLOW.usual,
  };
}

export function readField(text: string, { usual, limits, isWhole }: Field, quantity = number): Read {
  if (text.trim() === "") return { value: usual };
  const read = readQuantity(text, quantity, limits);
  if (isWhole && "value" in read && !Number.isInteger(read.value))
    return { refused: `${read.value} is no whole number; give one from ${limits.least} to ${limits.most}` };
  return read;
}

/** A lip parameter in SI. */
export function readLip({ lips, unit }: PlayNotes, name: LipName): Read {
  const { value, allowed } = LIP_PARAMETERS[name];
  const text = lips[name];
  const limits = { least: allowed[0], most: allowed[1] };
  if (!LIP_LENGTHS.includes(name)) return readField(text, { usual: value, limits }, lipQuantity(name));
  if (text.trim() === "") return { value };
  try {
    const metres = parseLengthMm(text, unit) / 1000;
    if (metres >= limits.least && metres <= limits.most) return { value: metres };
    return { refused: `out of range; give ${inWords(limits.least, unit)} to ${inWords(limits.most, unit)}` };
  } catch (error) {
    if (error instanceof LengthError) return { refused: error.message };
    throw error;
  }
}

const lipQuantity = (name: LipName): Quantity => {
  const { unit } = LIP_PARAMETERS[name];
  return { ...number, unit: unit === "1" ? "" : unit, others: { "kg/m2": (typed) => typed } };
};

const inWords = (metres: number, unit: LengthUnit): string => formatLength(1000 * metres, unit, 3);
