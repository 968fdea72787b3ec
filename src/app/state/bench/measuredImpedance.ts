/** A measured impedance as typed, what it is taken for, and what is to be fitted to it; or what is wrong with each text. */
import { CsvError } from "../../../bench/fit/partsCsv.ts";
import { UNKNOWNS, type UnknownName } from "../../../study/measured/columnUnknowns.ts";
import type { LevelGuess } from "../../../study/measured/level.ts";
import { between } from "../../../study/measured/measured.ts";
import { type MeasuredImpedance, readMeasured } from "../../../study/measured/measuredCsv.ts";
import type { Reading } from "../../../study/measured/measuredReading.ts";
import { unitName } from "../../../words/measured/readingWords.ts";
import { readFields } from "../../form/field.ts";
import {
  LONGEST_MEASURED,
  MEASURED_FIELDS,
  type MeasuredNotes,
  type MeasuredSaid,
} from "../notes/measured.ts";

type Choice = readonly [text: string, words: string, value: string | number];

const asIs = (...texts: readonly string[]): readonly Choice[] => texts.map((text) => [text, text, text]);

/** What each of a measurement's readings can be said to be. */
export const MEASURED_SAYABLE: Readonly<Record<MeasuredSaid, readonly Choice[]>> = {
  form: [
    ["magnitude-phase", "magnitude and phase", "magnitude-phase"],
    ["real-imaginary", "real and imaginary part", "real-imaginary"],
    ["magnitude", "magnitude alone, no phase", "magnitude"],
  ],
  magnitude: asIs("linear", "dB"),
  phase: asIs("degrees", "radians"),
  scale: [
    ["absolute", "Pa·s/m³ or a multiple", "absolute"],
    ["characteristic", "ρc/S at the rim", "characteristic"],
    ["relative", "unknown", "relative"],
  ],
  unit: [
    ["1", "Pa·s/m³", 1],
    ["1000", "kPa·s/m³", 1e3],
    ["1000000", "MPa·s/m³", 1e6],
    ["1000000000", "GPa·s/m³", 1e9],
    ["100000", "CGS acoustic ohm", 1e5],
  ],
  hertz: [
    ["1", "Hz", 1],
    ["1000", "kHz", 1000],
  ],
  delimiter: asIs("comma", "semicolon", "tab", "space"),
  decimal: asIs("point", "comma"),
};

export type MeasuredReading =
  | { readonly measured: MeasuredImpedance }
  /** Why it is not taken, with lines of the text. */
  | { readonly problems: readonly string[] };

/** null where nothing is typed */
export function readMeasurement({ text, said }: MeasuredNotes): MeasuredReading | null {
  if (text.trim() === "") return null;
  const given = Object.fromEntries(
    (Object.keys(MEASURED_SAYABLE) as MeasuredSaid[]).flatMap((name) => {
      const choice = MEASURED_SAYABLE[name].find(([of]) => of === said[name]);
      if (choice) return [[name, choice[2]]];
      // a unit that has no name, such as was offered for a level
      const unit = name === "unit" ? Number(said.unit) : 0;
      return unit > 0 && unit < Infinity ? [[name, unit]] : [];
    }),
  ) as Partial<Reading>;
  try {
    return { measured: readMeasured(text, "measurement", given) };
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    return { problems: error.problems.map(({ line, message }) => `Line ${line}: ${message}.`) };
  }
}

/** What is said of a measurement, read as its level suggests. */
export const saidAsGuessed = (
  said: MeasuredNotes["said"],
  { read: { scale, unit } }: LevelGuess,
): MeasuredNotes["said"] => ({
  ...said,
  scale,
  ...(unit === undefined ? {} : { unit: `${Number(unit.toPrecision(6))}` }),
});

/** Why a text of this many characters is not taken; null where it is. */
export const tooLong = (characters: number): string | null =>
  characters <= LONGEST_MEASURED
    ? null
    : `It has ${characters} characters and is not taken: ${LONGEST_MEASURED} are as many as can be kept. Leave out the frequencies ` +
      "above 2500 Hz, or every second one.";

/** What a found reading is called. */
export const foundWords = (name: MeasuredSaid, reading: Reading): string =>
  MEASURED_SAYABLE[name].find(([, , value]) => value === reading[name])?.[1] ??
  (name === "unit" ? unitName(reading.unit) : `${reading[name]}`);

/** Readings that play no part beside the others. */
export function isIdle(name: MeasuredSaid, { form, scale }: Reading): boolean {
  if (name === "magnitude") return form === "real-imaginary";
  if (name === "phase") return form !== "magnitude-phase";
  return name === "unit" && scale !== "absolute";
}

const LEAST_FREQUENCIES = 20;

export interface FitAsked {
  readonly problems: Readonly<Partial<Record<keyof typeof MEASURED_FIELDS | "unknowns", string>>>;
  /** null where its range leaves too little. */
  readonly measured: MeasuredImpedance | null;
  readonly unknowns: readonly UnknownName[];
  /** As a part of |Z|; null where it is not known. */
  readonly noise: number | null;
}

/** What of the measurement is held against the model, and what is fitted. */
export function readFitAsked(notes: MeasuredNotes, whole: MeasuredImpedance): FitAsked {
  const { values, problems: ofTexts } = readFields(MEASURED_FIELDS, notes, "mm");
  const { from = 0, to = Number.POSITIVE_INFINITY, noise = null } = values;
  const problems: { -readonly [Part in keyof FitAsked["problems"]]: string } = { ...ofTexts };
  const measured = between(whole, from, to);
  const isEnough = measured.frequencies.length >= LEAST_FREQUENCIES;
  if (!isEnough)
    problems.to ??= `Only ${measured.frequencies.length} frequencies lie in between; give a range that holds ${LEAST_FREQUENCIES} or more.`;
  const unknowns = UNKNOWNS.filter((name) => notes.unknowns.includes(name));
  if (unknowns.length === 0) problems.unknowns = "Tick one unknown or more.";
  return { problems, measured: isEnough ? measured : null, unknowns, noise };
}
