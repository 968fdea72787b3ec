/** What the statistics of a trial say of the newest question. */
import type { Refusal, StepProgress, Ticket } from "../../../../workers/modelProtocol.ts";
import type { AnalysisRequest, PowerRequest, TrialWorker } from "../../../../workers/trialProtocol.ts";
import type { Setup } from "../../../setup/setup.ts";
import type { TrialAnalysis } from "../../../trial/analysis.ts";
import type { Power } from "../../../trial/power.ts";
import { NewestWork } from "../../work/newestWork.ts";
import { type Connection, WorkerClient } from "../../work/workerClient.ts";

export interface TrialQuestions {
  readonly power: Omit<PowerRequest, "ticket">;
  readonly analyse: Omit<AnalysisRequest, "ticket">;
}
export interface TrialAnswers {
  readonly power: readonly Power[];
  readonly analyse: TrialAnalysis;
}
export type TrialAsk = keyof TrialQuestions;

export interface TrialQuestion<Ask extends TrialAsk> {
  /** Of the page, whose life the worker shares: the answer does not rest on it. */
  readonly setup: Setup;
  readonly of: TrialQuestions[Ask];
}

/** How each is put to the worker. */
const ASKS: {
  readonly [Ask in TrialAsk]: (
    worker: TrialWorker,
    request: TrialQuestions[Ask] & Ticket,
    tell: StepProgress,
  ) => Promise<Refusal | TrialAnswers[Ask] | null>;
} = {
  power: (worker, request, tell) => worker.power(request, tell),
  analyse: (worker, request, tell) => worker.analyse(request, tell),
};

class TrialClient extends WorkerClient<TrialWorker> {
  async run<Ask extends TrialAsk>(
    setup: Setup,
    ask: Ask,
    question: TrialQuestions[Ask],
    progress: StepProgress,
    signal: AbortSignal,
  ): Promise<TrialAnswers[Ask] | Refusal | null> {
    return this.longWork<TrialAnswers[Ask]>(
      setup,
      (worker, ticket, tell) => ASKS[ask](worker, { ...question, ...ticket }, tell),
      progress,
      signal,
    );
  }
}

export class TrialWork<Ask extends TrialAsk> extends NewestWork<TrialQuestion<Ask>, TrialAnswers[Ask]> {
  readonly #ask: Ask;
  readonly #client: TrialClient;

  constructor(ask: Ask, connect: () => Connection<TrialWorker>) {
    super();
    this.#ask = ask;
    this.#client = new TrialClient({ connect, patienceS: 30 });
  }

  protected override isSame({ of: a }: TrialQuestion<Ask>, { of: b }: TrialQuestion<Ask>): boolean {
    return JSON.stringify(a) === JSON.stringify(b);
  }

  protected override run(
    { setup, of }: TrialQuestion<Ask>,
    progress: StepProgress,
    signal: AbortSignal,
  ): Promise<TrialAnswers[Ask] | Refusal | null> {
    return this.#client.run(setup, this.#ask, of, progress, signal);
  }

  protected override release(): void {
    this.#client.close();
  }
}
