/** Asks a worker that compares and designs on the page's behalf. */
import type {
  ComparedVariant,
  CompareRequest,
  CompareWorker,
  Designed,
  StationsRequest,
} from "../../../workers/compareProtocol.ts";
import type { StepProgress } from "../../../workers/modelProtocol.ts";
import type { Setup } from "../../setup/setup.ts";
import type { DesignOptions, DesignProgress } from "../../study/design.ts";
import { type Connection, WorkerClient } from "./workerClient.ts";

/** One variant with all its notes on a slow machine may take its time, s. */
const PATIENCE_S = 30;

export type CompareQuestion = Omit<CompareRequest, "ticket">;

export class CompareClient extends WorkerClient<CompareWorker> {
  constructor(connect: () => Connection<CompareWorker>) {
    super({ connect, patienceS: PATIENCE_S });
  }

  compare(question: CompareQuestion, progress: StepProgress, signal: AbortSignal) {
    const { setup } = question.variants[question.reference ?? 0];
    return this.longWork<readonly ComparedVariant[]>(
      setup,
      (worker, ticket, tell) => worker.compare({ ...question, ...ticket }, tell),
      progress,
      signal,
    );
  }

  design(
    setup: Setup,
    options: DesignOptions,
    progress: (step: DesignProgress) => void,
    signal: AbortSignal,
  ) {
    return this.longWork<Designed>(
      setup,
      (worker, ticket, tell) =>
        worker.design({ ...options, ...ticket }, (step) => {
          tell(step.step, step.step);
          if (!signal.aborted) progress(step);
        }),
      undefined,
      signal,
    );
  }

  /** Ends the design of this setup, which is under way, with the best so far. */
  finish(setup: Setup) {
    return this.ask<void>(setup, (worker) => worker.finish());
  }

  stations(setup: Setup, request: StationsRequest) {
    return this.ask(setup, (worker) => worker.stations(request));
  }
}
