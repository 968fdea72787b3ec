/**
 * Two columns of lengths from a spreadsheet or a text: separated by tabs, semicolons, commas or spaces, with decimal
 * points or commas, under a heading or not. What cannot be read for certain is named with its line and not guessed.
 */
import { quoteTyped } from "../../units/inputError.ts";
import { LengthError, type LengthUnit, parseLengthMm } from "../../units/length.ts";

export interface PastedRow {
  /** Line of the pasted text, from 1. */
  readonly line: number;
  readonly positionMm: number;
  readonly diameterMm: number;
}

export interface PastedProblem {
  readonly line: number;
  readonly message: string;
}

export interface Pasted {
  readonly rows: readonly PastedRow[];
  readonly problems: readonly PastedProblem[];
  /** Units of bare numbers: those of the heading, if it names any. */
  readonly units: Units;
}

type Units = readonly [position: string, diameter: string];
type Line = { readonly line: number; readonly text: string };
type Split = (text: string) => readonly string[];

const longestText = 1_000_000;
const looksFirstAt = 50;

/** @param unit of bare numbers where no heading says otherwise */
export function readPasted(text: string, unit: LengthUnit): Pasted {
  const units: Units = [unit, unit];
  const nothing = (message: string): Pasted => ({ rows: [], problems: [{ line: 1, message }], units });
  if (text.length > longestText) return nothing("the text is too long; give at most a million characters");
  const lines = text
    .replace(/^\uFEFF/, "")
    .split(/\r\n|\n|\r/)
    .map((line, i) => ({ line: i + 1, text: line }))
    .filter((line) => line.text.trim() !== "" && !line.text.trimStart().startsWith("#"));
  const first = lines.findIndex((line) => !isHeading(line));
  const rows = first < 0 ? [] : lines.slice(first);
  if (rows.length === 0) return nothing("no numbers here; give two columns, position and inner diameter");
  return readLines(rows, unitsOf(lines.slice(0, first)) ?? units);
}

function readLines(lines: readonly Line[], units: Units): Pasted {
  const split = splitOf(lines);
  const cells = lines.map(({ line, text }) => ({ line, parts: split(text) }));
  const plain = cells.some(({ parts }) => parts.some(hasDecimalComma))
    ? cells.every(({ parts }) => parts.every((part) => !part.includes(".")))
    : false;
  const rows: PastedRow[] = [];
  const problems: PastedProblem[] = [];
  for (const { line, parts } of cells) {
    try {
      const [positionMm, diameterMm] = readPair(plain ? parts.map(withPoint) : parts, units);
      rows.push({ line, positionMm, diameterMm });
    } catch (error) {
      if (!(error instanceof LengthError)) throw error;
      problems.push({ line, message: error.message });
    }
  }
  return { rows, problems, units };
}

function readPair(parts: readonly string[], units: Units): readonly [number, number] {
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
function splitOf(lines: readonly Line[]): Split {
  if (lines.some(({ text }) => text.includes("\t"))) return at(/\t/);
  if (lines.some(({ text }) => text.includes(";"))) return at(/;/);
  const tried = lines.slice(0, looksFirstAt).map(({ text }) => text);
  const score = (split: Split) => tried.filter((text) => isPair(split(text))).length;
  const ways = [at(/,\s+/), atSpace, at(/,/)].map((split) => ({ split, read: score(split) }));
  const best = ways.reduce((a, b) => (b.read > a.read ? b : a));
  if (best.read > 0) return best.split;
  return tried.some((text) => /\S\s+\S/.test(text)) ? atSpace : at(/,/);
}

const at =
  (mark: RegExp): Split =>
  (text) => {
    const parts = text.split(mark).map(unquoted);
    while (parts.length > 2 && parts[parts.length - 1] === "") parts.pop();
    return parts;
  };

/** Cuts at the one space that leaves a length on either side: `1 1/8 in 12 mm`. */
const atSpace: Split = (text) => {
  const words = text.trim().split(/\s+/);
  if (words.length <= 2) return words;
  const cuts = words
    .slice(1, 8)
    .map((_, i) => [words.slice(0, i + 1).join(" "), words.slice(i + 1).join(" ")])
    .filter(isPair);
  return cuts.length === 1 ? cuts[0] : words;
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

/** A cell as a table file quotes it; an inch mark is no such quote. */
const unquoted = (cell: string): string =>
  cell
    .trim()
    .replace(/^"(.*)"$/, "$1")
    .trim();

/** A comma that can only be a decimal one: no three digits after it, or a single nought before. */
const hasDecimalComma = (part: string): boolean => /^\D*(?:\d+,(?:\d{1,2}|\d{4,})|0,\d+)(?![\d,])/.test(part);
const withPoint = (part: string): string => part.replace(/^([^,]*),([^,]*)$/, "$1.$2");
