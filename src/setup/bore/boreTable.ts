/**
 * A bore from somebody else's table: two columns whose unit, measure (diameter or radius) and direction the file may or may
 * not name. What it was taken for is told with its reason before it is used, and every guess can be overruled.
 *
 * The sizes that guesses go by are those of brass instruments in use: common practice, no source.
 */
import { InputError } from "../../units/inputError.ts";
import type { LengthUnit } from "../../units/length.ts";
import { withoutRoundingNoise } from "../../units/roundingNoise.ts";
import { REFUSED } from "../dimension/plausibleLimits.ts";
import { profileFlaws } from "../geometry.ts";
import type { ProfileMm } from "../setup.ts";
import { repeatFlaw, swapFlaw, type TableRow } from "./boreTableFlaw.ts";
import {
  type ColumnProblem,
  type DecimalSign,
  type LengthColumns,
  readLengthColumns,
  type Separator,
} from "./lengthColumns.ts";

export type BorePartName = "mouthpiece" | "leadpipe" | "body";
export type Measure = "diameter" | "radius";
/** Which end the table starts at. */
export type Direction = "mouthpiece end first" | "bell end first";

export interface BoreTableOptions {
  readonly unit?: LengthUnit;
  readonly measure?: Measure;
  readonly direction?: Direction;
  readonly separator?: Separator;
  readonly decimal?: DecimalSign;
  /** The position stands in the second column. */
  readonly isSwapped?: boolean;
}

/** Something the table was taken for, and why. */
export interface Reading<Value extends string> {
  readonly value: Value;
  /** In words, to follow "because" or "as". */
  readonly reason: string;
  /** Whether the table left it open. */
  readonly isGuess: boolean;
}

export interface BoreTable {
  /** From the mouthpiece's end, starting at 0. */
  readonly profileMm: ProfileMm;
  readonly unit: Reading<string>;
  readonly measure: Reading<Measure>;
  readonly direction: Reading<Direction>;
  readonly separator: Separator;
  readonly decimal: DecimalSign;
  readonly rows: number;
  readonly smallestMm: number;
  readonly largestMm: number;
  readonly lengthMm: number;
}

/** A table that was refused, with all that is wrong with it. */
export class BoreTableError extends InputError {
  override name = "BoreTableError";
  constructor(readonly problems: readonly ColumnProblem[]) {
    const [{ line, message }] = problems;
    const others = problems.length > 1 ? ` (and ${problems.length - 1} more)` : "";
    super(`line ${line}: ${message}${others}`);
  }
}

/** No bore is narrower than this diameter or radius in mm, nor as wide in inches at its narrowest. */
const NARROWEST_MM = 1.4;
/** What tells radii from diameters: how large a part's narrowest or widest place is at least, as a diameter in mm. */
const AS_DIAMETER: Readonly<Record<BorePartName, readonly ["narrowest" | "widest", atLeastMm: number]>> = {
  mouthpiece: ["widest", 12.5],
  leadpipe: ["narrowest", 6.6],
  body: ["narrowest", 8],
};

/**
 * @param part decides what sizes are usual
 * @throws {BoreTableError} naming the lines that cannot be taken
 */
export function readBoreTable(text: string, part: BorePartName, options: BoreTableOptions = {}): BoreTable {
  const columns = readLengthColumns(text, "mm", { ...options, ignoresHeading: options.unit !== undefined });
  refuseUnread(columns);
  const unit = unitOf(columns, options);
  if (unit.isGuess && unit.value === "in") refuseMixed(columns, part, options.isSwapped === true);
  const isInches = unit.value === "in" && !columns.hasNamedUnits;
  const read = isInches ? readLengthColumns(text, "in", { ...options, ignoresHeading: true }) : columns;
  refuseUnread(read);
  const rows = read.rows.map(
    ({ line, firstMm, secondMm }): TableRow =>
      options.isSwapped ? { line, x: secondMm, d: firstMm } : { line, x: firstMm, d: secondMm },
  );
  const flaw = swapFlaw(rows) ?? repeatFlaw(rows);
  if (flaw) throw new BoreTableError([flaw]);

  const measure = measureOf(rows, part, columns.headings, options);
  const factor = measure.value === "radius" ? 2 : 1;
  const forwards = rows[0].x <= rows[rows.length - 1].x ? rows : [...rows].reverse();
  const points = forwards.map(({ line, x, d }) => ({ line, x, d: factor * d }));
  checkPoints(points);
  const direction = directionOf(points, part, options);
  const from = points[0].x;
  const to = points[points.length - 1].x;
  const ordered =
    direction.value === "mouthpiece end first"
      ? points.map(({ x, d }) => [withoutRoundingNoise(x - from), d] as const)
      : [...points].reverse().map(({ x, d }) => [withoutRoundingNoise(to - x), d] as const);
  const diameters = points.map(({ d }) => d);
  return {
    profileMm: ordered.map(([x, d]) => [x, withoutRoundingNoise(d)] as const),
    unit,
    measure,
    direction,
    separator: columns.separator!,
    decimal: columns.decimal,
    rows: rows.length,
    smallestMm: Math.min(...diameters),
    largestMm: Math.max(...diameters),
    lengthMm: to - from,
  };
}

function refuseUnread({ rows, problems }: LengthColumns): void {
  if (rows.length === 0 || problems.length > 0) throw new BoreTableError(problems);
}

