/** Instruments to be compared before any is built, as they were taken in, and what is typed to take in or design another. */
import { isRecord } from "../../../setup/file/jsonRecord.ts";
import { DESIGN_DEFAULTS, STATION_DEFAULTS } from "../../../study/design/designDefaults.ts";
import { formatLength } from "../../../units/formatLength.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { length, plainNumber, taper, words } from "../../form/field.ts";
import {
  flag,
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
import { USUAL_MM } from "../../form/usualLengths.ts";
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

export const CANDIDATE_NAME = words("Name");
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
  entry: length("Entry diameter", { usualMm: USUAL_MM.leadpipeBore, hint: "at the leadpipe's start" }),
  narrowestAt: length("Narrowest place", { hint: "from the start; empty: it widens at once" }),
  entryTaper: taper("Taper down to it", { hint: "0.005 or 1:200; empty: a cylinder" }),
  taper: taper("Taper behind it", { hint: "then a cylinder; empty: evenly to the end" }),
  end: length("End diameter", { usualMm: USUAL_MM.leadpipeBore, hint: "where the body begins" }),
  length: length("Length", { usualMm: USUAL_MM.leadpipeLength }),
};
export const shapePart = record(SHAPE_FIELDS);
export type ShapeNotes = KeptBy<typeof shapePart>;

const only = (isRight: (mm: number) => boolean, asked: string) => ({
  flaw: (mm: number, unit: LengthUnit) =>
    isRight(mm) ? undefined : `${formatLength(mm, unit)} cannot be; give ${asked}`,
});
const aboveZero = only((mm) => mm > 0, "a length above 0");
const zeroOrAbove = only((mm) => mm >= 0, "0 or a length above it");
/** What a leadpipe is to be designed for, and within which limits; what is usual of a length depends on the instrument. */
export const DESIGN_FIELDS = {
  goal: words("Targets", {
    hint: "f, cents, height or spacing of a resonance = value, @ weight (2 counts twice): cents2=0, cents5=0@2, height4=32",
  }),
  knots: plainNumber("Knots along the leadpipe", {
    hint: `usually ${DESIGN_DEFAULTS.knots}`,
    usual: DESIGN_DEFAULTS.knots,
    least: 4,
    most: 20,
    isWhole: true,
  }),
  starts: plainNumber("Starts", {
    hint: `usually ${DESIGN_DEFAULTS.restarts}, your leadpipe first`,
    usual: DESIGN_DEFAULTS.restarts,
    least: 1,
    most: 20,
    isWhole: true,
  }),
  smallest: length("No diameter below", { ...aboveZero, usualMm: USUAL_MM.leadpipeBore }),
  largest: length("No diameter above", { ...aboveZero, usualMm: USUAL_MM.leadpipeBore }),
};
/** Between which the gap may be chosen. */
export const DESIGN_GAP_FIELDS = {
  narrowestGap: length("No gap below", { ...zeroOrAbove, usualMm: USUAL_MM.gap }),
  widestGap: length("No gap above", { ...zeroOrAbove, usualMm: USUAL_MM.gap }),
};
/** Between stations of the mandrel. */
export const EVERY = length("Between stations", {
  ...aboveZero,
  usual: STATION_DEFAULTS.everyMm,
  hint: (unit) => `usually ${formatLength(STATION_DEFAULTS.everyMm, unit)}`,
});
const designPart = record({
  ...DESIGN_FIELDS,
  ...DESIGN_GAP_FIELDS,
  every: EVERY,
  /** Place of the candidate that is to be equalled, 0 the open setup; null: the typed goal. */
  like: wholeOrNone(0, MOST_CANDIDATES, null),
  movesGap: flag(false),
  widens: flag(DESIGN_DEFAULTS.widens),
  holdsEntry: flag(DESIGN_DEFAULTS.holdsEntry),
  holdsEnd: flag(DESIGN_DEFAULTS.holdsEnd),
});
export type DesignNotes = KeptBy<typeof designPart>;
export type DesignPart = keyof typeof DESIGN_FIELDS | keyof typeof DESIGN_GAP_FIELDS;

/** Of a leadpipe's drawing, or its mandrel's; what is left empty is as usual. */
export const MAKING_FIELDS = {
  tolerance: length("Working tolerance", {
    usualMm: USUAL_MM.tolerance,
    hint: (unit) => `± on every diameter; empty: ${unit === "mm" ? "0.02 mm" : "0.001 in"}`,
  }),
  wall: length("Wall of the tube", {
    usualMm: USUAL_MM.wall,
    hint: (unit) => `empty: ${unit === "mm" ? "0.5 mm" : "0.02 in"}`,
  }),
  springBack: length("Spring-back", {
    usualMm: USUAL_MM.tolerance,
    hint: "how much wider than its mandrel a tube comes off it, on the diameter; empty: none",
  }),
  overrun: length("Beyond each end", {
    hint: (unit) => `of the mandrel; empty: ${unit === "mm" ? "10 mm" : "0.4 in"}`,
  }),
};
export const MAKINGS = ["leadpipe", "mandrel"] as const;

/** What the candidates are ranked by. */
export const GOAL = words("Goal", {
  hint: "weights on notes, 2:1, 5:2 (2 counts twice), or an expression; the lower its value, the better",
});
export const USUAL_ERROR_MM = 0.05;
const LARGEST_ERROR_MM = 1;
/** An error of manufacture. */
export const ERROR = length("Error of the diameter", {
  usualMm: USUAL_MM.tolerance,
  hint: (unit) => (unit === "mm" ? "usually 0.05 mm" : "usually 0.002 in"),
  usual: USUAL_ERROR_MM,
  flaw: (mm) =>
    mm > 0 && mm <= LARGEST_ERROR_MM
      ? undefined
      : "out of range; give an error above 0 mm, to 1 mm (0.0394 in)",
});

export const COMMON_GAPS = ["own", "yours", "what-if", "planned", "preferred"] as const;
export type CommonGap = (typeof COMMON_GAPS)[number];

const whole = keptForm({
  /** Beside the open setup, which is always the first. */
  candidates,
  /** Which of all the others are compared with; 0 is the open setup. */
  reference: kept(0, (json) => (Number.isInteger(json) ? (json as number) : 0)),
  /** Resonance that all are brought to the reference's pitch on; null: as they are. */
  retune: wholeOrNone(1, MOST_RESONANCES, 4),
  /** Each at its own gap, or all at one of the job's. */
  gap: oneOf(COMMON_GAPS, "own"),
  withHold: flag(false),
  goal: GOAL,
  error: ERROR,
  table: tablePart,
  shape: shapePart,
  design: designPart,
  making: record({ ...MAKING_FIELDS, kind: oneOf(MAKINGS, "leadpipe") }),
  measured: measuredPart,
});
export type CompareNotes = KeptBy<typeof whole>;

/** Places of candidates that are not there are none; what older jobs held at one gap stood where the slider did. */
export const compareForm: typeof whole = {
  ...whole,
  ofJson: (json) => {
    const read = whole.ofJson(json);
    const { length: count } = read.candidates;
    const { reference, design } = read;
    const isOlder = isRecord(json) && json.sameGap === true && json.gap === undefined;
    return {
      ...read,
      gap: isOlder ? "what-if" : read.gap,
      reference: reference >= 0 && reference <= count ? reference : 0,
      design: { ...design, like: design.like !== null && design.like <= count ? design.like : null },
    };
  },
};
