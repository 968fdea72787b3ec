/**
 * What the page may ask of a worker for feel: lips and stream, apart from the model's worker, so that the hand on the shank
 * is never slowed. As there, questions are about the setup loaded last, and a newer ticket ends older work. Types only.
 */
import type { Setup } from "../src/setup/setup.ts";
import type { LevelLoss } from "../src/study/blown/levelLoss.ts";
import type { ResistanceChange } from "../src/study/blown/resistanceChange.ts";
import type { Evidence } from "../src/study/change/verdicts.ts";
import type { Felt, FeltOptions, FeltQuestion } from "../src/study/feel/felt.ts";
import type { LeapOptions, LeapTally } from "../src/study/feel/leaps.ts";
import type { GapSlots, SlotOptions } from "../src/study/feel/slots.ts";
import type { Refusal, StepProgress, Ticket } from "./modelProtocol.ts";

export interface FeltRequest extends FeltQuestion, Ticket {}
export interface ClosedRequest extends FeltOptions, Ticket {}
export interface LeapRequest extends LeapOptions, Ticket {}

export interface SlotsRequest extends SlotOptions, Ticket {
  readonly gapsMm: readonly number[];
}

export interface LevelsRequest extends Ticket {
  readonly gapsMm: readonly number[];
}

export interface StreamQuestion {
  readonly gapMm: number;
  readonly referenceGapMm: number;
  readonly litresPerMinute: number;
}

/** Long work answers null when it was overtaken. */
export interface FeelWorker {
  load(setup: Setup): Promise<Refusal | { readonly ok: true }>;
  /** The steady stream at two gaps, part by part. */
  stream(question: StreamQuestion): Promise<Refusal | ResistanceChange>;
  /** The felt verdicts between two gaps; a step is a set of lips. */
  felt(request: FeltRequest, progress: StepProgress): Promise<Refusal | Felt | null>;
  /** The same from the reference gap to none. */
  closed(request: ClosedRequest, progress: StepProgress): Promise<Refusal | Evidence | null>;
  /** Every note's slot, gap by gap. */
  slots(request: SlotsRequest, progress: StepProgress): Promise<Refusal | readonly GapSlots[] | null>;
  /** Peak heights from soft to loud. */
  levels(request: LevelsRequest, progress: StepProgress): Promise<Refusal | readonly LevelLoss[] | null>;
  /** A part of the runs of one experiment; a step is a run. */
  leaps(request: LeapRequest, progress: StepProgress): Promise<Refusal | LeapTally | null>;
  /** Stops the long work of this ticket and any older one. */
  stop(ticket: number): Promise<void>;
}