function unitOf(columns: LengthColumns, { unit }: BoreTableOptions): Reading<string> {
  if (unit) return { value: unit, reason: "it was said", isGuess: false };
  if (columns.hasNamedUnits)
    return {
      value: [...new Set(columns.units)].join(" and "),
      reason: "the heading names it",
      isGuess: false,
    };
  const narrowest = Math.min(...columns.rows.map(({ firstMm, secondMm }) => Math.max(firstMm, secondMm)));
  const bores = columns.rows.map(({ secondMm }) => secondMm).filter((size) => size > 0);
  const smallest = bores.length > 0 ? Math.min(...bores) : narrowest;
  const given = Number(smallest.toPrecision(4));
  return smallest < NARROWEST_MM
    ? { value: "in", reason: `no bore is ${given} mm wide`, isGuess: true }
    : { value: "mm", reason: `a narrowest bore of ${given} would be none in inches`, isGuess: true };
}

const LONGEST: Readonly<Record<BorePartName, number>> = {
  mouthpiece: REFUSED.mouthpieceLength.most,
  leadpipe: REFUSED.leadpipeLength.most,
  body: REFUSED.bodyLength.most,
};

/** Bores that can only be inches beside positions that can only be mm: one unit for both would be nonsense. */
function refuseMixed({ rows }: LengthColumns, part: BorePartName, isSwapped: boolean): void {
  const positions = rows.map(({ firstMm, secondMm }) => (isSwapped ? secondMm : firstMm));
  const extent = Math.max(...positions) - Math.min(...positions);
  // too long in mm as well, it is another mistake
  if (extent * 25.4 <= LONGEST[part] || !(extent <= LONGEST[part])) return;
  throw new BoreTableError([
    {
      line: rows[0].line,
      message:
        `the bores look like inches, but a ${part} of ${Number(extent.toPrecision(4))} in would be ${Number((extent * 0.0254).toPrecision(3))} m long: ` +
        'are the positions in mm? Name both units in a heading, such as "position (mm), diameter (in)"',
    },
  ]);
}

function measureOf(
  rows: readonly TableRow[],
  part: BorePartName,
  headings: readonly string[],
  options: BoreTableOptions,
): Reading<Measure> {
  if (options.measure) return { value: options.measure, reason: "it was said", isGuess: false };
  const named = headings.map(namedMeasure).find((measure) => measure !== null);
  if (named) return { value: named, reason: "the heading names it", isGuess: false };
  const [where, atLeastMm] = AS_DIAMETER[part];
  // what is not above 0 is refused later, by its line
  const sizes = rows.map(({ d }) => d).filter((d) => d > 0);
  const size = where === "widest" ? Math.max(...sizes) : Math.min(...sizes);
  const reason = `${where} ${Number(size.toPrecision(4))} mm: as a diameter a ${part}'s is ${atLeastMm} mm or more`;
  return { value: size < atLeastMm ? "radius" : "diameter", reason, isGuess: true };
}

function namedMeasure(heading: string): Measure | null {
  if (/(?<!\p{L})(radius|radii|rad|r)(?!\p{L})/iu.test(heading)) return "radius";
  return /(?<!\p{L})(diameters?|dia|diam|bore|d)(?!\p{L})|[Øø⌀]/iu.test(heading) ? "diameter" : null;
}

function directionOf(
  points: readonly TableRow[],
  part: BorePartName,
  { direction }: BoreTableOptions,
): Reading<Direction> {
  if (direction) return { value: direction, reason: "it was said", isGuess: false };
  const first = points[0].d;
  const last = points[points.length - 1].d;
  const isReversed = part === "mouthpiece" ? first < last : first > last;
  const wide = part === "mouthpiece" ? "its cup" : "its bell end";
  const ends = `${Number(first.toPrecision(4))} mm at position ${Number(points[0].x.toPrecision(4))}, ${Number(last.toPrecision(4))} mm at ${Number(points[points.length - 1].x.toPrecision(4))}`;
  return {
    value: isReversed ? "bell end first" : "mouthpiece end first",
    reason: `a ${part} is wider at ${wide}: ${ends}`,
    isGuess: true,
  };
}

/** The line of what makes no bore. */
function checkPoints(points: readonly TableRow[]): void {
  const flaws = profileFlaws(points.map(({ x, d }) => [x, d] as const));
  if (flaws.length === 0) return;
  throw new BoreTableError(flaws.map(({ keys: [i = 0], message }) => ({ line: points[i].line, message })));
}

/** What the table was taken for, one line a fact, for a person to agree with before it is used. */
export function boreTableText(table: BoreTable): string[] {
  const { unit, measure, direction, rows, lengthMm, smallestMm, largestMm, separator, decimal } = table;
  const reading = ({ value, reason, isGuess }: Reading<string>) =>
    `${value} (${isGuess ? "a guess, as " : ""}${reason})`;
  return [
    `${rows} rows, columns parted by ${separator}, decimal ${decimal}`,
    `unit: ${reading(unit)}`,
    `bore given as: ${reading(measure)}`,
    `order: ${reading(direction)}`,
    `${lengthMm.toFixed(2)} mm long, diameter ${smallestMm.toFixed(3)} to ${largestMm.toFixed(3)} mm`,
  ];
}
