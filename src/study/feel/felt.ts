/** What a change of gap does to how a setup feels, on modelled lips and in a steady stream: the felt part of the verdicts. */

import { isAnyAssumed } from "../../setup/dimension/provenance.ts";
import { SetupError } from "../../setup/problem.ts";
import { isSameGap } from "../../setup/setup.ts";
import { withGap } from "../../setup/withGap.ts";
import { type ResistanceChangeLike, resistanceChangeLike } from "../blown/resistanceLike.ts";
import { type Evidence, NEVER_CLOSES, SAME_GAP } from "../change/verdicts.ts";
import type { Instrument } from "../instrument/instrument.ts";
import {
  attackEvidence,
  closedEvidence,
  resistanceEvidence,
  slotEvidence,
  tooNarrowEvidence,
  tooWideEvidence,
} from "./feltVerdicts.ts";
import { type SlotChange, slotChangeSteps } from "./slotChange.ts";
import type { SlotOptions } from "./slots.ts";

export interface FeltOptions extends SlotOptions {
  readonly referenceGapMm: number;
  readonly litresPerMinute: number;
}

export interface FeltQuestion extends FeltOptions {
  readonly gapMm: number;
}

export interface Felt {
  readonly slots: Evidence;
  readonly resistance: Evidence;
  readonly tooWide: Evidence;
  readonly tooNarrow: Evidence;
  readonly attack: Evidence;
  /** null between a gap and itself. */
  readonly change: SlotChange | null;
}

/** Steps done, of how many: here sets of lips. */
export interface Done {
  readonly done: number;
  readonly of: number;
}

/** @param instrument with the modal column's resonances @throws as `slotSteps` and `resistance` */
export function* feltSteps(instrument: Instrument, question: FeltQuestion): Generator<Done, Felt, void> {
  if (isSameGap(question.gapMm, question.referenceGapMm))
    return {
      slots: SAME_GAP,
      resistance: SAME_GAP,
      tooWide: SAME_GAP,
      tooNarrow: SAME_GAP,
      attack: SAME_GAP,
      change: null,
    };
  const { flow, change } = yield* bothResistances(instrument, question);
  const { thresholds } = instrument.setup;
  return {
    slots: ofDrawing(instrument, slotEvidence(change)),
    resistance: ofDrawing(instrument, resistanceEvidence(flow, change)),
    tooWide: ofDrawing(instrument, tooWideEvidence(change, thresholds)),
    tooNarrow: ofDrawing(instrument, tooNarrowEvidence(change, thresholds)),
    attack: ofDrawing(instrument, attackEvidence(change, thresholds)),
    change,
  };
}

/** From the reference gap to none at all. */
export function* closedSteps(instrument: Instrument, options: FeltOptions): Generator<Done, Evidence, void> {
  if (isSameGap(options.referenceGapMm, 0)) return SAME_GAP;
  if (!closes(instrument)) return NEVER_CLOSES;
  const { flow, change } = yield* bothResistances(instrument, { ...options, gapMm: 0 });
  return ofDrawing(instrument, closedEvidence(flow, change));
}

/** Lips are tried on the bore as it is drawn alone: instruments like it would take as long again each. */
function ofDrawing({ setup }: Instrument, evidence: Evidence): Evidence {
  const { basis } = evidence;
  const rests = basis.kind === "lips" || basis.kind === "on-lips" || basis.kind === "stream-and-lips";
  return rests && isAnyAssumed(setup)
    ? { ...evidence, basis: { ...basis, areLipsOfDrawingOnly: true } }
    : evidence;
}

function* bothResistances(
  instrument: Instrument,
  { gapMm, litresPerMinute, ...options }: FeltQuestion,
): Generator<Done, { flow: ResistanceChangeLike; change: SlotChange }, void> {
  const { referenceGapMm } = options;
  const flow = resistanceChangeLike(instrument.setup, { gapMm, referenceGapMm, litresPerMinute });
  let change: SlotChange | null = null;
  for (const step of slotChangeSteps(instrument, gapMm, options)) {
    yield { done: step.done, of: step.of };
    change = step.change;
  }
  return { flow, change: change! };
}

function closes({ setup }: Instrument): boolean {
  try {
    withGap(setup, 0);
    return true;
  } catch (error) {
    if (error instanceof SetupError) return false;
    throw error;
  }
}
