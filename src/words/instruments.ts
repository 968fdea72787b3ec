/**
 * The families of instruments as the trade names them, and their partials as players read them: written pitch beside
 * sounding. Common practice; equal temperament, A4 at 440 Hz.
 */

import type { StandInId } from "../setup/standIns.ts";
import { OutOfRange } from "../units/outOfRange.ts";
import { noteHz, noteName } from "./notes.ts";

export interface Family {
  readonly name: string;
  readonly group: "Trumpets and cornets" | "Trombones" | "Horn" | "Euphonium and tuba";
  /** Note that partial 1 is called, at sounding pitch, as its number in MIDI (A4 is 69). */
  readonly fundamental: number;
  /** How many semitones higher it is written than it sounds. */
  readonly writtenAbove: number;
}

export const FAMILY: Readonly<Record<StandInId, Family>> = {
  "b-flat-trumpet": trumpet("B-flat trumpet", 46, 2),
  "c-trumpet": trumpet("C trumpet", 48, 0),
  "e-flat-trumpet": trumpet("E-flat trumpet", 51, -3),
  cornet: trumpet("Cornet (B-flat)", 46, 2),
  flugelhorn: trumpet("Flugelhorn (B-flat)", 46, 2),
  "tenor-trombone-small": trombone("Tenor trombone, small shank"),
  "tenor-trombone-large": trombone("Tenor trombone, large shank"),
  "bass-trombone": trombone("Bass trombone"),
  "horn-f": { name: "Double horn, F side", group: "Horn", fundamental: 29, writtenAbove: 7 },
  "horn-b-flat": { name: "Double horn, B-flat side", group: "Horn", fundamental: 34, writtenAbove: 7 },
  euphonium: { name: "Euphonium", group: "Euphonium and tuba", fundamental: 34, writtenAbove: 0 },
  tuba: { name: "Tuba (B-flat)", group: "Euphonium and tuba", fundamental: 22, writtenAbove: 0 },
};

export interface Partial {
  readonly n: number;
  /** The written note, `C5`. */
  readonly written: string;
  /** What a player calls it, `C in the staff`; the written note where the family has no such name. */
  readonly said: string;
  /** The sounding note, `B♭4`, and its frequency. */
  readonly sounding: string;
  readonly hz: number;
  /** Where a harmonic lies so far from its note that it is not played for it. */
  readonly tendency: "flat" | "sharp" | null;
}

/** Semitones of harmonics 1 to 16 above the first, to the nearest note. */
const SEMITONES = [0, 12, 19, 24, 28, 31, 34, 36, 38, 40, 42, 43, 44, 46, 47, 48] as const;
const TENDENCY: Readonly<Record<number, "flat" | "sharp">> = {
  7: "flat",
  11: "flat",
  13: "sharp",
  14: "flat",
};
export const MOST_PARTIALS = SEMITONES.length;

/** What trumpeters call their open notes, by the written note. */
const TRUMPET_NAMES: Readonly<Record<string, string>> = {
  C3: "pedal C",
  C4: "low C",
  G4: "G",
  C5: "C in the staff",
  E5: "E",
  G5: "G on top of the staff",
  "B♭5": "B♭",
  C6: "high C",
  D6: "high D",
  E6: "high E",
};

/** Partial `n` of an instrument, 1 to 16. */
export function partialOf(id: StandInId, n: number): Partial {
  const { fundamental, writtenAbove, group } = FAMILY[id];
  const semitones = SEMITONES[n - 1];
  if (semitones === undefined)
    throw new OutOfRange(`partial ${n} has no name here: give 1 to ${MOST_PARTIALS}`);
  const sounds = fundamental + semitones;
  const written = noteName(sounds + writtenAbove);
  const tendency = TENDENCY[n] ?? null;
  const name = (group === "Trumpets and cornets" && TRUMPET_NAMES[written]) || written;
  return {
    n,
    written,
    said: tendency ? `${name} (${tendency})` : name,
    sounding: noteName(sounds),
    hz: noteHz(sounds),
    tendency,
  };
}

function trumpet(name: string, fundamental: number, writtenAbove: number): Family {
  return { name, group: "Trumpets and cornets", fundamental, writtenAbove };
}

function trombone(name: string): Family {
  return { name, group: "Trombones", fundamental: 34, writtenAbove: 0 };
}
