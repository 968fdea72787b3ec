/** Asks the model's worker on the page's behalf. While one exploration is under way only the newest waits. */
import type { ModelWorker, Refusal, StepProgress } from "../../../workers/modelProtocol.ts";
import type { Setup } from "../../setup/setup.ts";
import type { Explored } from "../../study/instrument/exploration.ts";
import type { GapSweep, GapSweepOptions } from "../../study/instrument/gapSweep.ts";
import type { MonteCarlo, MonteCarloOptions } from "../../study/uncertainty/monteCarlo.ts";
import { type Connection, WorkerClient, type WorkerClientOptions } from "./workerClient.ts";

export type ModelConnection = Connection<ModelWorker>;
export type ModelClientOptions = WorkerClientOptions<ModelWorker>;

export interface ExploreQuestion {
  readonly setup: Setup;
  readonly gapMm: number;
  readonly referenceGapMm: number;
  readonly resonance: number;
  readonly retune: number | null;
}

/** A newer question took this one's place before it was asked. */
export const SUPERSEDED = "superseded";

type Waiting = {
  readonly question: ExploreQuestion;
  readonly answer: (a: Explored | Refusal | typeof SUPERSEDED) => void;
};

export class ModelClient extends WorkerClient<ModelWorker> {
  #exploring = false;
  #waiting: Waiting | null = null;

  /** What the page shows at a gap. Answers SUPERSEDED when a newer question came before this one's turn. */
  explore(question: ExploreQuestion): Promise<Explored | Refusal | typeof SUPERSEDED> {
    return new Promise((answer) => {
      this.#waiting?.answer(SUPERSEDED);
      this.#waiting = { question, answer };
      if (!this.#exploring) void this.#exploreWaiting();
    });
  }

  /** Every resonance at every gap. */
  sweep(setup: Setup, options: GapSweepOptions, progress?: StepProgress, signal?: AbortSignal) {
    return this.longWork<GapSweep>(
      setup,
      (model, ticket, tell) => model.sweep({ ...options, ...ticket }, tell),
      progress,
      signal,
    );
  }

  /** The change between two gaps by drawing instruments. */
  draw(setup: Setup, options: MonteCarloOptions, progress?: StepProgress, signal?: AbortSignal) {
    return this.longWork<MonteCarlo>(
      setup,
      (model, ticket, tell) => model.draw({ ...options, ...ticket }, tell),
      progress,
      signal,
    );
  }

  async #exploreWaiting(): Promise<void> {
    this.#exploring = true;
    while (this.#waiting) {
      const { question, answer } = this.#waiting;
      this.#waiting = null;
      const { setup, gapMm, referenceGapMm, resonance, retune } = question;
      answer(await this.ask(setup, (model) => model.explore(gapMm, referenceGapMm, resonance, retune)));
    }
    this.#exploring = false;
  }
}
