/** Asks a worker that compares and designs on the page's behalf. */
import type {
  BellTrustRequest,
  ColumnFitRequest,
  ComparedVariant,
  CompareRequest,
  CompareWorker,
  Designed,
  DesignQuestion,
  FittedColumn,
  StationsRequest,
} from "../../../workers/compareProtocol.ts";
import type { StepProgress } from "../../../workers/modelProtocol.ts";
import type { Setup } from "../../setup/setup.ts";
import type { BellTrust } from "../../study/compare/bellTrust.ts";
import type { DesignProgress } from "../../study/design/design.ts";
import type { FitStep } from "../../study/measured/columnFit.ts";
import type { Measured } from "../../study/measured/measured.ts";
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
    question: DesignQuestion,
    progress: (step: DesignProgress) => void,
    signal: AbortSignal,
  ) {
    return this.longWork<Designed>(
      setup,
      (worker, ticket, tell) =>
        worker.design({ ...question, ...ticket }, (step) => {
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

  bellTrust(
    setup: Setup,
    gaps: Omit<BellTrustRequest, "ticket">,
    progress: StepProgress,
    signal: AbortSignal,
  ) {
    return this.longWork<BellTrust>(
      setup,
      (worker, ticket, tell) => worker.bellTrust({ ...gaps, ...ticket }, tell),
      progress,
      signal,
    );
  }

  overlay(setup: Setup, measured: Measured) {
    return this.ask(setup, (worker) => worker.overlay(measured));
  }

  fitColumn(
    setup: Setup,
    question: Omit<ColumnFitRequest, "ticket">,
    progress: (step: FitStep) => void,
    signal: AbortSignal,
  ) {
    return this.longWork<FittedColumn>(
      setup,
      (worker, ticket, tell) =>
        worker.fitColumn({ ...question, ...ticket }, (step) => {
          tell(step.iteration, step.iteration);
          if (!signal.aborted) progress(step);
        }),
      undefined,
      signal,
    );
  }

  inventMeasurement(setup: Setup) {
    return this.ask(setup, (worker) => worker.inventMeasurement());
  }
}
