/** A measured impedance as it was typed or opened, what it was said to be, and what is to be fitted to it. */
import { isRecord, textsLike, textsOf } from "./typed.ts";

/** What a measurement's columns may be said to be; an empty text leaves it to be found out. */
export type MeasuredSaid =
  | "delimiter"
  | "decimal"
  | "form"
  | "magnitude"
  | "phase"
  | "scale"
  | "hertz"
  | "unit";

export interface MeasuredNotes {
  /** What it is called: the file's name, or that it is invented. */
  readonly name: string;
  readonly text: string;
  readonly said: Readonly<Record<MeasuredSaid, string>>;
  /** Whether it was seen to be understood, and is held against the model. */
  readonly isTaken: boolean;
  /** Hz, what lies outside is left out; empty for all. */
  readonly from: string;
  readonly to: string;
  /** Of the measurement, percent of |Z|; empty where it is not known. */
  readonly noise: string;
  /** Names of the unknowns to fit. */
  readonly unknowns: readonly string[];
}

export const NO_MEASURED: MeasuredNotes = {
  name: "",
  text: "",
  said: {
    delimiter: "",
    decimal: "",
    form: "",
    magnitude: "",
    phase: "",
    scale: "",
    hertz: "",
    unit: "",
  },
  isTaken: false,
  from: "",
  to: "",
  noise: "",
  unknowns: ["gap", "wall-loss"],
};

/** Characters; some 25 000 frequencies. */
export const LONGEST_MEASURED = 1_000_000;

export function readMeasuredNotes(json: unknown): MeasuredNotes {
  if (!isRecord(json)) return NO_MEASURED;
  const { name, from, to, noise } = NO_MEASURED;
  return {
    ...textsLike({ name, from, to, noise }, json),
    text: typeof json.text === "string" ? json.text.slice(0, LONGEST_MEASURED) : "",
    said: textsLike(NO_MEASURED.said, json.said),
    isTaken: json.isTaken === true,
    unknowns: Array.isArray(json.unknowns) ? textsOf(json.unknowns) : NO_MEASURED.unknowns,
  };
}
