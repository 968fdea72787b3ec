/** Asks a worker for feel on the page's behalf. */
import type { FeelWorker, StreamQuestion } from "../../../workers/feelProtocol.ts";
import type { StepProgress } from "../../../workers/modelProtocol.ts";
import type { Setup } from "../../setup/setup.ts";
import type { LevelLoss } from "../../study/blown/levelLoss.ts";
import type { Evidence } from "../../study/change/verdicts.ts";
import type { Felt, FeltOptions, FeltQuestion } from "../../study/feel/felt.ts";
import type { LeapOptions, LeapTally } from "../../study/feel/leaps.ts";
import type { GapSlots, SlotOptions } from "../../study/feel/slots.ts";
import { type Connection, WorkerClient } from "./workerClient.ts";

/** One set of lips on a slow machine may take its time, s. */
const PATIENCE_S = 30;

export class FeelClient extends WorkerClient<FeelWorker> {
  constructor(connect: () => Connection<FeelWorker>) {
    super({ connect, patienceS: PATIENCE_S });
  }

  stream(setup: Setup, question: StreamQuestion) {
    return this.ask(setup, (feel) => feel.stream(question));
  }

  felt(setup: Setup, question: FeltQuestion, progress: StepProgress, signal: AbortSignal) {
    return this.longWork<Felt>(
      setup,
      (feel, ticket, tell) => feel.felt({ ...question, ...ticket }, tell),
      progress,
      signal,
    );
  }

  closed(setup: Setup, options: FeltOptions, progress: StepProgress, signal: AbortSignal) {
    return this.longWork<Evidence>(
      setup,
      (feel, ticket, tell) => feel.closed({ ...options, ...ticket }, tell),
      progress,
      signal,
    );
  }

  slots(
    setup: Setup,
    gapsMm: readonly number[],
    options: SlotOptions,
    progress: StepProgress,
    signal: AbortSignal,
  ) {
    return this.longWork<readonly GapSlots[]>(
      setup,
      (feel, ticket, tell) => feel.slots({ gapsMm, ...options, ...ticket }, tell),
      progress,
      signal,
    );
  }

  levels(setup: Setup, gapsMm: readonly number[], progress: StepProgress, signal: AbortSignal) {
    return this.longWork<readonly LevelLoss[]>(
      setup,
      (feel, ticket, tell) => feel.levels({ gapsMm, ...ticket }, tell),
      progress,
      signal,
    );
  }

  leaps(setup: Setup, options: LeapOptions, progress: StepProgress, signal: AbortSignal) {
    return this.longWork<LeapTally>(
      setup,
      (feel, ticket, tell) => feel.leaps({ ...options, ...ticket }, tell),
      progress,
      signal,
    );
  }
}
