/** What this player does, measured, as the third voice beside a rule and the model; or how it can be measured. */
import type { TakeTest } from "../../listen/takeQuestion.ts";
import type { InstrumentKind } from "../../setup/instrumentKind.ts";
import { isCompared, type ListenedNote } from "../../study/listened/measuredGaps.ts";
import type { LengthUnit } from "../../units/length.ts";
import { listenedWords } from "../listen/measuredWords.ts";
import type { Claim } from "./rules.ts";

/** What is listened to for a claim. */
const HEARD_BY: Readonly<Partial<Record<Claim, TakeTest>>> = {
  slots: "slot",
  tooWide: "slur",
  attack: "attack",
};

export interface ThirdVoice {
  /** Null: nothing was measured at two gaps yet. */
  readonly measured: string | null;
  /** How to come by it. */
  readonly how: string;
}

/** Null where listening says nothing about a claim. */
export function thirdVoice(
  claim: Claim,
  notes: readonly ListenedNote[],
  unit: LengthUnit,
  instrument?: InstrumentKind,
): ThirdVoice | null {
  const test = HEARD_BY[claim];
  if (!test) return null;
  const own = notes.filter((note) => note.test === test && isCompared(note));
  return {
    measured: own.length === 0 ? null : own.map((note) => listenedWords(note, unit, instrument)).join(" "),
    how: HOW[test],
  };
}

const HOW: Readonly<Record<TakeTest, string>> = {
  slot: "not measured yet. Bend a note to its ends at two gaps, by the microphone.",
  slur: "not measured yet. Count slurs at two gaps, by the microphone.",
  attack: "not measured yet. Count attacks at two gaps, by the microphone.",
  steady: "not measured yet. Hold a note at two gaps, by the microphone.",
};
