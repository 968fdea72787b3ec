/** A field that a person types into: what it is called, what its text is in and reads to, and what is wrong with a text that does not. */
import { parseTaper } from "../../bench/fit/taper.ts";
import { formatLength } from "../../units/formatLength.ts";
import { InputError } from "../../units/inputError.ts";
import { type LengthUnit, parseLengthMm } from "../../units/length.ts";
import type { UsualLengthsMm } from "../../units/otherUnit.ts";
import { type Kept, keptLength, text } from "./kept.ts";
import { type Limits, number, type Quantity, readQuantity } from "./quantity.ts";

/** What a person may choose among, each with what it is called. */
export type Choices = readonly (readonly [value: string, words: string])[];

export interface Field<Value> extends Kept<string> {
  readonly kind: "length" | "quantity" | "taper" | "words" | "choice";
  readonly label: string;
  /** Of a length: between which it lies as a rule, mm; a bare number that only does in the other unit is asked about. */
  readonly usualMm?: UsualLengthsMm;
  /** Rows of a text that may have several. */
  readonly lines?: number;
  readonly choices?: Choices;
  /** What a number is counted in. */
  readonly quantity?: Quantity;
  /** Under the label, for the unit that is shown. */
  readonly hint: (unit: LengthUnit) => string;
  /** Of a bare number; empty for a field of words. */
  readonly unit: (unit: LengthUnit) => string;
  /** What an empty text stands for; undefined: nothing. */
  readonly usual: Value | undefined;
  /** @throws {InputError} for a text that is none; the text is not empty */
  readonly read: (text: string, unit: LengthUnit) => Value;
}

/** A text read: its value, undefined where there is none, and in a sentence what is wrong; empty where nothing is. */
export interface Reading<Value> {
  readonly value: Value | undefined;
  readonly problem: string;
}

export interface FieldOptions<Value> {
  readonly hint?: string | ((unit: LengthUnit) => string);
  readonly usual?: Value;
}

const field = <Value>(
  label: string,
  { hint = "", usual }: FieldOptions<Value>,
  rest: Omit<Field<Value>, "label" | "hint" | "usual">,
): Field<Value> => ({
  ...rest,
  label,
  hint: typeof hint === "string" ? () => hint : hint,
  usual,
});

export interface LengthOptions extends FieldOptions<number> {
  /** Between which it lies as a rule. */
  readonly usualMm?: UsualLengthsMm;
  readonly leastMm?: number;
  readonly mostMm?: number;
  /** What is wrong with a length, to become a sentence; undefined where nothing is. */
  readonly flaw?: (lengthMm: number, unit: LengthUnit) => string | undefined;
}

/** A length; its value is in mm. */
export const length = (
  label: string,
  {
    leastMm = Number.NEGATIVE_INFINITY,
    mostMm = Number.POSITIVE_INFINITY,
    flaw,
    usualMm,
    ...options
  }: LengthOptions = {},
): Field<number> =>
  field(label, options, {
    ...keptLength,
    kind: "length",
    ...(usualMm && { usualMm }),
    unit: (unit) => unit,
    read: (typed, unit) => {
      const lengthMm = parseLengthMm(typed, unit);
      const wrong = flaw?.(lengthMm, unit);
      if (wrong !== undefined) throw new InputError(wrong);
      if (lengthMm >= leastMm && lengthMm <= mostMm) return lengthMm;
      const shown = (mm: number) => formatLength(mm, unit, 3);
      throw new InputError(
        mostMm === Number.POSITIVE_INFINITY
          ? `${shown(lengthMm)} cannot be; give ${shown(leastMm)} or more`
          : `out of range; give ${shown(leastMm)} to ${shown(mostMm)}`,
      );
    },
  });

export interface QuantityOptions extends FieldOptions<number>, Partial<Limits> {
  readonly isWhole?: boolean;
  /** Said instead of what would be said of any number. */
  readonly problem?: string;
}

/** A number with a unit of its own; its value is as `quantity` puts it into a file. */
export const quantity = (
  label: string,
  of: Quantity,
  {
    least = Number.NEGATIVE_INFINITY,
    most = Number.POSITIVE_INFINITY,
    isWhole = false,
    problem,
    ...options
  }: QuantityOptions = {},
): Field<number> =>
  field(label, options, {
    ...text(),
    kind: "quantity",
    quantity: of,
    unit: () => of.unit,
    read: (typed) => {
      const found = readQuantity(typed, of, { least, most });
      if ("refused" in found) throw new InputError(problem ?? found.refused);
      if (isWhole && !Number.isInteger(found.value))
        throw new InputError(
          problem ?? `${found.value} is no whole number; give one from ${least} to ${most}`,
        );
      return found.value;
    },
  });

export const plainNumber = (label: string, options?: QuantityOptions): Field<number> =>
  quantity(label, number, options);

/** A change of diameter per length, 0.05 or 1:20. */
export const taper = (label: string, options: FieldOptions<number> = {}): Field<number> =>
  field(label, options, { ...text(), kind: "taper", unit: () => "", read: parseTaper });

export interface WordsOptions extends FieldOptions<string> {
  readonly longest?: number;
  /** More than one: the text stays as it is. */
  readonly lines?: number;
}

/** Words as they are, without the space around them. */
export const words = (label: string, { longest, lines = 1, ...options }: WordsOptions = {}): Field<string> =>
  field(
    label,
    { usual: "", ...options },
    {
      ...text(longest),
      kind: "words",
      lines,
      unit: () => "",
      read: (typed) => (lines === 1 ? typed.trim() : typed),
    },
  );

/** One of a few. */
export const choice = (label: string, choices: Choices, options: FieldOptions<string> = {}): Field<string> =>
  field(label, options, {
    ...text(),
    kind: "choice",
    choices,
    unit: () => "",
    read: (typed) => {
      if (choices.some(([value]) => value === typed)) return typed;
      throw new InputError(`not one of the choices; give ${choices.map(([value]) => value).join(" or ")}`);
    },
  });

export function readField<Value>(field: Field<Value>, typed: string, unit: LengthUnit): Reading<Value> {
  return typed.trim() === "" ? { value: field.usual, problem: "" } : reading(() => field.read(typed, unit));
}

/** What `read` gives, or what it says is wrong. */
export function reading<Value>(read: () => Value): Reading<Value> {
  try {
    return { value: read(), problem: "" };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { value: undefined, problem: sentence(error.message) };
  }
}

export type Values<Fields> = {
  readonly [Name in keyof Fields]: Fields[Name] extends Field<infer V> ? V | undefined : never;
};

/** Several fields at once: the value of each, and what is wrong with each where something is. */
export function readFields<Fields extends Readonly<Record<string, Field<unknown>>>>(
  fields: Fields,
  typed: { readonly [Name in keyof Fields]: string },
  unit: LengthUnit,
): { readonly values: Values<Fields>; readonly problems: Readonly<Partial<Record<keyof Fields, string>>> } {
  const values: Record<string, unknown> = {};
  const problems: Partial<Record<keyof Fields, string>> = {};
  for (const name of Object.keys(fields)) {
    const { value, problem } = readField(fields[name], typed[name], unit);
    values[name] = value;
    if (problem) problems[name as keyof Fields] = problem;
  }
  return { values: values as Values<Fields>, problems };
}

/** With a capital and a full stop. */
export const sentence = (words: string): string =>
  `${words.charAt(0).toUpperCase()}${words.slice(1)}${/[.!?]$/.test(words) ? "" : "."}`;
