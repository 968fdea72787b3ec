/**
 * Slurs there and back between two notes: each landed on the note meant, too low or too high, or cracked on the way, and how
 * long it took to settle. The two are those sounded longest; the first slur starts from the first note heard, and each is meant
 * for the other note than the one before, wherever that landed.
 */
import { wilsonInterval } from "../statistics/wilsonInterval.ts";
import { SAME_CENTS } from "./harmonicPhase.ts";
import { type PartialNote, partialNotes, settledAtS, soundedLongest, soundedS } from "./partials.ts";
import { cents, type Heard, median } from "./track.ts";

export type SlurResult = "hit" | "low" | "high" | "cracked";

export interface Slur {
  /** The middle of the change. */
  readonly atS: number;
  readonly fromHz: number;
  readonly toHz: number;
  readonly landedHz: number;
  readonly result: SlurResult;
  /** From the change until the note stands; null where it landed elsewhere. */
  readonly settleS: number | null;
}

export interface Slurs {
  readonly slurs: readonly Slur[];
  readonly missed: Missed;
  /** Times the sound stopped between two notes: not slurred, and not counted. */
  readonly interrupted: number;
  /** Slurs among them that never moved: a note held for as long as two or more, neither the first nor the last. */
  readonly stayed: number;
  /** A third note sounded nearly as long as one of the two, which may then not be those meant. */
  readonly isPairUnsure: boolean;
}

/** A share, and Wilson's interval of it at 95 %. */
export interface Missed {
  readonly count: number;
  readonly of: number;
  readonly interval: readonly [low: number, high: number];
}

export function missedOf(results: readonly string[]): Missed {
  const count = results.filter((result) => result !== "hit").length;
  return { count, of: results.length, interval: wilsonInterval(count, results.length) };
}

/** What sounds for less is a mixture of two notes on the way. */
const LEAST_S = 0.04;
/** Where two notes overlap, a common fundamental of both may be heard: such a note has to sound for as long to be believed. */
const SURE_S = 0.06;
/** What is held for less was only touched; half of what most are held for, where that is shorter. */
const HELD_S = 0.22;
/** A third note that sounds for this share of the second puts the pair in doubt. */
const UNSURE_SHARE = 0.6;
/** Between slurred notes the sound does not stop for as long. */
const STOPPED_S = 0.25;

/** @param partialsHz all notes that exist, lowest first. Null where no two of them were held. */
export function slursOf(heard: Heard, partialsHz: readonly number[]): Slurs | null {
  const notes = partialNotes(heard, partialsHz, Math.max(LEAST_S, heard.track.frameS));
  const length = ({ stretch }: PartialNote) => soundedS(stretch, heard);
  const long = notes.filter((note) => length(note) >= HELD_S);
  if (long.length < 2) return null;
  const leastS = Math.min(HELD_S, median(long.map(length)) / 2);
  const isHeld = (note: PartialNote) => length(note) >= leastS;
  const longest = soundedLongest(notes);
  const pair = longest.slice(0, 2).map(([partial]) => partial);
  if (pair.length < 2) return null;
  const pairHz = pair.map((partial) =>
    median(
      long
        .filter((note) => note.partial === partial)
        .flatMap(({ stretch }) => stretch.frames.map(({ hz }) => hz)),
    ),
  );

  const slurs: Slur[] = [];
  let interrupted = 0;
  let stayed = 0;
  let before: PartialNote | null = null;
  let touched: PartialNote[] = [];
  /** Which of the pair was meant to be left. */
  let from = 0;
  /** After a slur that never moved nobody knows which was meant next: a note of the pair is then taken to be. */
  let isLost = false;
  const add = (note: PartialNote, atS: number, strays: readonly PartialNote[]) => {
    const target = pair[1 - from];
    const hasLanded = note.partial === target;
    slurs.push({
      atS,
      fromHz: pairHz[from],
      toHz: pairHz[1 - from],
      landedHz: note.stretch.hz,
      result: hasLanded ? (strays.length > 0 ? "cracked" : "hit") : note.partial < target ? "low" : "high",
      settleS: hasLanded ? Math.max(0, settledAtS(note.stretch) - atS) : null,
    });
    from = 1 - from;
  };
  const lastHeld = notes.findLast(isHeld);
  const usualS = median(notes.filter(isHeld).map(length));
  for (const note of notes) {
    const endedS = (touched[touched.length - 1] ?? before)?.stretch.toS ?? note.stretch.fromS;
    if (note.stretch.fromS - endedS > STOPPED_S) {
      if (isSilent(heard, endedS, note.stretch.fromS)) interrupted++;
      before = null;
      touched = [];
    }
    if (!isHeld(note)) {
      if (before) touched.push(note);
      continue;
    }
    if (before === null) {
      // of the pair, or what is nearest to one of them
      from = pair.indexOf(note.partial) >= 0 ? pair.indexOf(note.partial) : nearerOf(pair, note.partial);
    } else {
      if (isLost && pair.includes(note.partial)) from = 1 - pair.indexOf(note.partial);
      const target = pair[1 - from];
      const left = before.partial;
      const strays = touched.filter(
        (stray) =>
          stray.partial !== target &&
          stray.partial !== left &&
          (length(stray) >= SURE_S ||
            ![target, left].some((one) => isMultiple(partialsHz[one], stray.stretch.hz))),
      );
      add(note, (before.stretch.toS + (touched[0] ?? note).stretch.fromS) / 2, strays);
      const times = note === lastHeld ? 1 : timesHeld(length(note), usualS);
      isLost = times > 1;
      for (let k = 1; k < times; k++) {
        add(note, note.stretch.fromS + (k * length(note)) / times, []);
        stayed++;
      }
    }
    before = note;
    touched = [];
  }
  return {
    slurs,
    missed: missedOf(slurs.map(({ result }) => result)),
    interrupted,
    stayed,
    isPairUnsure: longest.length > 2 && longest[2][1] > UNSURE_SHARE * longest[1][1],
  };
}

const isSilent = ({ track, sounding }: Heard, fromS: number, toS: number): boolean => {
  const within = sounding.filter((_, i) => track.frames[i].atS > fromS && track.frames[i].atS < toS);
  return within.filter(Boolean).length < within.length / 2;
};

const isMultiple = (hz: number, ofHz: number): boolean => {
  const times = Math.round(hz / ofHz);
  return times >= 2 && Math.abs(cents(hz, times * ofHz)) < SAME_CENTS;
};

/** How many notes of the usual length a held note is as long as. */
const timesHeld = (seconds: number, usualS: number): number =>
  Math.max(1, Math.round(seconds / usualS - 0.1));

const nearerOf = ([one, other]: readonly number[], partial: number): number =>
  Math.abs(partial - one) <= Math.abs(partial - other) ? 0 : 1;
