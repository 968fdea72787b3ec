/**
 * The families of instruments as the trade names them, and their partials as players read them: written pitch beside
 * sounding. Common practice; equal temperament, A4 at 440 Hz.
 */

import type { InstrumentKind } from "../setup/instrumentKind.ts";
import { OutOfRange } from "../units/outOfRange.ts";
import { type Note, nearestNote, noteHz, noteName } from "./notes.ts";
import { signed } from "./numbers.ts";

export interface Family {
  readonly name: string;
  readonly group: "Trumpets and cornets" | "Trombones" | "Horn" | "Euphonium and tuba";
  /** Note that partial 1 is called, at sounding pitch, as its number in MIDI (A4 is 69). */
  readonly fundamental: number;
  /** How many semitones higher it is written than it sounds. */
  readonly writtenAbove: number;
}

export const FAMILY: Readonly<Record<InstrumentKind, Family>> = {
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
  readonly name: string;
  /** With its tendency, `B♭ (flat)`. */
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

/** Those that were asked for: sentences and charts name them at every step of a hand. */
const named = new Map<InstrumentKind, readonly Partial[]>();

/** Partial `n` of an instrument, 1 to 16. */
export function partialOf(id: InstrumentKind, n: number): Partial {
  const known = named.get(id);
  const partials = known ?? SEMITONES.map((semitones, i) => partial(id, i + 1, semitones));
  if (!known) named.set(id, partials);
  const found = partials[n - 1];
  if (found === undefined) throw new OutOfRange(`partial ${n} has no name here: give 1 to ${MOST_PARTIALS}`);
  return found;
}

function partial(id: InstrumentKind, n: number, semitones: number): Partial {
  const { fundamental, writtenAbove, group } = FAMILY[id];
  const sounds = fundamental + semitones;
  const written = noteName(sounds + writtenAbove);
  const tendency = TENDENCY[n] ?? null;
  const name = (group === "Trumpets and cornets" && TRUMPET_NAMES[written]) || written;
  return {
    n,
    written,
    name,
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

/** A partial where there is little room, `4 C`; its number alone where the instrument is not known or has no name for it. */
export function noteLabel(n: number, instrument?: InstrumentKind): string {
  const partial = known(n, instrument);
  return partial ? `${n} ${partial.written.replace(/-?\d+$/, "")}` : `${n}`;
}

/** The same in a sentence, a list or a table: `C in the staff (4)`, `flat B♭ (7)`. */
export function noteText(n: number, instrument?: InstrumentKind): string {
  const name = partialName(n, instrument);
  return name ? `${name} (${n})` : `partial ${n}`;
}

/** Several of them, in order: `G (3), high C (8)`. */
export const notesText = (numbers: readonly number[], instrument?: InstrumentKind): string =>
  [...numbers]
    .sort((a, b) => a - b)
    .map((n) => noteText(n, instrument))
    .join(", ");

/** The equally tempered note nearest to any pitch that sounds, as this instrument's player reads it. */
export function writtenPitch(hz: number, instrument?: InstrumentKind): Note {
  const above = instrument ? FAMILY[instrument].writtenAbove : 0;
  const note = nearestNote(hz * 2 ** (above / 12));
  return { ...note, hz: note.hz / 2 ** (above / 12) };
}

/** How far a partial lies from the note it is played for: `concert B♭4 −12 cents`. */
export function concertPitch(hz: number, n: number, instrument?: InstrumentKind): string {
  const { name, cents } = concertNote(hz, n, instrument);
  return `concert ${name} ${signed(cents, 0)} cents`;
}

/** The sounding note a partial is played for, and how far the frequency lies above it. */
export function concertNote(hz: number, n: number, instrument?: InstrumentKind): Note {
  const partial = known(n, instrument);
  if (!partial) return nearestNote(hz);
  return { name: partial.sounding, hz: partial.hz, cents: 1200 * Math.log2(hz / partial.hz) };
}

const known = (n: number, instrument: InstrumentKind | undefined): Partial | null =>
  instrument !== undefined && n >= 1 && n <= MOST_PARTIALS ? partialOf(instrument, n) : null;

/** A partial's note by itself, for beside its number in a table; empty where it has no name. */
export function partialName(n: number, instrument?: InstrumentKind): string {
  const partial = known(n, instrument);
  return partial ? `${partial.tendency ? `${partial.tendency} ` : ""}${partial.name}` : "";
}
