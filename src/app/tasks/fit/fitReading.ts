/** What is typed in the two tables, as parts, and what is wrong with each cell; then the matrix of all pairs. */
import { uncertaintyFlaw, valueFlaw } from "../../../bench/fit/dimensionFlaw.ts";
import { type FitDimension, isTaper } from "../../../bench/fit/fitDimensions.ts";
import { type FitMatrix, fitMatrix } from "../../../bench/fit/fitMatrix.ts";
import { parseTaper } from "../../../bench/fit/taper.ts";
import { InputError, quoteTyped } from "../../../units/inputError.ts";
import { type LengthUnit, parseLengthMm } from "../../../units/length.ts";
import { readFields, sentence } from "../../form/field.ts";
import { FIT_FIELDS, type FitNotes, fitForm, type PartNotes } from "../../state/notes/fit.ts";
import { type AnyPart, type PartTable, partTables } from "./partTables.ts";
import { cellsOf, isBlank, textAt } from "./typedPart.ts";

/** What is wrong, by the cell's key. */
export type CellProblems = Readonly<Record<string, string>>;

export interface ReadRow {
  /** Undefined for a row in which nothing is written. */
  readonly part: AnyPart | undefined;
  readonly problems: CellProblems;
}

export interface FitReading {
  /** The notes as they are shown, in the unit shown. */
  readonly notes: FitNotes;
  /** One for each row as typed. */
  readonly mouthpieces: readonly ReadRow[];
  readonly instruments: readonly ReadRow[];
  /** Of the fields beside the tables. */
  readonly problems: Readonly<Partial<Record<keyof typeof FIT_FIELDS, string>>>;
  /** Of the rows in which something is written, in their order. */
  readonly parts: { readonly mouthpieces: readonly AnyPart[]; readonly instruments: readonly AnyPart[] };
  readonly matrix: FitMatrix;
}

/** @param unit what is shown; bare numbers keep the meaning they had when they were typed */
export function readFit(written: FitNotes, unit: LengthUnit): FitReading {
  const notes = fitForm.shownIn(written, unit);
  const mouthpieces = readRows(notes.mouthpieces, partTables.mouthpieces, unit);
  const instruments = readRows(notes.instruments, partTables.instruments, unit);
  const parts = { mouthpieces: partsOf(mouthpieces), instruments: partsOf(instruments) };
  const { values, problems } = readFields(FIT_FIELDS, notes, unit);
  const { clearance: clearanceMm, preferred: preferredMm } = values;
  return {
    notes,
    mouthpieces,
    instruments,
    parts,
    problems,
    matrix: fitMatrix(parts.mouthpieces, parts.instruments, {
      unit,
      ...(preferredMm !== undefined && { preferredMm }),
      ...(clearanceMm !== undefined && { clearanceMm }),
    }),
  };
}

const partsOf = (rows: readonly ReadRow[]): AnyPart[] => rows.flatMap(({ part }) => part ?? []);

function readRows(typed: readonly PartNotes[], table: PartTable, unit: LengthUnit): ReadRow[] {
  const seen = new Set<string>();
  return typed.map((row, i) => {
    if (isBlank(row)) return { part: undefined, problems: {} };
    const name = row.name.trim();
    const read = readPart(row, table, unit);
    const standIn = `${table.one} ${i + 1}`;
    const nameProblem =
      name === ""
        ? `No name; until it has one it is called ${standIn}.`
        : seen.has(name)
          ? `${quoteTyped(name)} is here twice; give each its own name.`
          : "";
    seen.add(name);
    return {
      part: { ...read.part, name: name || standIn },
      problems: nameProblem ? { ...read.problems, name: nameProblem } : read.problems,
    };
  });
}

/** A number that no part can have stays in the part, for the matrix to say so; a text that is no number leaves it unknown. */
function readPart(row: PartNotes, { dimensions }: PartTable, unit: LengthUnit) {
  const problems: Record<string, string> = {};
  const part = {
    dimensions: {} as Partial<Record<FitDimension, number>>,
    uncertainties: {} as Partial<Record<FitDimension, number>>,
  };
  for (const cell of cellsOf(dimensions)) {
    const { key, kind, dimension } = cell;
    const text = textAt(row, cell).trim();
    if (kind === "name" || dimension === undefined || text === "") continue;
    const read = asWords(() => (isTaper(dimension) ? parseTaper(text) : parseLengthMm(text, unit)));
    if ("problem" in read) {
      problems[key] = sentence(read.problem);
      continue;
    }
    const flaw = (kind === "dimensions" ? valueFlaw : uncertaintyFlaw)(dimension, read.value, unit);
    if (flaw) problems[key] = sentence(flaw);
    part[kind][dimension] = read.value;
  }
  return { part, problems };
}

function asWords(read: () => number): { readonly value: number } | { readonly problem: string } {
  try {
    return { value: read() };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { problem: error.message };
  }
}
