/** Instruments to be compared before any is built, as they were taken in, and what is typed to take in or design another. */
import { formatLength } from "../../../units/formatLength.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { type Field, length, plainNumber, taper, words } from "../../form/field.ts";
import {
  flag,
  isRecord,
  type Kept,
  type KeptBy,
  kept,
  keptForm,
  oneOf,
  record,
  text,
  texts,
  wholeOrNone,
} from "../../form/kept.ts";
import { measuredPart } from "./measured.ts";

/** One that was taken in: its own name, where it came from in words, and the whole setup in its file's form. */
export interface CandidateNotes {
  readonly name: string;
  readonly origin: string;
  readonly file: Readonly<Record<string, unknown>>;
}

/** Nobody tells more apart in one chart. */
export const MOST_CANDIDATES = 12;
const LONGEST_TABLE = 200_000;
const MOST_RESONANCES = 12;

const name = text();
const candidates: Kept<readonly CandidateNotes[]> = kept<readonly CandidateNotes[]>([], (json) =>
  Array.isArray(json)
    ? json
        .filter(isRecord)
        .flatMap(({ file, ...of }) =>
          isRecord(file) ? [{ name: name.ofJson(of.name), origin: name.ofJson(of.origin), file }] : [],
        )
        .slice(0, MOST_CANDIDATES - 1)
    : [],
);

export const TABLE_PARTS = ["leadpipe", "mouthpiece", "body"] as const;
export type TablePart = (typeof TABLE_PARTS)[number];

/** A bore table that is not taken in yet. */
export const tablePart = record({
  part: oneOf(TABLE_PARTS, "leadpipe"),
  name,
  text: text(LONGEST_TABLE),
  /** What it may be said to be; an empty text leaves it to be found out. */
  said: texts("unit", "measure", "direction", "separator", "decimal", "swapped"),
});
export type TableNotes = KeptBy<typeof tablePart>;
export type TableSaid = keyof TableNotes["said"];

/** A leadpipe by its dimensions that is not taken in yet. */
export const SHAPE_FIELDS = {
  name: words("Name"),
  entry: length("Entry diameter", { hint: "at the leadpipe's start" }),
  narrowestAt: length("Narrowest place", { hint: "from the start; empty: it widens at once" }),
  entryTaper: taper("Taper down to it", { hint: "0.005 or 1:200; empty: a cylinder" }),
  taper: taper("Taper behind it", { hint: "then a cylinder; empty: evenly to the end" }),
  end: length("End diameter", { hint: "where the body begins" }),
  length: length("Length"),
};
export const shapePart = record(SHAPE_FIELDS);
export type ShapeNotes = KeptBy<typeof shapePart>;
export type ShapePart = keyof ShapeNotes;

const aboveZero = (mm: number, unit: LengthUnit) =>
  mm > 0 ? undefined : `${formatLength(mm, unit)} cannot be; give a length above 0`;
/** What a leadpipe is to be designed for, and within which limits; what is usual depends on the instrument. */
export const DESIGN_FIELDS = {
  goal: words("What it shall be", {
    hint: "f, cents, height or spacing of a resonance = value, @ weight: cents2=0, cents5=0@2, height4=32",
  }),
  knots: plainNumber("Knots along the leadpipe", { least: 4, most: 20, isWhole: true }),
  smallest: length("No diameter below", { flaw: aboveZero }),
  largest: length("No diameter above", { flaw: aboveZero }),
  starts: plainNumber("Starts", { least: 1, most: 20, isWhole: true }),
  every: length("Between stations", { flaw: aboveZero }),
  narrowestGap: length("No gap below", { leastMm: 0 }),
  widestGap: length("No gap above", { leastMm: 0 }),
} satisfies Readonly<Record<string, Field<unknown>>>;
const designPart = record({
  ...DESIGN_FIELDS,
  /** Place of the candidate that is to be equalled, 0 the open setup; null: the typed goal. */
  like: wholeOrNone(0, MOST_CANDIDATES, null),
  movesGap: flag(false),
  widens: flag(true),
  holdsEntry: flag(true),
  holdsEnd: flag(true),
});
export type DesignNotes = KeptBy<typeof designPart>;
export type DesignPart = keyof typeof DESIGN_FIELDS;

const whole = keptForm({
  /** Beside the open setup, which is always the first. */
  candidates,
  /** Which of all the others are compared with; 0 is the open setup. */
  reference: kept(0, (json) => (Number.isInteger(json) ? (json as number) : 0)),
  /** Resonance that all are brought to the reference's pitch on; null: as they are. */
  retune: wholeOrNone(1, MOST_RESONANCES, 4),
  /** All at the open setup's gap, or each at its own. */
  sameGap: flag(false),
  withHold: flag(false),
  goal: text(),
  /** Error of manufacture, on the diameter. */
  error: length("Error of manufacture"),
  table: tablePart,
  shape: shapePart,
  design: designPart,
  measured: measuredPart,
});
export type CompareNotes = KeptBy<typeof whole>;

/** Places of candidates that are not there are none. */
export const compareForm: typeof whole = {
  ...whole,
  ofJson: (json) => {
    const read = whole.ofJson(json);
    const { length: count } = read.candidates;
    const { reference, design } = read;
    return {
      ...read,
      reference: reference >= 0 && reference <= count ? reference : 0,
      design: { ...design, like: design.like !== null && design.like <= count ? design.like : null },
    };
  },
};
