/**
 * A setup and a text that was typed at a place in it: the setup with it, or why not. The text goes into the form of the
 * file and through `readSetup`, so that what a file may say and what a form may say are one.
 */
import { deepFreeze } from "../../../setup/deepFreeze.ts";
import { flawsOf } from "../../../setup/dimension/plausible.ts";
import { isProvenanceDimension } from "../../../setup/dimension/provenance.ts";
import { valueAt } from "../../../setup/file/fileLengths.ts";
import { readKeptSetup, readSetup } from "../../../setup/file/readSetup.ts";
import { writeSetup } from "../../../setup/file/writeSetup.ts";
import { type Problem, SetupError } from "../../../setup/problem.ts";
import type { Setup } from "../../../setup/setup.ts";
import { InputError } from "../../../units/inputError.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { shared } from "../../state/shared.ts";
import { length } from "../field.ts";
import { quantityText } from "../quantity.ts";
import { fieldAt, placeName, type SetupField } from "./fields.ts";
import { cellAt, keysOf, putAt } from "./paths.ts";

export interface Entry {
  /** Place in the file, `receiver.depth` or `leadpipe.profile[3][1]`. */
  readonly path: string;
  /** As it was typed; empty takes an optional entry out. */
  readonly text: string;
  /** Of a bare number. */
  readonly unit: LengthUnit;
}

export type Outcome = { readonly setup: Setup } | { readonly problems: readonly [Problem, ...Problem[]] };

/** The file's form with bare numbers in mm, as plain JSON that may be altered. */
export const fileInMm = (setup: Setup): Record<string, unknown> =>
  writeSetup({ ...setup, units: "mm" }) as Record<string, unknown>;

/**
 * The setup of an altered `fileInMm(setup)`; the units it was written in stay those of `setup`, what is wrong is told in
 * `spoken`. One that was kept though it is no instrument is put right a place at a time.
 */
export function readAltered(
  setup: Setup,
  file: object,
  units: LengthUnit = setup.units,
  spoken: LengthUnit = units,
): Outcome {
  const read = flawsOf(setup).length > 0 ? readKeptSetup : readSetup;
  try {
    return { setup: deepFreeze(shared(setup, { ...read(file, spoken), units })) };
  } catch (error) {
    if (!(error instanceof SetupError)) throw error;
    return { problems: error.problems as [Problem, ...Problem[]] };
  }
}

/** All entries at once: what they make of the setup, or what is wrong with them. */
export function enter(setup: Setup, entries: readonly Entry[]): Outcome {
  const file = fileInMm(setup);
  let units = setup.units;
  const problems: Problem[] = [];
  for (const entry of entries) {
    const read = readEntry(entry);
    if ("refused" in read) problems.push({ path: entry.path, value: entry.text, message: read.refused });
    else if (entry.path === "units") units = read.value as LengthUnit;
    else {
      putAt(file, keysOf(entry.path), read.value);
      // whoever types a dimension has it from the instrument
      if (isProvenanceDimension(entry.path) && read.value !== undefined)
        putAt(file, ["provenance", entry.path], "measured");
    }
  }
  if (problems.length > 0) return { problems: problems as [Problem, ...Problem[]] };
  takeOutEmptyBreath(file);
  return readAltered(setup, file, units, entries[0]?.unit);
}

/** Whether the text can be read at all, whatever the rest of the setup. */
export const isReadable = (entry: Entry): boolean => !("refused" in readEntry(entry));

/** A text typed at a place: the setup with it, or what is wrong, in words for beside the entry. */
export function applyText(
  setup: Setup,
  entry: Entry,
): { readonly setup: Setup } | { readonly problem: string } {
  if (entry.text === shownText(setup, entry.path, entry.unit)) return { setup };
  const outcome = enter(setup, [entry]);
  return "setup" in outcome ? outcome : { problem: problemText(outcome.problems, entry.path) };
}

/** What a refusal says beside the entry at `path`: its own problem first; another place's names that place. */
export function problemText(problems: readonly Problem[], path: string): string {
  const own = problems.find((problem) => problem.path === path);
  const { path: place, message } = own ?? problems[0];
  const words = own || place === "" ? message : `${placeName(place)}: ${message}`;
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** What stands in the form at a place; empty for an optional entry that is left out. */
export function shownText(setup: Setup, path: string, unit: LengthUnit): string {
  return textIn(fileInMm(setup), setup, path, unit);
}

/** A reader of shown texts that writes the file's form once. */
export function shownTexts(setup: Setup, unit: LengthUnit): (path: string) => string {
  const file = fileInMm(setup);
  return (path) => textIn(file, setup, path, unit);
}

function textIn(file: object, setup: Setup, path: string, unit: LengthUnit): string {
  if (path === "units") return setup.units;
  const found = valueAt(file, keysOf(path));
  // an uncertainty with degrees of freedom is shown without them
  const value = valueAt(found, ["standard"]) ?? found;
  if (typeof value === "string") return value;
  if (typeof value !== "number") return "";
  const field = fieldAt(path);
  return field?.quantity ? quantityText(value, field.quantity) : lengthText(value, unit);
}

const mmPerInch = 25.4;

/** A length without its unit, as fine as anyone measures: a tenth of a micrometre. */
export function lengthText(lengthMm: number, unit: LengthUnit): string {
  const length = unit === "mm" ? lengthMm : lengthMm / mmPerInch;
  const rounded = Number(length.toFixed(unit === "mm" ? 4 : 5));
  // A length that would be shown as nothing is shown as it is.
  return String(rounded === 0 ? Number(length.toPrecision(3)) + 0 : rounded);
}

/** A length that reads back as exactly what it was. */
export const exactLengthText = (lengthMm: number, unit: LengthUnit): string =>
  String(unit === "mm" ? lengthMm : Number((lengthMm / mmPerInch).toPrecision(15)));

/** A cell of a profile, which has no field of its own. */
const CELL = length("length");

/** What belongs into the file for a typed text; undefined where it takes the entry out. */
function readEntry({ path, text, unit }: Entry): { value: unknown } | { refused: string } {
  const field = fieldAt(path) ?? (cellAt(path) ? CELL : undefined);
  if (!field) return { refused: "no such entry" };
  const { kind } = field;
  const mayBeEmpty = kind === "words" || (kind === "choice" && !("isOptional" in field && field.isOptional));
  if (!mayBeEmpty && text.trim() === "") return readEmpty(field);
  try {
    const value = field.read(text, unit);
    // with its unit, so that a refusal quotes a length the person recognises
    return { value: kind === "length" ? `${exactLengthText(value as number, unit)} ${unit}` : value };
  } catch (error) {
    if (error instanceof InputError) return { refused: error.message };
    throw error;
  }
}

function readEmpty(field: SetupField | typeof CELL): { value: undefined } | { refused: string } {
  if (field === CELL)
    return { refused: "a length is missing; give one, or empty the whole row to take it out" };
  if ("isOptional" in field && field.isOptional) return { value: undefined };
  return {
    refused: field.kind === "length" ? "a length is missing; give one" : "a number is missing; give one",
  };
}

function takeOutEmptyBreath(file: Record<string, unknown>): void {
  const air = file.air as { breath?: object };
  if (air.breath && Object.keys(air.breath).length === 0) delete air.breath;
}
