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
    const row = { line, cells: cells.map((cell) => cell.trim()) };
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
  return rows.map((cells) => cells.map((cell) => cell.trim()));
}

const SPACE_BEFORE_QUOTE = /(^|[\t;,]) +(?=")/g;

const parse = (text: string, delimiter: string): Papa.ParseResult<string[]> =>
  Papa.parse<string[]>(text, { delimiter, newline: "\n" });

type Cell = string | number | boolean | null | undefined;

/** Rows as CSV, points in numbers whatever the language; nothing where a cell is null or undefined. */
export const csvOfRows = (rows: readonly (readonly Cell[])[], newline: "\n" | "\r\n" = "\n"): string =>
  `${Papa.unparse(rows as Cell[][], { newline })}${newline}`;

/** Objects as CSV under their keys, in the order in which these first come up. */
export function csvOfObjects(objects: readonly object[]): string {
  const keys = [...new Set(objects.flatMap((one) => Object.keys(one)))];
  return csvOfRows([keys, ...objects.map((one) => keys.map((key) => (one as Record<string, Cell>)[key]))]);
}
