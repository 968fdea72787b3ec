/** Mouthpieces and instruments whose fit is asked for, and the gap that the player prefers. */
import type { LengthUnit } from "../../../units/length.ts";
import { inUnit, isRecord, textOf, unitOf } from "./typed.ts";

export interface PartNotes {
  readonly name: string;
  /** By dimension, as typed. */
  readonly dimensions: Readonly<Record<string, string>>;
  /** Standard uncertainties by dimension, as typed. */
  readonly uncertainties: Readonly<Record<string, string>>;
}

export interface FitNotes {
  /** What a bare number is in. */
  readonly unit: LengthUnit;
  readonly mouthpieces: readonly PartNotes[];
  readonly instruments: readonly PartNotes[];
  readonly preferred: string;
  readonly clearance: string;
}

/** Of each table. */
export const MOST_PARTS = 200;

export const NO_FIT: FitNotes = {
  unit: "mm",
  mouthpieces: [],
  instruments: [],
  preferred: "",
  clearance: "",
};

export function readFitNotes(json: unknown): FitNotes {
  if (!isRecord(json)) return NO_FIT;
  return {
    unit: unitOf(json.unit),
    mouthpieces: readParts(json.mouthpieces),
    instruments: readParts(json.instruments),
    preferred: textOf(json.preferred),
    clearance: textOf(json.clearance),
  };
}

const readParts = (json: unknown): readonly PartNotes[] =>
  Array.isArray(json)
    ? json
        .filter(isRecord)
        .slice(0, MOST_PARTS)
        .map(({ name, dimensions, uncertainties }) => ({
          name: textOf(name),
          dimensions: readTexts(dimensions),
          uncertainties: readTexts(uncertainties),
        }))
    : [];

const readTexts = (json: unknown): Readonly<Record<string, string>> =>
  isRecord(json) ? Object.fromEntries(Object.entries(json).map(([key, text]) => [key, textOf(text)])) : {};

/** Dimensions that are no lengths keep their text. */
export function fitNotesIn(
  notes: FitNotes,
  unit: LengthUnit,
  isLength: (dimension: string) => boolean,
): FitNotes {
  if (notes.unit === unit) return notes;
  const text = (typed: string) => inUnit(typed, notes.unit, unit);
  const texts = (typed: PartNotes["dimensions"]) =>
    Object.fromEntries(
      Object.entries(typed).map(([dimension, value]) => [
        dimension,
        isLength(dimension) ? text(value) : value,
      ]),
    );
  const part = ({ name, dimensions, uncertainties }: PartNotes): PartNotes => ({
    name,
    dimensions: texts(dimensions),
    uncertainties: texts(uncertainties),
  });
  return {
    unit,
    mouthpieces: notes.mouthpieces.map(part),
    instruments: notes.instruments.map(part),
    preferred: text(notes.preferred),
    clearance: text(notes.clearance),
  };
}
