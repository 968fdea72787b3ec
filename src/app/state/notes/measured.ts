/** A measured impedance as it was typed or opened, what it was said to be, and what is to be fitted to it. */
import { quantity } from "../../form/field.ts";
import { flag, type KeptBy, kept, list, record, text, texts } from "../../form/kept.ts";
import { number, percent } from "../../form/quantity.ts";

/** Characters; some 25 000 frequencies. */
export const LONGEST_MEASURED = 1_000_000;
const HIGHEST_HZ = 20_000;

const hertz = { ...number, unit: "Hz" };
export const MEASURED_FIELDS = {
  from: quantity("Leave out below", hertz, { hint: "empty: nothing", least: 0, most: HIGHEST_HZ }),
  to: quantity("Leave out above", hertz, { hint: "empty: nothing", least: 0, most: HIGHEST_HZ }),
  /** Of the measurement, of |Z|; empty where it is not known. */
  noise: quantity("Noise of the measurement", percent, {
    hint: "of |Z|; empty: estimated from its scatter",
    least: 1e-5,
    most: 1,
  }),
};

const names = list(text());
const UNKNOWNS: readonly string[] = ["gap", "wall-loss"];

export const measuredPart = record({
  /** What it is called: the file's name, or that it is synthetic. */
  name: text(),
  text: text(LONGEST_MEASURED),
  /** What its columns may be said to be; an empty text leaves it to be found out. */
  said: texts("delimiter", "decimal", "form", "magnitude", "phase", "scale", "hertz", "unit"),
  /** Whether it was seen to be understood, and is held against the model. */
  isTaken: flag(false),
  ...MEASURED_FIELDS,
  /** Names of the unknowns to fit. */
  unknowns: kept(UNKNOWNS, (json) => (Array.isArray(json) ? names.ofJson(json) : UNKNOWNS)),
});
export type MeasuredNotes = KeptBy<typeof measuredPart>;
export type MeasuredSaid = keyof MeasuredNotes["said"];
