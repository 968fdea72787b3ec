/** What is typed in the two tables, as parts, and what is wrong with each cell; then the matrix of all pairs. */
import { uncertaintyFlaw, valueFlaw } from "../../../bench/fit/dimensionFlaw.ts";
import { clearanceFlaw } from "../../../bench/fit/fit.ts";
import { type FitDimension, isTaper } from "../../../bench/fit/fitDimensions.ts";
import { type FitMatrix, fitMatrix } from "../../../bench/fit/fitMatrix.ts";
import { parseTaper } from "../../../bench/fit/taper.ts";
import { InputError, quoteTyped } from "../../../units/inputError.ts";
import { type LengthUnit, parseLengthMm } from "../../../units/length.ts";
import { type FitNotes, fitNotesIn, type PartNotes } from "../../state/notes/fitNotes.ts";
import { type AnyPart, type PartTable, partTables } from "./partTables.ts";
import { cellsOf, isBlank, isLengthDimension, textAt } from "./typedPart.ts";

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
  readonly preferredProblem: string;
  readonly clearanceProblem: string;
  /** Of the rows in which something is written, in their order. */
  readonly parts: { readonly mouthpieces: readonly AnyPart[]; readonly instruments: readonly AnyPart[] };
  readonly matrix: FitMatrix;
}

/** @param unit what is shown; bare numbers keep the meaning they had when they were typed */
export function readFit(written: FitNotes, unit: LengthUnit): FitReading {
  const notes = fitNotesIn(written, unit, isLengthDimension);
  const mouthpieces = readRows(notes.mouthpieces, partTables.mouthpieces, unit);
  const instruments = readRows(notes.instruments, partTables.instruments, unit);
  const parts = { mouthpieces: partsOf(mouthpieces), instruments: partsOf(instruments) };
  const clearance = readLength(notes.clearance, unit, clearanceFlaw);
  const preferred = readLength(notes.preferred, unit, preferredFlaw);
  return {
    notes,
    mouthpieces,
    instruments,
    parts,
    clearanceProblem: clearance.problem,
    preferredProblem: preferred.problem,
    matrix: fitMatrix(parts.mouthpieces, parts.instruments, {
      unit,
      ...(preferred.lengthMm !== undefined && { preferredMm: preferred.lengthMm }),
      ...(clearance.lengthMm !== undefined && { clearanceMm: clearance.lengthMm }),
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

/** An optional length beside the tables. */
function readLength(
  text: string,
  unit: LengthUnit,
  flawOf: (lengthMm: number) => string | undefined,
): { readonly lengthMm: number | undefined; readonly problem: string } {
  if (text.trim() === "") return { lengthMm: undefined, problem: "" };
  const read = asWords(() => parseLengthMm(text, unit));
  const problem = "problem" in read ? read.problem : flawOf(read.value);
  return "problem" in read || problem !== undefined
    ? { lengthMm: undefined, problem: sentence(problem!) }
    : { lengthMm: read.value, problem: "" };
}

/** The bench's own words for a preferred gap that is none. */
function preferredFlaw(preferredMm: number): string | undefined {
  const read = asWords(() => {
    fitMatrix([], [], { preferredMm });
    return preferredMm;
  });
  return "problem" in read ? read.problem : undefined;
}

/** A sentence of its own: with a capital and a full stop. */
const sentence = (words: string): string =>
  `${words.charAt(0).toUpperCase()}${words.slice(1)}${/[.!?]$/.test(words) ? "" : "."}`;
