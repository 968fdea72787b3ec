/**
 * Two columns of lengths from a spreadsheet or a text: separated by tabs, semicolons, commas or spaces, with decimal
 * points or commas, under a heading or not. What cannot be read for certain is named with its line and not guessed.
 */
import { cellsOfLines, withoutByteOrderMark } from "../../units/delimitedText.ts";
import { quoteTyped } from "../../units/inputError.ts";
import { LengthError, type LengthUnit, parseLengthMm } from "../../units/length.ts";

/** Both lengths of a line, mm: a position and a diameter, or whatever the columns hold. */
export interface ColumnRow {
  /** Line of the text, from 1. */
  readonly line: number;
  readonly firstMm: number;
  readonly secondMm: number;
}

export interface ColumnProblem {
  readonly line: number;
  readonly message: string;
}

export type Separator = "tab" | "semicolon" | "comma" | "space";
export type DecimalSign = "point" | "comma";

export interface LengthColumns {
  readonly rows: readonly ColumnRow[];
  readonly problems: readonly ColumnProblem[];
  /** Units of bare numbers: those of the heading, if it names any. */
  readonly units: Units;
  /** Whether the heading named them. */
  readonly hasNamedUnits: boolean;
  /** Lines above the first row. */
  readonly headings: readonly string[];
  /** null where there are no rows */
  readonly separator: Separator | null;
  readonly decimal: DecimalSign;
}

/** What the text shall be taken for, instead of what it looks like. */
export interface ColumnOptions {
  readonly separator?: Separator;
  readonly decimal?: DecimalSign;
  /** Bare numbers are in the given unit, whatever a heading says. */
  readonly ignoresHeading?: boolean;
}

type Units = readonly [position: string, diameter: string];
type Line = { readonly line: number; readonly text: string };
type Split = (lines: readonly string[]) => readonly (readonly string[])[];
type Separated = { readonly separator: Separator; readonly split: Split };

const longestText = 1_000_000;
const looksFirstAt = 50;

/**
 * Columns of lengths from pasted or opened text: separators, decimal comma, units and headings are found out; what cannot be read is among the answer's problems.
 * @param unit of bare numbers where no heading says otherwise
 */
export function readLengthColumns(
  text: string,
  unit: LengthUnit,
  options: ColumnOptions = {},
): LengthColumns {
  const nothing = (message: string): LengthColumns => ({
    rows: [],
    problems: [{ line: 1, message }],
    units: [unit, unit],
    hasNamedUnits: false,
    headings: [],
    separator: null,
    decimal: "point",
  });
  if (text.length > longestText) return nothing("the text is too long; give at most a million characters");
  const lines = withoutByteOrderMark(text)
    .split(/\r\n|\n|\r/)
    .map((line, i) => ({ line: i + 1, text: withoutComment(line) }))
    .filter((line) => line.text.trim() !== "");
  const first = lines.findIndex((line) => !isHeading(line));
  const rows = first < 0 ? [] : lines.slice(first);
  if (rows.length === 0) return nothing("no numbers here; give two columns, position and inner diameter");
  const headings = lines.slice(0, first);
  const named = options.ignoresHeading ? null : unitsOf(headings);
  return {
    ...readLines(rows, named ?? [unit, unit], options),
    hasNamedUnits: named !== null,
    headings: headings.map((line) => line.text.trim()),
  };
}

