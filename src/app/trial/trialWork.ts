/**
 * What the statistics of a trial say of the newest question; an old answer stays, marked stale, until the new one is there.
 * Each instance has a worker of its own, which ends with `close`.
 */
import type { Refusal, StepProgress, Ticket } from "../../../workers/modelProtocol.ts";
import type { AnalysisRequest, PowerRequest, TrialWorker } from "../../../workers/trialProtocol.ts";
import type { Setup } from "../../setup/setup.ts";
import type { TrialAnalysis } from "../../trial/analysis.ts";
import type { Power } from "../../trial/power.ts";
import { type Connection, WorkerClient } from "../model/workerClient.ts";
import { Observable } from "../store/observable.ts";

export interface TrialQuestions {
  readonly power: Omit<PowerRequest, "ticket">;
  readonly analyse: Omit<AnalysisRequest, "ticket">;
}
export interface TrialAnswers {
  readonly power: readonly Power[];
  readonly analyse: TrialAnalysis;
}
export type TrialAsk = keyof TrialQuestions;

export interface WorkState<T> {
  readonly value: T | null;
  /** The answer is of another question than the one asked last. */
  readonly stale: boolean;
  /** Share done, 0 to 1; null when nothing is under way. */
  readonly progress: number | null;
  readonly refused: string | null;
  readonly stopped: boolean;
}

const REST_MS = 200;

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

export class TrialWork<Ask extends TrialAsk> extends Observable<WorkState<TrialAnswers[Ask]>> {
  readonly #ask: Ask;
  readonly #client: TrialClient;
  #question: TrialQuestions[Ask] | null = null;
  #setup: Setup | null = null;
  #work: AbortController | null = null;
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(ask: Ask, connect: () => Connection<TrialWorker>) {
    super({ value: null, stale: false, progress: null, refused: null, stopped: false });
    this.#ask = ask;
    this.#client = new TrialClient({ connect, patienceS: 30 });
  }

  /** Asks, unless this is what was asked last. @param setup of the page, whose life the worker shares */
  ask(setup: Setup, question: TrialQuestions[Ask]): void {
    if (this.#question && JSON.stringify(this.#question) === JSON.stringify(question)) return;
    this.#question = question;
    this.#setup = setup;
    this.again();
  }

  again(): void {
    this.#end();
    this.change({
      ...this.value,
      stale: this.value.value !== null,
      progress: 0,
      refused: null,
      stopped: false,
    });
    this.#timer = setTimeout(() => void this.#run(), REST_MS);
  }

  /** What is drawn stays. */
  stop(): void {
    this.#end();
    this.change({ ...this.value, progress: null, stopped: true });
  }

  close(): void {
    this.#end();
    this.#question = null;
    this.#client.close();
  }

  #end(): void {
    clearTimeout(this.#timer);
    this.#work?.abort();
    this.#work = null;
  }

  async #run(): Promise<void> {
    const work = new AbortController();
    this.#work = work;
    const progress = (done: number, of: number) => this.change({ ...this.value, progress: done / of });
    const answer = await this.#client.run(this.#setup!, this.#ask, this.#question!, progress, work.signal);
    if (work.signal.aborted || answer === null) return;
    this.#work = null;
    if ("refused" in answer) this.change({ ...this.value, progress: null, refused: answer.refused });
    else this.change({ ...this.value, value: answer, stale: false, progress: null });
  }
}
