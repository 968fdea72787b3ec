/** The lips, the breath and the leap that playing is modelled with, as typed; an empty text is the usual value. */
import type { Lips } from "../../../study/feel/lipParameters.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { inUnit, isRecord, textOf, textsLike, unitOf } from "./typed.ts";

export type LipName = keyof Lips;

export interface PlayNotes {
  /** What a bare length is in. */
  readonly unit: LengthUnit;
  readonly lips: Readonly<Record<LipName, string>>;
  /** How hard each note is blown, times its own threshold. */
  readonly pressure: string;
  /** L/min. */
  readonly flow: string;
  /** Notes by number, the aim's error in cents, how many runs. */
  readonly leap: Readonly<Record<LeapPart, string>>;
}

export type LeapPart = "from" | "to" | "aim" | "runs";

/** Those of the lips that are lengths. */
export const LIP_LENGTHS: readonly LipName[] = ["restOpening", "width"];

const USUAL_LIPS: PlayNotes["lips"] = {
  massPerArea: "",
  massExponent: "",
  quality: "",
  restOpening: "",
  width: "",
};

export const NO_PLAYING: PlayNotes = {
  unit: "mm",
  lips: USUAL_LIPS,
  pressure: "",
  flow: "",
  leap: { from: "", to: "", aim: "", runs: "" },
};

export function readPlayNotes(json: unknown): PlayNotes {
  if (!isRecord(json)) return NO_PLAYING;
  return {
    unit: unitOf(json.unit),
    lips: textsLike(NO_PLAYING.lips, json.lips),
    pressure: textOf(json.pressure),
    flow: textOf(json.flow),
    leap: textsLike(NO_PLAYING.leap, json.leap),
  };
}

/** The same under another unit. */
export function playNotesIn(notes: PlayNotes, unit: LengthUnit): PlayNotes {
  if (notes.unit === unit) return notes;
  const lengths = LIP_LENGTHS.map((name) => [name, inUnit(notes.lips[name], notes.unit, unit)]);
  return { ...notes, unit, lips: { ...notes.lips, ...Object.fromEntries(lengths) } };
}
