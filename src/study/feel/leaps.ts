/**
 * The chance that a leap lands on a wrong note, against gap: the lips go from the middle of one note's slot to that of
 * another's and miss it by a normal error; the oscillator says what then sounds. The player knows the instrument, so that
 * the middles are those at the gap in question; the pressures are those of the reference gap, and every gap gets the same
 * errors and phases, so that what differs between gaps is the gap.
 */

import { randomLcg, randomNormal } from "d3";
import { Leap, type LeapTimes } from "../../lips/leap.ts";
import { DEFAULT_LIPS } from "../../lips/lips.ts";
import { type Blowing, Oscillator } from "../../lips/oscillator.ts";
import { slotOf } from "../../lips/slot.ts";
import { checkLips } from "../../lips/valve.ts";
import { wilsonInterval } from "../../statistics/wilsonInterval.ts";
import { OutOfRange } from "../../units/outOfRange.ts";
import type { Instrument } from "../instrument/instrument.ts";
import {
  type Blown,
  blownAt,
  checkPressure,
  pressureFor,
  type SlotOptions,
  SOFTLY,
  valveIn,
} from "./slots.ts";

export interface LeapOptions extends SlotOptions {
  readonly gapMm: number;
  readonly from: number;
  readonly to: number;
  /** Standard deviation of the lips' aim, cents. */
  readonly aimCents: number;
  readonly runs: number;
  /** The same seed gives the same errors. */
  readonly seed?: number;
  /** The runs this worker does, [first, end); all if absent. The tallies of parts add up. */
  readonly part?: readonly [first: number, end: number];
  readonly times?: LeapTimes;
  readonly sampleRate?: number;
}

export interface LeapTally {
  readonly runs: number;
  /** Runs that ended on each note. */
  readonly landed: ReadonlyMap<number, number>;
  /** Runs after which nothing sounded. */
  readonly silent: number;
}

/** Of the runs that did not end on the note aimed at, silence among them. */
export interface MissChance {
  readonly chance: number;
  /** 95 %. */
  readonly interval: readonly [low: number, high: number];
}

/** Own choice, no source: a quick slur, and a second for what grows slowly. */
const TIMES: LeapTimes = { transition: 0.05, settle: 1 };
const RATE = 44100;

/** The tally so far after every run. @throws OutOfRange in words where either note cannot be played so */
export function* leapSteps(instrument: Instrument, options: LeapOptions): Generator<LeapTally, void, void> {
  const { gapMm, from, to, aimCents, runs, seed = 1, part = [0, runs] } = options;
  const { times = TIMES, sampleRate = RATE, lips = DEFAULT_LIPS, pressure = SOFTLY } = options;
  checkLips(lips);
  checkPressure(pressure);
  if (!(aimCents >= 0 && aimCents <= 1200))
    throw new OutOfRange(`an aiming error of ${aimCents} cents cannot be used: give 0 to 1200 cents`);
  if (!(Number.isInteger(runs) && runs >= 1 && runs <= 1e6))
    throw new OutOfRange(`${runs} runs cannot be done: give a whole number from 1 to 1 000 000`);
  const valve = valveIn(instrument, lips);
  const { referenceGapMm = instrument.gapMm } = options;
  const reference = blownAt(instrument, referenceGapMm, valve);
  const here = gapMm === referenceGapMm ? reference : blownAt(instrument, gapMm, valve);
  const middle = (n: number): Blowing => middleOf(n, here, pressureFor(n, pressure, reference.thresholds));
  const start = middle(from);
  const make = () => new Oscillator(sampleRate, valve, here.modes, start);
  const leap = new Leap(make, from, middle(to), times, here.modes);

  const source = randomLcg(seed);
  const normal = randomNormal.source(source)(0, aimCents);
  const landed = new Map<number, number>();
  let silent = 0;
  const [first, end] = part;
  for (let run = 0; run < Math.min(end, runs); run++) {
    const error = normal();
    const phase = source();
    // drawn all the same, so that a part's errors are those of the whole
    if (run < first) continue;
    const note = leap.land(error, phase);
    if (note === null) silent++;
    else landed.set(note, (landed.get(note) ?? 0) + 1);
    yield { runs: run + 1 - first, landed: new Map(landed), silent };
  }
}

/** Of several parts of the same runs. */
export function mergedTally(parts: readonly LeapTally[]): LeapTally {
  const landed = new Map<number, number>();
  for (const part of parts)
    for (const [note, count] of part.landed) landed.set(note, (landed.get(note) ?? 0) + count);
  const sum = (of: (part: LeapTally) => number) => parts.reduce((total, part) => total + of(part), 0);
  return { runs: sum(({ runs }) => runs), landed, silent: sum(({ silent }) => silent) };
}

/** Chance that a leap misses note `to`, with Wilson's interval at 95 %. */
export function missChance({ runs, landed }: LeapTally, to: number): MissChance {
  const missed = runs - (landed.get(to) ?? 0);
  return { chance: runs ? missed / runs : 0, interval: wilsonInterval(missed, runs) };
}

/** The middle of a note's slot, and what it is blown with. */
function middleOf(n: number, { stability, thresholds }: Blown, mouthPressure: number | null): Blowing {
  const slot = mouthPressure === null ? null : slotOf(stability, thresholds, n, mouthPressure);
  if (!slot)
    throw new OutOfRange(`note ${n} does not start with this pressure: blow harder or choose another`);
  return { mouthPressure: slot.mouthPressure, lipHz: slot.centreHz };
}
