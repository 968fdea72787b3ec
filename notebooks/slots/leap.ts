/**
 * One leap followed in time, and where leaps land that miss their aim: as `lips/leap.ts` has it, with what sounds on the way
 * listened to stretch by stretch.
 */
import { Leap, type LeapTimes } from "../../src/lips/leap.ts";
import { noteAt } from "../../src/lips/note.ts";
import { type Blowing, Oscillator } from "../../src/lips/oscillator.ts";
import { playingOf } from "../../src/lips/playing.ts";
import { slotOf } from "../../src/lips/slot.ts";
import { pressureFor, SOFTLY } from "../../src/study/feel/slots.ts";
import { referenceGapMm } from "../paper/demo.ts";
import { blownOn, valve } from "./lipsOnColumn.ts";

export const rate = 44100;
/** A quick slur, and a second for what grows slowly: those of `study/leaps.ts`. */
const times: LeapTimes = { transition: 0.05, settle: 1 };
/** Of the first note, heard before it is left, s. */
const before = 0.3;
/** Frequencies are counted over this, s; the landing is judged over the last. */
const stretch = 0.025;
const judged = 0.1;

export interface Heard {
  /** Middle of the stretch, s after the first note is left. */
  readonly seconds: number;
  readonly lipHz: number;
  /** null where nothing sounds. */
  readonly frequencyHz: number | null;
}

export interface FollowedLeap {
  readonly heard: readonly Heard[];
  readonly aim: Blowing;
  /** The note landed on, null where nothing sounds. */
  readonly landed: number | null;
  readonly landedHz: number | null;
  /** In the cup, Pa. */
  readonly pressures: Float32Array<ArrayBuffer>;
}

/** Lips and breath in the middle of a note's slot; breath as at the reference gap, as `study/leaps.ts` has it. */
export function middleOf(n: number, gapMm: number): Blowing {
  const reference = pressureFor(n, SOFTLY, blownOn(referenceGapMm).thresholds);
  const { stability, thresholds } = blownOn(gapMm);
  const slot = reference === null ? null : slotOf(stability, thresholds, n, reference);
  if (!slot) throw new RangeError(`note ${n} has no slot here`);
  return { mouthPressure: slot.mouthPressure, lipHz: slot.centreHz };
}

const missed = (hz: number, cents: number): number => hz * 2 ** (cents / 1200);

/** @param missCents how far the lips miss the middle of the second note's slot */
export function followLeap(from: number, to: number, gapMm: number, missCents: number): FollowedLeap {
  const start = middleOf(from, gapMm);
  const aim = middleOf(to, gapMm);
  const { modes } = blownOn(gapMm);
  const oscillator = new Oscillator(rate, valve, modes, start);
  const samples = (seconds: number) => Math.round(seconds * rate);
  // until the first note is steady
  oscillator.run(new Float64Array(samples(1.5)));

  const blocks = [
    ...Array<number>(Math.round(before / stretch)).fill(stretch),
    times.transition,
    ...Array<number>(Math.round(times.settle / stretch)).fill(stretch),
    judged,
  ];
  const leave = Math.round(before / stretch);
  const played: Float64Array[] = [];
  const heard: Heard[] = [];
  let seconds = -before;
  let landedHz: number | null = null;
  for (const [i, length] of blocks.entries()) {
    if (i === leave) oscillator.blow(aim.mouthPressure, missed(aim.lipHz, missCents));
    const pressures = new Float64Array(samples(length));
    const openings = new Float64Array(pressures.length);
    oscillator.run(pressures, openings);
    const { frequencyHz } = playingOf(pressures, openings, rate, oscillator.blowing.mouthPressure);
    heard.push({
      seconds: seconds + length / 2,
      lipHz: i === leave ? Math.sqrt(start.lipHz * oscillator.blowing.lipHz) : oscillator.blowing.lipHz,
      frequencyHz,
    });
    played.push(pressures);
    landedHz = frequencyHz;
    seconds += length;
  }
  return {
    heard,
    aim,
    landed: landedHz === null ? null : noteAt(modes, landedHz),
    landedHz,
    pressures: Float32Array.from(played.flatMap((block) => Array.from(block))),
  };
}

export interface Landing {
  readonly missCents: number;
  readonly landed: number | null;
}

const missesCents = Array.from({ length: 27 }, (_, i) => 20 * (i - 13));

/** Where a leap lands for misses to either side; one at a time, so that the page stays awake. */
export async function* landings(from: number, to: number, gapMm: number): AsyncGenerator<readonly Landing[]> {
  const start = middleOf(from, gapMm);
  const aim = middleOf(to, gapMm);
  const { modes } = blownOn(gapMm);
  const leap = new Leap(() => new Oscillator(rate, valve, modes, start), from, aim, times, modes);
  const found: Landing[] = [];
  for (const missCents of missesCents) {
    await new Promise((rested) => setTimeout(rested));
    found.push({ missCents, landed: leap.land(missCents, 0) });
    yield [...found];
  }
}
