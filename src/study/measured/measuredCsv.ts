/**
 * A measured input impedance from the CSV of whatever measured it: what the columns mean is taken from their header, else
 * guessed from the numbers; what was understood is part of the result, and every guess can be overruled.
 */
import { CsvError, type CsvProblem } from "../../bench/fit/partsCsv.ts";
import { cellsOfLines, type DelimitedRow, withoutByteOrderMark } from "../../units/delimitedText.ts";
import { quoteTyped } from "../../units/inputError.ts";
import {
  columnsOf,
  type Delimiter,
  isOnePart,
  type Reading,
  readingOf,
  type Values,
} from "./measuredReading.ts";

export interface MeasuredImpedance {
  /** Hz, rising. */
  readonly frequencies: Float64Array;
  /** In Pa·s/m³, ρc/S of the rim or an unknown unit, as `reading.scale` says. */
  readonly re: Float64Array;
  /** Nothing but zeros where no phase is given: `re` is the magnitude then. */
  readonly im: Float64Array;
  readonly reading: Reading;
  readonly hasHeader: boolean;
}

const LEAST_ROWS = 20;
const MOST_ROWS = 200_000;
const LONGEST_TEXT = 30_000_000;

/**
 * @param source what to call the text in messages, such as the file's path
 * @param given what is known of the file
 * @throws {CsvError} naming the line
 */
export function readMeasured(
  text: string,
  source = "measurement",
  given: Partial<Reading> = {},
): MeasuredImpedance {
  const refuse = (line: number, message: string) => new CsvError(source, [{ line, message }]);
  if (text.length > LONGEST_TEXT)
    throw refuse(1, "the file is too large; give at most 30 million characters");
  const lines = linesOf(text);
  if (lines.length === 0)
    throw refuse(
      1,
      "there is nothing in it; give a frequency and a magnitude on every line, and a phase where there is one",
    );
  if (lines.length > MOST_ROWS) throw refuse(1, `it has more than ${MOST_ROWS} lines; give fewer`);
  const delimiter = given.delimiter ?? delimiterOf(lines);
  const decimal = given.decimal ?? decimalOf(lines, delimiter);
  const rows = rowsOf(lines, delimiter);
  const number = (cell: string) => numberOf(cell, decimal);
  const hasHeader = !rows[0].cells.slice(0, 3).every((cell) => Number.isFinite(number(cell)));
  const header = hasHeader ? rows[0].cells : [];
  const columns = columnsOf(header, widthOf(rows[hasHeader ? 1 : 0] ?? rows[0]), given.form);
  if (columns.length === 2 && isOnePart(header[columns[1]] ?? ""))
    throw refuse(
      rows[0].line,
      `${quoteTyped(header[columns[1]])} alone is half an impedance; give the other half too, or the magnitude`,
    );
  const values = numbers(rows.slice(hasHeader ? 1 : 0), columns, number, source);
  if (values[0].length < LEAST_ROWS)
    throw refuse(
      rows[rows.length - 1].line,
      `only ${values[0].length} frequencies; give at least ${LEAST_ROWS}`,
    );
  const reading = readingOf(
    columns.map((column) => header[column] ?? ""),
    values,
    { ...given, delimiter, decimal },
  );
  return { ...impedanceOf(values, reading, rows, hasHeader, source), reading, hasHeader };
}

/** Columns of a row, without what a separator at its end leaves empty. */
const widthOf = ({ cells }: DelimitedRow): number => cells.findLastIndex((cell) => cell !== "") + 1;

interface Line {
  readonly line: number;
  readonly text: string;
}

