/**
 * Tables as text: cells between commas, semicolons or tabs, in quotes where they hold one (RFC 4180), by papaparse. Which mark
 * stands between the cells is for the reader to know: a guess by the text's looks would take decimal commas for it.
 */
import Papa from "papaparse";

export interface DelimitedRow {
  /** Line of the text on which the row begins, from 1. */
  readonly line: number;
  /** Without spaces around them. */
  readonly cells: readonly string[];
}

/** Without the mark that some programs begin a file with. */
export const withoutByteOrderMark = (text: string): string => text.replace(/^\uFEFF/, "");

/** All rows of a text, empty ones too; a quoted cell may run over several lines. */
export function rowsOf(text: string, delimiter: string): DelimitedRow[] {
  let line = 1;
  return parse(withoutByteOrderMark(text).replace(/\r\n?/g, "\n"), delimiter).data.map((cells) => {
    const row = { line, cells: cells.map((cell) => asWritten(cell).trim()) };
    line += cells.join("").split("\n").length;
    return row;
  });
}

/** Cells of lines that are a row each, whatever quotes are left open in them; a space before a quoted cell is no part of it. */
export function cellsOfLines(lines: readonly string[], delimiter: string): string[][] {
  const bare = lines.map((line) => line.replace(SPACE_BEFORE_QUOTE, "$1"));
  const together = parse(bare.join("\n"), delimiter);
  const isRowALine = together.errors.length === 0 && together.data.length === lines.length;
  const rows = isRowALine ? together.data : bare.map((line) => parse(line, delimiter).data[0] ?? [""]);
  return rows.map((cells) => cells.map((cell) => asWritten(cell).trim()));
}

const SPACE_BEFORE_QUOTE = /(^|[\t;,]) +(?=")/g;

const parse = (text: string, delimiter: string): Papa.ParseResult<string[]> =>
  Papa.parse<string[]>(text, { delimiter, newline: "\n" });

/**
 * A spreadsheet takes a cell that begins so for a formula, whoever wrote it there; behind an apostrophe it is text. One that
 * begins with apostrophes before such a mark gets one more, so that reading can take one away from either.
 */
const FORMULA = /^'*[=+\-@\t\r]/;
const GUARDED = /^'+[=+\-@\t\r]/;

const safe = (cell: Cell): Cell =>
  typeof cell === "string" && FORMULA.test(cell) && !isNumber(cell) ? `'${cell}` : cell;
const asWritten = (cell: string): string => (GUARDED.test(cell) ? cell.slice(1) : cell);
const isNumber = (cell: string): boolean => /^[+-]?[\d.]/.test(cell) && Number.isFinite(Number(cell));

type Cell = string | number | boolean | null | undefined;

/** Rows as CSV, points in numbers whatever the language; nothing where a cell is null or undefined; no text is a formula. */
export const csvOfRows = (rows: readonly (readonly Cell[])[], newline: "\n" | "\r\n" = "\n"): string =>
  `${Papa.unparse(
    rows.map((cells) => cells.map(safe)),
    { newline },
  )}${newline}`;

/** Objects as CSV under their keys, in the order in which these first come up. */
export function csvOfObjects(objects: readonly object[]): string {
  const keys = [...new Set(objects.flatMap((one) => Object.keys(one)))];
  return csvOfRows([keys, ...objects.map((one) => keys.map((key) => (one as Record<string, Cell>)[key]))]);
}
