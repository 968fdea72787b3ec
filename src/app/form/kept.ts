/**
 * What of a form is kept in a document, as a schema: what it is when nothing was written, how it comes back from JSON that
 * anybody may have touched, and what it is under another unit. Small schemas make larger ones.
 */
import { isRecord } from "../../setup/file/jsonRecord.ts";
import { LengthError, type LengthUnit, parseLengthMm } from "../../units/length.ts";

export interface Kept<T> {
  /** Nothing written. */
  readonly empty: T;
  /** As it was kept; what is absent or cannot be read is empty. */
  readonly ofJson: (json: unknown) => T;
  /** What means under unit `to` what this meant under `from`. */
  inUnit(written: T, from: LengthUnit, to: LengthUnit): T;
}

export type KeptBy<Schema> = Schema extends Kept<infer T> ? T : never;

/** Longer than anything a person types into one field. */
const LONGEST = 200;
const MOST = 500;

/** Anything that no unit changes. */
export const kept = <T>(empty: T, ofJson: (json: unknown) => T): Kept<T> => ({
  empty,
  ofJson,
  inUnit: (written) => written,
});

export const text = (longest = LONGEST): Kept<string> =>
  kept("", (json) => (typeof json === "string" ? json.slice(0, longest) : ""));

/** A text that stands for a length: a bare number gets its unit written behind it when the unit is switched. */
export const keptLength: Kept<string> = {
  ...text(),
  inUnit: (written, from, to) => {
    if (from === to) return written;
    try {
      return parseLengthMm(written, from) === parseLengthMm(written, to)
        ? written
        : `${written.trim()} ${from}`;
    } catch (error) {
      if (error instanceof LengthError) return written;
      throw error;
    }
  },
};

export const flag = (empty: boolean): Kept<boolean> =>
  kept(empty, (json) => (typeof json === "boolean" ? json : empty));

export const oneOf = <T extends string>(values: readonly T[], empty: T): Kept<T> =>
  kept(empty, (json) => values.find((value) => value === json) ?? empty);

/** A whole number within limits, or null for none. */
export const wholeOrNone = (least: number, most: number, empty: number | null): Kept<number | null> =>
  kept(empty, (json) =>
    json === null || (Number.isInteger(json) && (json as number) >= least && (json as number) <= most)
      ? (json as number | null)
      : empty,
  );

export const list = <T>(item: Kept<T>, most = MOST): Kept<readonly T[]> => ({
  empty: [],
  ofJson: (json) => (Array.isArray(json) ? json.slice(0, most).map(item.ofJson) : []),
  inUnit: (written, from, to) => written.map((one) => item.inUnit(one, from, to)),
});

/** By names that are not known beforehand. */
export const byName = <T>(item: (name: string) => Kept<T>): Kept<Readonly<Record<string, T>>> => {
  const each = (record: object, change: (item: Kept<T>, value: unknown) => T) =>
    Object.fromEntries(Object.entries(record).map(([name, value]) => [name, change(item(name), value)]));
  return {
    empty: {},
    ofJson: (json) => (isRecord(json) ? each(json, ({ ofJson }, value) => ofJson(value)) : {}),
    inUnit: (written, from, to) => each(written, ({ inUnit }, value) => inUnit(value as T, from, to)),
  };
};

export type Parts = Readonly<Record<string, Kept<unknown>>>;
export type KeptParts<P extends Parts> = { readonly [Name in keyof P]: KeptBy<P[Name]> };

export interface KeptRecord<P extends Parts> extends Kept<KeptParts<P>> {
  readonly parts: P;
}

export function record<P extends Parts>(parts: P): KeptRecord<P> {
  const each = (change: (part: Kept<unknown>, name: string) => unknown) =>
    Object.fromEntries(
      Object.entries(parts).map(([name, part]) => [name, change(part, name)]),
    ) as KeptParts<P>;
  return {
    parts,
    empty: each(({ empty }) => empty),
    ofJson: (json) => {
      const found = isRecord(json) ? json : {};
      return each((part, name) => (Object.hasOwn(found, name) ? part.ofJson(found[name]) : part.empty));
    },
    inUnit: (written, from, to) =>
      from === to ? written : each((part, name) => part.inUnit(written[name], from, to)),
  };
}

/** A record of texts whose bare lengths are in a unit that is kept with them. */
export interface KeptForm<P extends Parts> extends Kept<KeptParts<P> & { readonly unit: LengthUnit }> {
  readonly parts: P;
  /** The same under the unit that is shown. */
  shownIn(
    written: KeptParts<P> & { readonly unit: LengthUnit },
    unit: LengthUnit,
  ): KeptParts<P> & { readonly unit: LengthUnit };
}

export function keptForm<P extends Parts>(parts: P): KeptForm<P> {
  const whole = record(parts);
  const shownIn: KeptForm<P>["shownIn"] = (written, unit) =>
    written.unit === unit ? written : { ...whole.inUnit(written, written.unit, unit), unit };
  return {
    parts,
    empty: { ...whole.empty, unit: "mm" },
    ofJson: (json) => ({ ...whole.ofJson(json), unit: isRecord(json) && json.unit === "in" ? "in" : "mm" }),
    inUnit: (written, _, to) => shownIn(written, to),
    shownIn,
  };
}

/** A text under each of these names. */
export const texts = <Name extends string>(
  ...names: readonly Name[]
): KeptRecord<Readonly<Record<Name, Kept<string>>>> =>
  record(Object.fromEntries(names.map((name) => [name, text()])) as Record<Name, Kept<string>>);
