/** Typed texts in what was kept, and what they mean when the unit is switched. */
import { LengthError, type LengthUnit, parseLengthMm } from "../../../units/length.ts";

/** Longer than anything a person types into one field. */
const LONGEST = 200;
const MOST = 500;

export const isRecord = (json: unknown): json is Record<string, unknown> =>
  typeof json === "object" && json !== null && !Array.isArray(json);

export const textOf = (json: unknown): string => (typeof json === "string" ? json.slice(0, LONGEST) : "");

export const textsOf = (json: unknown): readonly string[] =>
  Array.isArray(json) ? json.slice(0, MOST).map(textOf) : [];

/** A text for each of the names in `like`; what is missing is empty. */
export function textsLike<Name extends string>(
  like: Readonly<Record<Name, string>>,
  json: unknown,
): Record<Name, string> {
  const kept = isRecord(json) ? json : {};
  return Object.fromEntries(Object.keys(like).map((name) => [name, textOf(kept[name])])) as Record<
    Name,
    string
  >;
}

export const unitOf = (json: unknown): LengthUnit => (json === "in" ? "in" : "mm");

/** The text that means under unit `to` what this one meant under `from`: a bare number gets its unit written behind it. */
export function inUnit(text: string, from: LengthUnit, to: LengthUnit): string {
  if (from === to) return text;
  try {
    return parseLengthMm(text, from) === parseLengthMm(text, to) ? text : `${text.trim()} ${from}`;
  } catch (error) {
    if (error instanceof LengthError) return text;
    throw error;
  }
}
