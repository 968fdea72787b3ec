/**
 * A phrase played with the same movement of lips and breath at any gap: from note to note along a straight line in cents,
 * each note's lips in the middle of its slot at the reference gap. What sounds, stretch by stretch, and when every note speaks.
 */

import { DEFAULT_LIPS } from "../../lips/lips.ts";
import { noteAt } from "../../lips/note.ts";
import { type Blowing, Oscillator } from "../../lips/oscillator.ts";
import { playingOf } from "../../lips/playing.ts";
import { slotOf } from "../../lips/slot.ts";
import { checkLips, type Lips } from "../../lips/valve.ts";
import { OutOfRange } from "../../units/outOfRange.ts";
import type { Instrument } from "../instrument/instrument.ts";
import { blownAt, pressureFor, valveIn } from "./slots.ts";

export interface Phrase {
  /** Numbers of the notes in turn. */
  readonly notes: readonly number[];
  /** How long each is held, and the way to the next, s. */
  readonly hold: number;
  readonly move: number;
}

export const PHRASES = {
  slur: { notes: [3, 4, 5, 6], hold: 0.8, move: 0.12 },
  octave: { notes: [3, 6, 3], hold: 0.9, move: 0.05 },
} as const satisfies Record<string, Phrase>;
export type PhraseName = keyof typeof PHRASES;

/** A little louder than just clear of the threshold, so that notes speak within a beat: own choice, no source. */
const BLOWN = { timesThreshold: 1.6 };
const RATE = 48000;
const BLOCK = 64;
/** Blocks a frequency is counted over: 40 ms. */
const STRETCH_BLOCKS = 30;
/** Breath begins and ends in this, s; after it the column may ring out. */
const BREATH = 0.03;
const RINGING = 0.25;

export interface PlayedStretch {
  /** The middle of the stretch, s. */
  readonly seconds: number;
  readonly lipHz: number;
  /** null where nothing sounds. */
  readonly frequencyHz: number | null;
  readonly note: number | null;
}

export interface SpokenNote {
  readonly note: number;
  /** When the lips are there, s. */
  readonly askedAt: number;
  /** From then until the note sounds and stays to the end of its hold, s; null where it does not. */
  readonly after: number | null;
  /** At the end of its hold; null where the note is not what sounds. */
  readonly frequencyHz: number | null;
}

export interface Performance {
  readonly gapMm: number;
  /** In the cup, Pa. */
  readonly pressures: Float32Array<ArrayBuffer>;
  readonly sampleRate: number;
  readonly track: readonly PlayedStretch[];
  readonly spoken: readonly SpokenNote[];
}

/**
 * The phrase at each gap.
 * @throws OutOfRange in words where a note of it has no slot, SetupError for a gap the receiver cannot have
 */
export function perform(
  instrument: Instrument,
  phrase: Phrase,
  gapsMm: readonly number[],
  referenceGapMm: number,
  lips: Lips = DEFAULT_LIPS,
): Performance[] {
  checkLips(lips);
  const valve = valveIn(instrument, lips);
  const reference = blownAt(instrument, referenceGapMm, valve);
  const middles = new Map<number, Blowing>();
  for (const n of new Set(phrase.notes)) {
    const pressure = pressureFor(n, BLOWN, reference.thresholds);
    const slot = pressure === null ? null : slotOf(reference.stability, reference.thresholds, n, pressure);
    if (!slot)
      throw new OutOfRange(`note ${n} of the phrase has no slot with these lips at the gap compared with`);
    middles.set(n, { mouthPressure: slot.mouthPressure, lipHz: slot.centreHz });
  }
  const movement = movementOf(phrase, (n) => middles.get(n)!);
  return gapsMm.map((gapMm) => {
    const { modes } = gapMm === referenceGapMm ? reference : blownAt(instrument, gapMm, valve);
    const oscillator = new Oscillator(RATE, valve, modes, blowingAt(movement, 0));
    const seconds = movement[movement.length - 1].seconds + RINGING;
    const stretches = Math.ceil((seconds * RATE) / (STRETCH_BLOCKS * BLOCK));
    const samples = STRETCH_BLOCKS * BLOCK;
    const pressures = new Float64Array(samples);
    const openings = new Float64Array(samples);
    const played = new Float32Array(stretches * samples);
    const track: PlayedStretch[] = [];
    for (let k = 0; k < stretches; k++) {
      for (let at = 0; at < samples; at += BLOCK) {
        const { mouthPressure, lipHz } = blowingAt(movement, (k * samples + at + BLOCK) / RATE);
        oscillator.blow(mouthPressure, lipHz);
        oscillator.run(pressures.subarray(at, at + BLOCK), openings.subarray(at, at + BLOCK));
      }
      played.set(pressures, k * samples);
      const middle = ((k + 0.5) * samples) / RATE;
      const { lipHz } = blowingAt(movement, middle);
      const { mouthPressure } = oscillator.blowing;
      const blown = mouthPressure > 0 ? playingOf(pressures, openings, RATE, mouthPressure) : null;
      const frequencyHz = blown?.frequencyHz ?? null;
      track.push({
        seconds: middle,
        lipHz,
        frequencyHz,
        note: frequencyHz === null ? null : noteAt(modes, frequencyHz),
      });
    }
    return { gapMm, pressures: played, sampleRate: RATE, track, spoken: spokenIn(phrase, track) };
  });
}

/** Lips and breath at one moment; between two, along a straight line in cents and pascals. */
interface Moment extends Blowing {
  readonly seconds: number;
}

function movementOf({ notes, hold, move }: Phrase, middle: (n: number) => Blowing): readonly Moment[] {
  const last = notes.length - 1;
  const held = notes.flatMap((n, i): Moment[] => {
    const seconds = i * (hold + move);
    return [
      { ...middle(n), seconds: i === 0 ? BREATH : seconds },
      { ...middle(n), seconds: seconds + hold },
    ];
  });
  const end = last * (hold + move) + hold + BREATH;
  return [
    { ...middle(notes[0]), mouthPressure: 0, seconds: 0 },
    ...held,
    { ...middle(notes[last]), mouthPressure: 0, seconds: end },
  ];
}

function blowingAt(movement: readonly Moment[], seconds: number): Blowing {
  const next = movement.findIndex((moment) => moment.seconds > seconds);
  if (next < 0) return movement[movement.length - 1];
  const [a, b] = [movement[next - 1], movement[next]];
  const part = (seconds - a.seconds) / (b.seconds - a.seconds);
  return {
    mouthPressure: a.mouthPressure + part * (b.mouthPressure - a.mouthPressure),
    lipHz: a.lipHz * (b.lipHz / a.lipHz) ** part,
  };
}

function spokenIn({ notes, hold, move }: Phrase, track: readonly PlayedStretch[]): SpokenNote[] {
  const stretch = (STRETCH_BLOCKS * BLOCK) / RATE;
  return notes.map((note, i): SpokenNote => {
    const askedAt = i * (hold + move);
    const held = track.filter(({ seconds }) => seconds > askedAt && seconds + stretch / 2 <= askedAt + hold);
    const before = held.findLastIndex((one) => one.note !== note);
    const first = held[before + 1];
    return {
      note,
      askedAt,
      after: first ? Math.max(0, first.seconds - stretch / 2 - askedAt) : null,
      frequencyHz: first ? held[held.length - 1].frequencyHz : null,
    };
  });
}
