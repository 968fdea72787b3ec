/** How an instrument feels as a worker serves it: lips and stream, apart from the model, so that the hand on the shank is never slowed. */
import type { Setup } from "../../src/setup/setup.ts";
import { levelSteps } from "../../src/study/blown/levelSteps.ts";
import { type ResistanceChangeLike, resistanceChangeLike } from "../../src/study/blown/resistanceLike.ts";
import {
  closedSteps,
  type Done,
  type FeltOptions,
  type FeltQuestion,
  feltSteps,
} from "../../src/study/feel/felt.ts";
import { type LeapOptions, type LeapTally, leapSteps, mergedTally } from "../../src/study/feel/leaps.ts";
import { MODAL_COUNT } from "../../src/study/feel/modalColumn.ts";
import { type GapSlots, type SlotOptions, slotSteps } from "../../src/study/feel/slots.ts";
import { Instrument } from "../../src/study/instrument/instrument.ts";
import { type Refusal, Served, type StepProgress, type Ticket } from "../service/served.ts";

interface Breathed {
  /** The breath that the column's peaks are those of, L/min; still air if absent. */
  readonly breath?: number;
}

export interface FeltRequest extends FeltQuestion, Breathed, Ticket {}
export interface ClosedRequest extends FeltOptions, Breathed, Ticket {}
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

export class Feel extends Served<Instrument> {
  protected subjectOf(setup: Setup): Instrument {
    return new Instrument(setup, { modes: MODAL_COUNT });
  }

  /** The steady stream at two gaps, part by part. */
  stream(question: StreamQuestion): Promise<Refusal | ResistanceChangeLike> {
    return this.ask(({ setup }) => resistanceChangeLike(setup, question));
  }

  /** The felt verdicts between two gaps; a step is a set of lips. */
  felt({ ticket, breath, ...question }: FeltRequest, progress: StepProgress) {
    return this.#counted(
      ticket,
      async (instrument) => feltSteps(await blown(instrument, breath), question),
      progress,
    );
  }

  /** The same from the reference gap to none. */
  closed({ ticket, breath, ...options }: ClosedRequest, progress: StepProgress) {
    return this.#counted(
      ticket,
      async (instrument) => closedSteps(await blown(instrument, breath), options),
      progress,
    );
  }

  /** Every note's slot, gap by gap. */
  slots({ ticket, gapsMm, ...options }: SlotsRequest, progress: StepProgress) {
    return this.#counted(ticket, (instrument) => allSlots(instrument, gapsMm, options), progress);
  }

  /** Peak heights from soft to loud. */
  levels({ ticket, gapsMm }: LevelsRequest, progress: StepProgress) {
    return this.#counted(ticket, (instrument) => levelSteps(instrument, gapsMm), progress);
  }

  /** A part of the runs of one experiment; a step is a run. */
  leaps({ ticket, ...options }: LeapRequest, progress: StepProgress) {
    return this.#counted(ticket, (instrument) => partOfLeaps(instrument, options), progress);
  }

  #counted<Result>(
    ticket: number,
    begin: (instrument: Instrument) => Generator<Done, Result, void> | Promise<Generator<Done, Result, void>>,
    progress: StepProgress,
  ) {
    return this.inSteps(ticket, begin, ({ done, of }) => progress(done, of));
  }
}

/** What only a breath needs is fetched with the first one. */
async function blown(still: Instrument, litresPerMinute = 0): Promise<Instrument> {
  if (litresPerMinute === 0) return still;
  const { breathOf } = await import("../../src/study/blown/breath.ts");
  return new Instrument(still.setup, { like: still, breath: breathOf(still.setup, litresPerMinute) });
}

function* allSlots(
  instrument: Instrument,
  gapsMm: readonly number[],
  options: SlotOptions,
): Generator<Done, readonly GapSlots[], void> {
  const all: GapSlots[] = [];
  for (const slots of slotSteps(instrument, gapsMm, options)) {
    all.push(slots);
    yield { done: all.length, of: gapsMm.length };
  }
  return all;
}

function* partOfLeaps(instrument: Instrument, options: LeapOptions): Generator<Done, LeapTally, void> {
  const [first, end] = options.part ?? [0, options.runs];
  let tally = mergedTally([]);
  for (const soFar of leapSteps(instrument, options)) {
    tally = soFar;
    yield { done: soFar.runs, of: end - first };
  }
  return tally;
}
