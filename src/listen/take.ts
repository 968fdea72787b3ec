/**
 * One take, listened to for one question: notes held, a slot, slurs or attacks, with levels and whatever is not as it should be.
 * What cannot be told is null, and said among the warnings.
 */
import { InputError } from "../units/inputError.ts";
import { attacksOf } from "./attack.ts";
import { type Frame, FrameAnalyser } from "./frameAnalyser.ts";
import type { PitchRange } from "./harmonicPhase.ts";
import { LevelMeter, type Levels } from "./levels.ts";
import { partialsHeard } from "./partials.ts";
import { slotOf } from "./slot.ts";
import { slursOf } from "./slur.ts";
import { steadyNotes } from "./steady.ts";
import type { TakeFinding, TakeQuestion, TakeTest } from "./takeQuestion.ts";
import { type Heard, hear, type Track } from "./track.ts";
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
  const { test, nearHz, notesHz } = question;
  for (const hz of nearHz === null ? notesHz : [nearHz, ...notesHz])
    if (!(hz >= LOWEST_HZ && hz <= HIGHEST_HZ / BELOW))
      throw new InputError(`a note of ${hz} Hz is none of brass; give one from ${LOWEST_HZ} to 1700 Hz`);
  const partialsAsked = [...notesHz].sort((a, b) => a - b);
  const range = rangeAsked(question) ?? rangeHeard(listened(open, UNASKED).heard, test);
  const { sampleRateHz, levels, heard } = listened(open, range);
  const partialsHz = partialsAsked.length > 0 ? partialsAsked : partialsHeard(heard);
  const finding = findingOf(heard, test, nearHz, partialsHz);
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

/** What a sound holds, heard in a range. */
function listened(open: () => Iterable<SoundBlock>, range: PitchRange) {
  let meter: LevelMeter | null = null;
  let analyser: FrameAnalyser | null = null;
  let sampleRateHz = 0;
  const frames: Frame[] = [];
  for (const block of open()) {
    sampleRateHz = block.sampleRateHz;
    meter ??= new LevelMeter(sampleRateHz);
    analyser ??= new FrameAnalyser(sampleRateHz, range);
    analyser.push(meter.push(block.channels), (frame) => frames.push(frame));
  }
  const levels = meter?.read();
  if (!levels || !analyser || levels.seconds < LEAST_SECONDS || frames.length === 0)
    throw new InputError(
      `the take is too short, ${(levels?.seconds ?? 0).toFixed(2)} s; record at least ${LEAST_SECONDS} s, silence before and after included`,
    );
  const track: Track = { range, frameS: analyser.frameS, hopS: analyser.hopS, frames };
  return { sampleRateHz, levels, heard: hear(track) };
}

/** Null where no note is named. */
function rangeAsked({ test, nearHz, notesHz }: TakeQuestion): PitchRange | null {
  if (isOfNotes(test) && notesHz.length > 0) {
    const all = nearHz === null ? notesHz : [nearHz, ...notesHz];
    return rangeOf(Math.min(...all), Math.max(...all), BELOW, ABOVE);
  }
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
