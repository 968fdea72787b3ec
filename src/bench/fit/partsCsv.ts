/**
 * Mouthpieces and instruments from a spreadsheet's CSV and back: columns by name in any order, a unit in the header
 * (`depth (mm)`) or in the cell (`0.966 in`), empty for unknown, `u …` for a standard uncertainty, `#` for a remark line.
 * Commas, semicolons or tabs between the cells, as in the header.
 */
import { csvOfRows, type DelimitedRow, rowsOf, withoutByteOrderMark } from "../../units/delimitedText.ts";
import { InputError, quoteTyped } from "../../units/inputError.ts";
import { type LengthUnit, parseLengthMm } from "../../units/length.ts";
import { uncertaintyFlaw, valueFlaw } from "./dimensionFlaw.ts";
import {
  dimensionName,
  type FitDimension,
  isTaper,
  type ReceiverDimension,
  receiverDimensions,
  type ShankDimension,
  shankDimensions,
} from "./fitDimensions.ts";
import type { InstrumentPart, MouthpiecePart, Part } from "./part.ts";
import { parseTaper } from "./taper.ts";

export interface CsvProblem {
  /** Line of the text, from 1. */
  readonly line: number;
  readonly message: string;
}

/** A table that was refused, with all that is wrong with it. The message is one line. */
export class CsvError extends InputError {
  override name = "CsvError";
  readonly problems: readonly CsvProblem[];

  constructor(source: string, problems: readonly CsvProblem[]) {
    const [{ line, message }] = problems;
    const others = problems.length > 1 ? ` (and ${problems.length - 1} more)` : "";
    super(`${source}: line ${line}: ${message}${others}`);
    this.problems = problems;
  }
}

/** @param source what to call the text in messages, such as the file's path @throws {CsvError} */
export const readMouthpieces = (text: string, source = "mouthpieces"): MouthpiecePart[] =>
  readParts(text, source, shankDimensions);

/** @param source what to call the text in messages, such as the file's path @throws {CsvError} */
export const readInstruments = (text: string, source = "instruments"): InstrumentPart[] =>
  readParts(text, source, receiverDimensions);

/** Mouthpieces as a table that `readMouthpieces` reads again. */
export const mouthpiecesCsv = (parts: readonly MouthpiecePart[]): string => partsCsv(parts, shankDimensions);
/** Instruments as a table that `readInstruments` reads again. */
export const instrumentsCsv = (parts: readonly InstrumentPart[]): string =>
  partsCsv(parts, receiverDimensions);

const otherNames: Readonly<Record<string, FitDimension>> = {
  "end diameter": "shankEndDiameterMm",
  "shank end": "shankEndDiameterMm",
  "mouth diameter": "mouthDiameterMm",
  "receiver mouth": "mouthDiameterMm",
  depth: "depthMm",
};
const nameHeaders = ["name", "mouthpiece", "instrument"];
const remarkHeaders = ["note", "notes", "remark", "remarks"];
const unknownCells = ["", "?", "-", "–"];
/** Change of diameter per length, in so many words. */
const plainTaperUnits = ["", "mm/mm", "in/in", "per length", "diameter per length"];
const longestText = 1_000_000;

type Column<D> =
  | { readonly kind: "name" | "remark" }
  | {
      readonly kind: "value" | "uncertainty";
      readonly header: string;
      readonly dimension: D;
      readonly unit: LengthUnit;
    };

function readParts<D extends FitDimension>(text: string, source: string, wanted: readonly D[]): Part<D>[] {
  const problems: CsvProblem[] = [];
  if (text.length > longestText)
    throw new CsvError(source, [{ line: 1, message: "the table has more than a million characters" }]);
  const [head, ...rows] = filledRows(text);
  if (head === undefined)
    throw new CsvError(source, [{ line: 1, message: `no header; ${acceptedHeader(wanted)}` }]);
  const columns = head.cells.map((header) => columnOf(header, wanted, head.line, problems));
  checkColumns(columns, wanted, head.line, problems);
  if (rows.length === 0)
    problems.push({ line: head.line, message: "no line follows the header; give one a part" });
  if (problems.length > 0) throw new CsvError(source, problems);

  const seen = new Set<string>();
  const parts = rows.map((row) => {
    const part = readPart(row, columns, problems);
    if (part.name === "") problems.push({ line: row.line, message: "the name is empty; give each its own" });
    else if (seen.has(part.name))
      problems.push({
        line: row.line,
        message: `${quoteTyped(part.name)} is here twice; give each its own name`,
      });
    seen.add(part.name);
    return part;
  });
  if (problems.length > 0) throw new CsvError(source, problems);
  return parts;
}

/** Rows that hold something, with their place in the text. */
function filledRows(text: string): DelimitedRow[] {
  const lines = withoutByteOrderMark(text).split(/\r?\n/);
  const first = lines.find((line) => line.trim() !== "" && !line.startsWith("#")) ?? "";
  const delimiter = ["\t", ",", ";"].find((mark) => first.includes(mark)) ?? ",";
  return rowsOf(text, delimiter).filter(
    ({ cells }) => cells.some((cell) => cell !== "") && !cells[0].startsWith("#"),
  );
}