const linesOf = (text: string): Line[] =>
  withoutByteOrderMark(text)
    .split(/\r\n|\r|\n/)
    .map((row, i) => ({ line: i + 1, text: row.trim() }))
    .filter(({ text: row }) => row !== "" && !/^[#%!]/.test(row));

/** The one that stands on the last line, where no header is. */
function delimiterOf(lines: readonly Line[]): Delimiter {
  const { text } = lines[lines.length - 1];
  if (text.includes("\t")) return "tab";
  if (text.includes(";")) return "semicolon";
  // 100,5 2,3 0,1: commas that are decimals
  if (/\d\s+[-+\d]/.test(text) && !/,\s/.test(text)) return "space";
  return text.includes(",") ? "comma" : "space";
}

const decimalOf = (lines: readonly Line[], delimiter: Delimiter): Reading["decimal"] =>
  delimiter !== "comma" && lines.some(({ text }) => /\d,\d/.test(text) && !/\d\.\d/.test(text))
    ? "comma"
    : "point";

const SEPARATOR = { comma: ",", semicolon: ";", tab: "\t", space: " " } as const;

function rowsOf(lines: readonly Line[], delimiter: Delimiter): DelimitedRow[] {
  const texts = lines.map(({ text }) => (delimiter === "space" ? text.replace(/\s+/g, " ") : text));
  return cellsOfLines(texts, SEPARATOR[delimiter]).map((cells, i) => ({ line: lines[i].line, cells }));
}

function numberOf(cell: string, decimal: Reading["decimal"]): number {
  const text = (decimal === "comma" ? cell.replace(",", ".") : cell).replace(/−/g, "-");
  return /^[-+]?(\d+\.?\d*|\.\d+)([eEdD][-+]?\d+)?$/.test(text)
    ? Number(text.replace(/[dD]/, "e"))
    : Number.NaN;
}

function numbers(
  rows: readonly DelimitedRow[],
  columns: readonly number[],
  number: (cell: string) => number,
  source: string,
): Values {
  const problems: CsvProblem[] = [];
  const values: Values = [[], [], []];
  for (const { line, cells } of rows) {
    columns.forEach((column, i) => {
      const cell = cells[column];
      const value = cell === undefined ? Number.NaN : number(cell);
      values[i].push(value);
      if (Number.isFinite(value)) return;
      problems.push({
        line,
        message:
          cell === undefined
            ? `${cells.length} ${cells.length === 1 ? "column" : "columns"}; give ${columns.length === 2 ? "two: a frequency and a magnitude" : "three: a frequency and the two parts of the impedance"}`
            : `${quoteTyped(cell)} in column ${column + 1} is no number; give one, or say how the file is written (delimiter, decimal)`,
      });
    });
  }
  if (problems.length > 0) throw new CsvError(source, problems);
  return values;
}

/** The impedance, and frequencies that rise. */
function impedanceOf(
  [frequency, first, second]: Values,
  { form, magnitude, phase, hertz, unit, scale }: Reading,
  rows: readonly DelimitedRow[],
  hasHeader: boolean,
  source: string,
): Pick<MeasuredImpedance, "frequencies" | "re" | "im"> {
  const count = frequency.length;
  const frequencies = Float64Array.from(frequency, (f) => f * hertz);
  const re = new Float64Array(count);
  const im = new Float64Array(count);
  const factor = scale === "absolute" ? unit : 1;
  const angle = phase === "degrees" ? Math.PI / 180 : 1;
  const problems: CsvProblem[] = [];
  for (let i = 0; i < count; i++) {
    const refuse = (message: string) => problems.push({ line: rows[i + (hasHeader ? 1 : 0)].line, message });
    const before = i === 0 ? 0 : frequencies[i - 1];
    if (!(frequencies[i] > before))
      refuse(
        i === 0
          ? `${frequencies[i]} Hz is no frequency above 0; give one`
          : `${frequencies[i]} Hz comes after ${before} Hz; give frequencies that rise`,
      );
    if (form === "real-imaginary") {
      re[i] = factor * first[i];
      im[i] = factor * second[i];
    } else {
      const size = factor * (magnitude === "dB" ? 10 ** (first[i] / 20) : first[i]);
      const turned = form === "magnitude" ? 0 : angle * second[i];
      re[i] = size * Math.cos(turned);
      im[i] = size * Math.sin(turned);
    }
    const size = Math.hypot(re[i], im[i]);
    if (
      !(size > 0 && size < Infinity) ||
      (form !== "real-imaginary" && magnitude === "linear" && first[i] <= 0)
    )
      refuse(
        `an impedance of ${form === "magnitude" ? first[i] : `${first[i]} and ${second[i]}`} has no size above 0; give one, or leave the frequency out`,
      );
  }
  if (problems.length > 0) throw new CsvError(source, problems);
  return { frequencies, re, im };
}
