/** Questions of feel as a worker serves them: a setup at a time, long work in steps. */
import type { Setup } from "../src/setup/setup.ts";
import { levelSteps } from "../src/study/blown/levelSteps.ts";
import { type ResistanceChange, resistanceChange } from "../src/study/blown/resistanceChange.ts";
import { closedSteps, type Done, feltSteps } from "../src/study/feel/felt.ts";
import { type LeapOptions, type LeapTally, leapSteps, mergedTally } from "../src/study/feel/leaps.ts";
import { MODAL_COUNT } from "../src/study/feel/modalColumn.ts";
import { type GapSlots, type SlotOptions, slotSteps } from "../src/study/feel/slots.ts";
import { Instrument } from "../src/study/instrument/instrument.ts";
import type {
  ClosedRequest,
  FeelWorker,
  FeltRequest,
  LeapRequest,
  LevelsRequest,
  SlotsRequest,
  StreamQuestion,
} from "./feelProtocol.ts";
import { answered, isRefusal, LongWork } from "./longWork.ts";
import type { Refusal, StepProgress } from "./modelProtocol.ts";

export class Feel implements FeelWorker {
  /** Messages keep their order, so a question awaits the setup it followed. */
  #instrument: Promise<Instrument | Refusal> = Promise.resolve({ refused: "no setup is loaded" });
  readonly #work = new LongWork<Instrument>();

  async load(setup: Setup): Promise<Refusal | { readonly ok: true }> {
    this.#work.stopAll();
    this.#instrument = Promise.resolve(answered(() => new Instrument(setup, { modes: MODAL_COUNT })));
    const instrument = await this.#instrument;
    return isRefusal(instrument) ? instrument : { ok: true };
  }

  async stream(question: StreamQuestion): Promise<Refusal | ResistanceChange> {
    const instrument = await this.#instrument;
    return isRefusal(instrument) ? instrument : answered(() => resistanceChange(instrument.setup, question));
  }

  felt({ ticket, ...question }: FeltRequest, progress: StepProgress) {
    return this.#inSteps(ticket, (instrument) => feltSteps(instrument, question), progress);
  }

  closed({ ticket, ...options }: ClosedRequest, progress: StepProgress) {
    return this.#inSteps(ticket, (instrument) => closedSteps(instrument, options), progress);
  }

  slots({ ticket, gapsMm, ...options }: SlotsRequest, progress: StepProgress) {
    return this.#inSteps(ticket, (instrument) => allSlots(instrument, gapsMm, options), progress);
  }

  levels({ ticket, gapsMm }: LevelsRequest, progress: StepProgress) {
    return this.#inSteps(ticket, (instrument) => levelSteps(instrument, gapsMm), progress);
  }

  leaps({ ticket, ...options }: LeapRequest, progress: StepProgress) {
    return this.#inSteps(ticket, (instrument) => partOfLeaps(instrument, options), progress);
  }

  async stop(ticket: number): Promise<void> {
    this.#work.stop(ticket);
  }

  #inSteps<Result>(
    ticket: number,
    begin: (instrument: Instrument) => Generator<Done, Result, void>,
    progress: StepProgress,
  ): Promise<Refusal | Result | null> {
    return this.#work.run(ticket, this.#instrument, begin, ({ done, of }) => progress(done, of));
  }
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