function columnOf<D extends FitDimension>(
  header: string,
  wanted: readonly D[],
  line: number,
  problems: CsvProblem[],
): Column<D> {
  const unitText = /[([]([^)\]]*)[)\]]\s*$/.exec(header)?.[1] ?? /_(mm|in)$/i.exec(header)?.[1];
  const words = header
    .replace(/[([][^)\]]*[)\]]\s*$|_(mm|in)$/i, "")
    .replace(/([a-z])([A-Z])/g, "$1 $2")
    .toLowerCase()
    .replace(/[^a-z]+/g, " ")
    .trim();
  if (nameHeaders.includes(words)) return { kind: "name" };
  if (remarkHeaders.includes(words)) return { kind: "remark" };
  const plain = words.replace(
    /^(standard )?(uncertainty|u)( of)?( the)? | (standard )?(uncertainty|u)$/g,
    "",
  );
  const dimension = wanted.find(
    (d) => plain === dimensionName[d] || otherNames[plain] === d || (plain === "taper" && isTaper(d)),
  );
  if (dimension === undefined) {
    problems.push({
      line,
      message: `${quoteTyped(header)} is no column of this table; ${acceptedHeader(wanted)}`,
    });
    return { kind: "remark" };
  }
  const unit = unitText?.trim().toLowerCase();
  if (isTaper(dimension) && unit !== undefined && !plainTaperUnits.includes(unit))
    problems.push({
      line,
      message: `${quoteTyped(header)} has a unit that cannot stand here; write it in the cell, such as 0.6 in/ft`,
    });
  if (!isTaper(dimension) && unit !== undefined && unit !== "mm" && unit !== "in")
    problems.push({ line, message: `${quoteTyped(header)} has no unit of length here; give (mm) or (in)` });
  return {
    kind: plain === words ? "value" : "uncertainty",
    header,
    dimension,
    unit: unit === "in" ? "in" : "mm",
  };
}

const acceptedHeader = (wanted: readonly FitDimension[]): string =>
  `give name, ${wanted.map(headerOf).join(", ")}, and u before each of these for its standard uncertainty`;

const headerOf = (dimension: FitDimension): string =>
  isTaper(dimension) ? dimensionName[dimension] : `${dimensionName[dimension]} (mm)`;

/** One name, and no dimension twice. A dimension without a column is unknown for every part. */
function checkColumns<D extends FitDimension>(
  columns: readonly Column<D>[],
  wanted: readonly D[],
  line: number,
  problems: CsvProblem[],
): void {
  const count = (test: (column: Column<D>) => boolean) => columns.filter(test).length;
  if (count(({ kind }) => kind === "name") !== 1)
    problems.push({ line, message: `there must be one column called name; ${acceptedHeader(wanted)}` });
  for (const dimension of wanted)
    for (const kind of ["value", "uncertainty"] as const)
      if (
        count((column) => column.kind === kind && "dimension" in column && column.dimension === dimension) > 1
      )
        problems.push({ line, message: `two columns give the ${dimensionName[dimension]}; give one` });
}

function readPart<D extends FitDimension>(
  { line, cells }: DelimitedRow,
  columns: readonly Column<D>[],
  problems: CsvProblem[],
): Part<D> {
  if (cells.length > columns.length)
    problems.push({
      line,
      message: `${cells.length} cells under ${columns.length} headers; put a cell with a comma in quotes`,
    });
  let name = "";
  const dimensions: Partial<Record<D, number>> = {};
  const uncertainties: Partial<Record<D, number>> = {};
  columns.forEach((column, i) => {
    const cell = cells[i] ?? "";
    if (column.kind === "name") name = cell;
    if (!("dimension" in column) || unknownCells.includes(cell)) return;
    const { header, dimension, kind, unit } = column;
    try {
      const value = isTaper(dimension) ? parseTaper(cell) : parseLengthMm(cell, unit);
      const flaw = (kind === "value" ? valueFlaw : uncertaintyFlaw)(dimension, value);
      if (flaw) problems.push({ line, message: flaw });
      (kind === "value" ? dimensions : uncertainties)[dimension] = value;
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      problems.push({ line, message: `${quoteTyped(header)}: ${error.message}` });
    }
  });
  return { name, dimensions, uncertainties };
}

function partsCsv<D extends ShankDimension | ReceiverDimension>(
  parts: readonly Part<D>[],
  dimensions: readonly D[],
): string {
  const text = (value: number | undefined) => (value === undefined ? "" : `${value}`);
  return csvOfRows([
    ["name", ...dimensions.flatMap((dimension) => [headerOf(dimension), `u ${headerOf(dimension)}`])],
    ...parts.map((part) => [
      part.name,
      ...dimensions.flatMap((dimension) => [
        text(part.dimensions[dimension]),
        text(part.uncertainties[dimension]),
      ]),
    ]),
  ]);
}
