/** Instruments to be compared before any is built, as they were taken in, and what is typed to take in or design another. */
import type { LengthUnit } from "../../../units/length.ts";
import { type MeasuredNotes, NO_MEASURED, readMeasuredNotes } from "./measuredNotes.ts";
import { inUnit, isRecord, textOf, textsLike, unitOf } from "./typed.ts";

/** One that was taken in: its own name, where it came from in words, and the whole setup in its file's form. */
export interface CandidateNotes {
  readonly name: string;
  readonly origin: string;
  readonly file: Readonly<Record<string, unknown>>;
}

export const TABLE_PARTS = ["leadpipe", "mouthpiece", "body"] as const;
export type TablePart = (typeof TABLE_PARTS)[number];
/** What a table may be said to be; an empty text leaves it to be found out. */
export type TableSaid = "unit" | "measure" | "direction" | "separator" | "decimal" | "swapped";

/** A bore table that is not taken in yet. */
export interface TableNotes {
  readonly part: TablePart;
  readonly name: string;
  readonly text: string;
  readonly said: Readonly<Record<TableSaid, string>>;
}

/** A leadpipe by its dimensions that is not taken in yet. */
export type ShapePart = "name" | "entry" | "narrowestAt" | "entryTaper" | "taper" | "end" | "length";
export type ShapeNotes = Readonly<Record<ShapePart, string>>;

/** What a leadpipe is to be designed for, and within which limits. */
export type DesignPart =
  | "goal"
  | "knots"
  | "smallest"
  | "largest"
  | "starts"
  | "every"
  | "narrowestGap"
  | "widestGap";
export interface DesignNotes extends Readonly<Record<DesignPart, string>> {
  /** Place of the candidate that is to be equalled, 0 the open setup; null: the typed goal. */
  readonly like: number | null;
  readonly movesGap: boolean;
  readonly widens: boolean;
  readonly holdsEntry: boolean;
  readonly holdsEnd: boolean;
}

export interface CompareNotes {
  /** What a bare length is in. */
  readonly unit: LengthUnit;
  /** Beside the open setup, which is always the first. */
  readonly candidates: readonly CandidateNotes[];
  /** Which of all the others are held against; 0 is the open setup. */
  readonly reference: number;
  /** Resonance that all are brought to the reference's pitch on; null: as they are. */
  readonly retune: number | null;
  /** All at the open setup's gap, or each at its own. */
  readonly sameGap: boolean;
  readonly withHold: boolean;
  readonly goal: string;
  /** Error of manufacture, on the diameter. */
  readonly error: string;
  readonly table: TableNotes;
  readonly shape: ShapeNotes;
  readonly design: DesignNotes;
  readonly measured: MeasuredNotes;
}

/** Nobody tells more apart in one chart. */
export const MOST_CANDIDATES = 12;
const LONGEST_TABLE = 200_000;
const MOST_RESONANCES = 12;

export const NO_TABLE: TableNotes = {
  part: "leadpipe",
  name: "",
  text: "",
  said: { unit: "", measure: "", direction: "", separator: "", decimal: "", swapped: "" },
};
export const NO_SHAPE: ShapeNotes = {
  name: "",
  entry: "",
  narrowestAt: "",
  entryTaper: "",
  taper: "",
  end: "",
  length: "",
};
export const NO_DESIGN: DesignNotes = {
  goal: "",
  knots: "",
  smallest: "",
  largest: "",
  starts: "",
  every: "",
  narrowestGap: "",
  widestGap: "",
  like: null,
  movesGap: false,
  widens: true,
  holdsEntry: true,
  holdsEnd: true,
};
export const NO_COMPARISON: CompareNotes = {
  unit: "mm",
  candidates: [],
  reference: 0,
  retune: 4,
  sameGap: false,
  withHold: false,
  goal: "",
  error: "",
  table: NO_TABLE,
  shape: NO_SHAPE,
  design: NO_DESIGN,
  measured: NO_MEASURED,
};

const SHAPE_LENGTHS: readonly ShapePart[] = ["entry", "narrowestAt", "end", "length"];
const DESIGN_LENGTHS: readonly DesignPart[] = ["smallest", "largest", "every", "narrowestGap", "widestGap"];

export function readCompareNotes(json: unknown): CompareNotes {
  if (!isRecord(json)) return NO_COMPARISON;
  const candidates = readCandidates(json.candidates);
  const { reference, retune } = json;
  return {
    unit: unitOf(json.unit),
    candidates,
    reference: isWithin(reference, 0, candidates.length) ? reference : 0,
    retune: retune === null || isWithin(retune, 1, MOST_RESONANCES) ? retune : NO_COMPARISON.retune,
    sameGap: json.sameGap === true,
    withHold: json.withHold === true,
    goal: textOf(json.goal),
    error: textOf(json.error),
    table: readTable(json.table),
    shape: textsLike(NO_SHAPE, json.shape),
    design: readDesign(json.design, candidates.length),
    measured: readMeasuredNotes(json.measured),
  };
}

const isWithin = (value: unknown, least: number, most: number): value is number =>
  Number.isInteger(value) && (value as number) >= least && (value as number) <= most;

const readCandidates = (json: unknown): readonly CandidateNotes[] =>
  Array.isArray(json)
    ? json
        .filter(isRecord)
        .flatMap(({ name, origin, file }) =>
          isRecord(file) ? [{ name: textOf(name), origin: textOf(origin), file }] : [],
        )
        .slice(0, MOST_CANDIDATES - 1)
    : [];

function readTable(json: unknown): TableNotes {
  if (!isRecord(json)) return NO_TABLE;
  return {
    part: TABLE_PARTS.find((part) => part === json.part) ?? NO_TABLE.part,
    name: textOf(json.name),
    text: typeof json.text === "string" ? json.text.slice(0, LONGEST_TABLE) : "",
    said: textsLike(NO_TABLE.said, json.said),
  };
}

function readDesign(json: unknown, candidates: number): DesignNotes {
  if (!isRecord(json)) return NO_DESIGN;
  const { widens, holdsEntry, holdsEnd, movesGap, like, ...texts } = NO_DESIGN;
  return {
    ...textsLike(texts, json),
    like: isWithin(json.like, 0, candidates) ? json.like : null,
    movesGap: json.movesGap === true,
    widens: json.widens !== false,
    holdsEntry: json.holdsEntry !== false,
    holdsEnd: json.holdsEnd !== false,
  };
}

/** The same under another unit; a table's text says itself what it is in. */
export function compareNotesIn(notes: CompareNotes, unit: LengthUnit): CompareNotes {
  if (notes.unit === unit) return notes;
  const lengths = <Part extends string>(texts: Readonly<Record<Part, string>>, parts: readonly Part[]) =>
    Object.fromEntries(parts.map((part) => [part, inUnit(texts[part], notes.unit, unit)]));
  return {
    ...notes,
    unit,
    error: inUnit(notes.error, notes.unit, unit),
    shape: { ...notes.shape, ...lengths(notes.shape, SHAPE_LENGTHS) },
    design: { ...notes.design, ...lengths<DesignPart>(notes.design, DESIGN_LENGTHS) },
  };
}
