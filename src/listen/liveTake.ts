/**
 * A take while it is played: its sound as it comes, the pitch so far and the edges of a slot as they are found, and at its end
 * the same answer that a file of it would give. What it holds is given up with it.
 */

import { InputError } from "../units/inputError.ts";
import { Listening } from "./listening.ts";
import { slotOf } from "./slot.ts";
import { rangeAsked, type Take, takeOf } from "./take.ts";
import type { TakeQuestion } from "./takeQuestion.ts";

/** A moment of pitch; null between notes. */
export interface PitchPoint {
  readonly atS: number;
  readonly hz: number | null;
}

/** The ends of a slot, as far as it has been bent; null: no bend of that side has ended yet. */
export interface EdgesSoFar {
  readonly restHz: number;
  readonly lowHz: number | null;
  readonly highHz: number | null;
}

export class LiveTake {
  readonly question: TakeQuestion;
  readonly #listening: Listening;

  /** @throws {InputError} where no note is named, or one is none */
  constructor(sampleRateHz: number, question: TakeQuestion) {
    const range = rangeAsked(question);
    if (!range) throw new InputError("no note is named; give the note that is meant");
    this.question = question;
    this.#listening = new Listening(sampleRateHz, range);
  }

  push(channels: readonly Float32Array[]): void {
    this.#listening.push(channels);
  }

  /** The pitch from the frame of this number on. */
  points(from = 0): PitchPoint[] {
    return this.#listening.frames.slice(from).map(({ atS, hz }) => ({ atS, hz }));
  }

  /** Null where nothing is held yet, or no slot was asked for. */
  edges(): EdgesSoFar | null {
    const { test, nearHz } = this.question;
    if (test !== "slot" || this.#listening.frames.length === 0) return null;
    const slot = slotOf(this.#listening.heard(), nearHz);
    return slot && { restHz: slot.restHz, lowHz: slot.low?.hz ?? null, highHz: slot.high?.hz ?? null };
  }

  /** @throws {InputError} where it is too short */
  finish(): Take {
    return takeOf(this.#listening, this.question);
  }
}
