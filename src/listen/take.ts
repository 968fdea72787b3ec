/**
 * One take, listened to for one question: notes held, a slot, slurs or attacks, with levels and whatever is not as it should be.
 * What cannot be told is null, and said among the warnings.
 */
import { InputError } from "../units/inputError.ts";
import { attacksOf } from "./attack.ts";
import type { PitchRange } from "./harmonicPhase.ts";
import type { Levels } from "./levels.ts";
import { Listening } from "./listening.ts";
import { partialsHeard } from "./partials.ts";
import { slotOf } from "./slot.ts";
import { slursOf } from "./slur.ts";
import { steadyNotes } from "./steady.ts";
import type { TakeFinding, TakeQuestion, TakeTest } from "./takeQuestion.ts";
import type { Heard } from "./track.ts";
import { type ListenWarning, warningsOf } from "./warnings.ts";
import type { SoundBlock } from "./wav.ts";

export type Take = TakeFinding & {
  readonly sampleRateHz: number;
  readonly levels: Levels;
  readonly warnings: readonly ListenWarning[];
};

/** No brass sounds lower, nor higher, as far as this listens. */
const LOWEST_HZ = 25;
const HIGHEST_HZ = 1900;
/** Of a sound that nothing is said about. */
const UNASKED: PitchRange = { lowestHz: 40, highestHz: 1600 };
/** Around one note: its neighbours, an octave and what lies a little beyond. */
const AROUND = 2.2;
/** Below and above the outermost partials: no player is as far off below, and a partial beyond is heard above. */
const BELOW = 1.1;
const ABOVE = 1.5;
const LEAST_SECONDS = 0.3;

/**
 * @param open the sound from its beginning; asked for twice where no note is named, once to hear which there are
 * @throws {InputError} where it is too short, or a note is none
 */
export function listenTo(open: () => Iterable<SoundBlock>, question: TakeQuestion): Take {
  const range = rangeAsked(question) ?? rangeHeard(checked(listened(open, UNASKED)).heard(), question.test);
  return takeOf(listened(open, range), question);
}

function listened(open: () => Iterable<SoundBlock>, range: PitchRange): Listening | null {
  let listening: Listening | null = null;
  for (const { sampleRateHz, channels } of open()) {
    listening ??= new Listening(sampleRateHz, range);
    listening.push(channels);
  }
  return listening;
}

/**
 * The answer to a question of a sound that was listened to in the range which goes with it.
 *
 * @throws {InputError} where it is too short
 */
export function takeOf(listening: Listening | null, question: TakeQuestion): Take {
  const sound = checked(listening);
  const { test, nearHz, notesHz } = question;
  const heard = sound.heard();
  const levels = sound.levels();
  const asked = [...notesHz].sort((a, b) => a - b);
  const finding = findingOf(heard, test, nearHz, asked.length > 0 ? asked : partialsHeard(heard));
  const { sampleRateHz } = sound;
  return {
    ...finding,
    sampleRateHz,
    levels,
    warnings: warningsOf(finding, question, heard, levels, sampleRateHz),
  };
}

function findingOf(
  heard: Heard,
  test: TakeTest,
  nearHz: number | null,
  partialsHz: readonly number[],
): TakeFinding {
  switch (test) {
    case "steady":
      return { test, notes: steadyNotes(heard) };
    case "slot":
      return { test, slot: slotOf(heard, nearHz) };
    case "slur":
      return { test, slurs: slursOf(heard, partialsHz) };
    case "attack":
      return { test, attacks: attacksOf(heard, partialsHz, nearHz) };
  }
}

function checked(listening: Listening | null): Listening {
  const seconds = listening?.levels().seconds ?? 0;
  if (listening && seconds >= LEAST_SECONDS && listening.frames.length > 0) return listening;
  throw new InputError(
    `the take is too short, ${seconds.toFixed(2)} s; record at least ${LEAST_SECONDS} s, silence before and after included`,
  );
}

/**
 * In which range of pitch a question is asked; null where it names no note.
 *
 * @throws {InputError} where a note is none
 */
export function rangeAsked({ test, nearHz, notesHz }: TakeQuestion): PitchRange | null {
  const all = nearHz === null ? notesHz : [nearHz, ...notesHz];
  for (const hz of all)
    if (!(hz >= LOWEST_HZ && hz <= HIGHEST_HZ / BELOW))
      throw new InputError(`a note of ${hz} Hz is none of brass; give one from ${LOWEST_HZ} to 1700 Hz`);
  if (isOfNotes(test) && notesHz.length > 0) return rangeOf(Math.min(...all), Math.max(...all), BELOW, ABOVE);
  return nearHz === null ? null : rangeOf(nearHz, nearHz, AROUND, AROUND);
}

function rangeHeard(heard: Heard, test: TakeTest): PitchRange {
  const hz = partialsHeard(heard);
  if (hz.length === 0) return UNASKED;
  const [below, above] = isOfNotes(test) ? [BELOW, ABOVE] : [AROUND, AROUND];
  return rangeOf(hz[0], hz[hz.length - 1], below, above);
}

const isOfNotes = (test: TakeTest): boolean => test === "slur" || test === "attack";

const rangeOf = (lowestHz: number, highestHz: number, below: number, above: number): PitchRange => ({
  lowestHz: Math.max(LOWEST_HZ, lowestHz / below),
  highestHz: Math.min(HIGHEST_HZ, highestHz * above),
});
