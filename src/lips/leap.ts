/**
 * A leap from one note to another: the lips and the mouth pressure go from those of the first, sounding steadily, to those
 * of the second along a straight line, the lips missing their aim by some cents; when all has settled, which note sounds?
 */
import { OutOfRange } from "../units/outOfRange.ts";
import type { Modes } from "./modes.ts";
import { noteAt } from "./note.ts";
import type { Blowing, Oscillator } from "./oscillator.ts";
import { playingOf } from "./playing.ts";

/** A stretch the frequency is read from, s. */
const LISTEN = 0.1;
/** A note that has not settled by then never will, s. */
const LONGEST_ATTACK = 6;
/** Change of the sound's size from one stretch to the next below which it is steady. */
const STEADY = 2e-3;

export interface LeapTimes {
  /** From leaving the first note's setting to reaching the second's, s. */
  readonly transition: number;
  /** Until the landing is judged, s. */
  readonly settle: number;
}

/** A note held and then another aimed at, many times: what the same blown note does for lips that miss by a little. */
export class Leap {
  readonly #before: Oscillator;
  readonly #runner: Oscillator;
  readonly #pressures: Float64Array;
  readonly #openings: Float64Array;
  readonly #move: Float64Array;
  readonly #settle: Float64Array;
  /** Of the first note, Hz. */
  #frequencyHz = 0;
  /** Of the stretch last listened to, Pa. */
  #size = 0;

  /**
   * @param make a new oscillator blown as the first note; called twice
   * @param to the second note's setting
   * @param modes the column's, whose notes they are
   * @throws OutOfRange where note `from` does not sound as it is blown
   */
  constructor(
    make: () => Oscillator,
    readonly from: number,
    readonly to: Blowing,
    { transition, settle }: LeapTimes,
    readonly modes: Modes,
  ) {
    if (!(transition >= 0 && transition <= 10))
      throw new OutOfRange(`a transition of ${transition} s cannot be used: give 0 s to 10 s`);
    if (!(settle >= 0 && settle <= 60))
      throw new OutOfRange(`a settling time of ${settle} s cannot be used: give 0 s to 60 s`);
    this.#before = make();
    this.#runner = make();
    const samples = (seconds: number) => Math.max(1, Math.round(seconds * this.#before.sampleRate));
    this.#pressures = new Float64Array(samples(LISTEN));
    this.#openings = new Float64Array(samples(LISTEN));
    this.#move = new Float64Array(samples(transition));
    this.#settle = new Float64Array(samples(settle));
    this.#attack();
  }

  /**
   * The note landed on, null where nothing sounds.
   * @param cents how far the lips miss their aim
   * @param phase where in its period the first note is left, 0 to 1
   */
  land(cents: number, phase: number): number | null {
    const runner = this.#runner;
    runner.copy(this.#before);
    const { sampleRate } = runner;
    const wait = Math.floor((phase * sampleRate) / this.#frequencyHz);
    if (wait > 0) runner.run(this.#pressures.subarray(0, wait));
    runner.blow(this.to.mouthPressure, this.to.lipHz * 2 ** (cents / 1200));
    runner.run(this.#move);
    runner.run(this.#settle);
    const frequencyHz = this.#listen(runner);
    return frequencyHz === null ? null : noteAt(this.modes, frequencyHz);
  }

  /** Plays the first note until it is steady. */
  #attack(): void {
    const before = this.#before;
    let size = 0;
    for (let passed = 0; passed < LONGEST_ATTACK; passed += LISTEN) {
      const frequencyHz = this.#listen(before);
      const steady = Math.abs(this.#size / size - 1) < STEADY;
      size = this.#size;
      if (!steady || frequencyHz === null || noteAt(this.modes, frequencyHz) !== this.from) continue;
      this.#frequencyHz = frequencyHz;
      return;
    }
    const { mouthPressure, lipHz } = before.blowing;
    throw new OutOfRange(
      `note ${this.from} does not sound steadily at ${Math.round(mouthPressure)} Pa with the lips at ${lipHz.toFixed(1)} Hz: ` +
        "blow harder or choose another note",
    );
  }

  #listen(oscillator: Oscillator): number | null {
    oscillator.run(this.#pressures, this.#openings);
    const { mouthPressure } = oscillator.blowing;
    const playing = playingOf(this.#pressures, this.#openings, oscillator.sampleRate, mouthPressure);
    this.#size = playing.peakToPeak;
    return playing.frequencyHz;
  }
}