/** A comment is a line that starts with # or //, or what stands behind a # after a space. */
const withoutComment = (line: string): string =>
  /^\s*(#|\/\/)/.test(line) ? "" : line.replace(/\s#.*$/, "");

function readLines(lines: readonly Line[], units: Units, options: ColumnOptions) {
  const { separator, split } = options.separator ? SEPARATED[options.separator] : separationOf(lines);
  const cells = split(lines.map(({ text }) => text)).map((parts, i) => ({ line: lines[i].line, parts }));
  const hasComma = cells.some(({ parts }) => parts.some(hasDecimalComma));
  const isPlain = hasComma && cells.every(({ parts }) => parts.every((part) => !part.includes(".")));
  const asTyped = (part: string): string => {
    if (options.decimal === "point") return part.replace(/(?<=\d),(?=\d{3}(?!\d))/g, "");
    return isPlain || options.decimal === "comma" ? withPoint(part) : part;
  };
  const rows: ColumnRow[] = [];
  const problems: ColumnProblem[] = [];
  for (const { line, parts } of cells) {
    try {
      const [firstMm, secondMm] = readPair(parts.map(asTyped), units);
      rows.push({ line, firstMm, secondMm });
    } catch (error) {
      if (!(error instanceof LengthError)) throw error;
      problems.push({ line, message: error.message });
    }
  }
  const decimal: DecimalSign = options.decimal ?? (hasComma ? "comma" : "point");
  return { rows, problems, units, separator, decimal };
}

function readPair(parts: readonly string[], units: Units): readonly [number, number] {
  if (parts.length === 2 && parts.includes("") && parts.join("") !== "")
    throw new LengthError(
      `${quoteTyped(parts.join(""))} stands alone: the ${parts[0] === "" ? "first" : "second"} column is empty here; give position and inner diameter`,
    );
  if (parts.length !== 2) {
    const found = parts.length === 1 ? quoteTyped(parts[0]) : `${parts.length} columns`;
    throw new LengthError(
      `${found} where two columns belong; give position and inner diameter, a tab or semicolon in between`,
    );
  }
  return [readLength(parts[0], units[0]), readLength(parts[1], units[1])];
}

function readLength(text: string, unit: string): number {
  if (unit === "mm" || unit === "in") return parseLengthMm(text, unit);
  return parseLengthMm(/^[\s\d.,+\-−]+$/.test(text) ? `${text} ${unit}` : text, "mm");
}

/** A heading has words where a row has numbers. */
const isHeading = ({ text }: Line): boolean => /^[^\d.,+\-−]*\p{L}/u.test(text) || !/\d/.test(text);

/** The units that headings name, one a column or one for both; null when they name none. */
function unitsOf(headings: readonly Line[]): Units | null {
  for (const { text } of headings) {
    const found = [
      ...text.matchAll(
        /[([]\s*(mm|cm|m|inch|inches|in)\s*[)\]]|(?<!\p{L})(mm|cm|inches|inch|in)\s*(?=$|[\t;,])/giu,
      ),
    ].map(([, bracketed, bare]) => short(bracketed ?? bare));
    if (found.length > 0) return [found[0], found[found.length - 1]];
  }
  return null;
}

const short = (unit: string): string => unit.toLowerCase().replace(/^in.*/, "in");

/** How the lines are cut in two. Where marks could mean either, the way that most of the first lines can be read in. */
function separationOf(lines: readonly Line[]): Separated {
  if (lines.some(({ text }) => text.includes("\t"))) return SEPARATED.tab;
  if (lines.some(({ text }) => text.includes(";"))) return SEPARATED.semicolon;
  const tried = lines.slice(0, looksFirstAt).map(({ text }) => text);
  const score = (split: Split) => split(tried).filter(isPair).length;
  const ways = [COMMA_AND_SPACE, SEPARATED.space, SEPARATED.comma].map((way) => ({
    way,
    read: score(way.split),
  }));
  const best = ways.reduce((a, b) => (b.read > a.read ? b : a));
  if (best.read > 0) return best.way;
  return tried.some((text) => /\S\s+\S/.test(text)) ? SEPARATED.space : SEPARATED.comma;
}

/** Cells between marks; an inch mark stands behind a number, not before it, and is no quote. */
const at =
  (mark: string): Split =>
  (lines) =>
    cellsOfLines(lines, mark).map((parts) => {
      while (parts.length > 2 && parts[parts.length - 1] === "") parts.pop();
      return parts;
    });

/** Cuts at the one space that leaves a length on either side: `1 1/8 in 12 mm`. */
const atSpace = (text: string): string[] => {
  const words = text.trim().split(/\s+/);
  if (words.length <= 2) return words;
  const cuts = words
    .slice(1, 8)
    .map((_, i) => [words.slice(0, i + 1).join(" "), words.slice(i + 1).join(" ")])
    .filter(isPair);
  return cuts.length === 1 ? cuts[0] : words;
};

const SEPARATED: Readonly<Record<Separator, Separated>> = {
  tab: { separator: "tab", split: at("\t") },
  semicolon: { separator: "semicolon", split: at(";") },
  comma: { separator: "comma", split: at(",") },
  space: { separator: "space", split: (lines) => lines.map(atSpace) },
};
const COMMA_AND_SPACE: Separated = {
  separator: "comma",
  split: (lines) => at(", ")(lines.map((text) => text.replace(/,\s+/g, ", "))),
};

const isPair = (parts: readonly string[]): boolean => parts.length === 2 && parts.every(isLength);

function isLength(text: string): boolean {
  try {
    parseLengthMm(text, "mm");
    return true;
  } catch (error) {
    if (error instanceof LengthError) return false;
    throw error;
  }
}

/** A comma that can only be a decimal one: no three digits after it, or a single nought before. */
const hasDecimalComma = (part: string): boolean => /^\D*(?:\d+,(?:\d{1,2}|\d{4,})|0,\d+)(?![\d,])/.test(part);
const withPoint = (part: string): string => part.replace(/^([^,]*),([^,]*)$/, "$1.$2");
