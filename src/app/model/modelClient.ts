/**
 * Asks the model's worker on the page's behalf. While one exploration is under way only the newest waits; an instrument
 * is loaded when it is first asked about; a worker that has died is replaced and what it was asked is asked once more.
 */
import type { ModelWorker, Refusal, StepProgress, Ticket } from "../../../workers/modelProtocol.ts";
import type { Setup } from "../../setup/setup.ts";
import type { Explored } from "../../study/exploration.ts";
import type { GapSweep, GapSweepOptions } from "../../study/gapSweep.ts";
import type { MonteCarlo, MonteCarloOptions } from "../../study/monteCarlo.ts";
import { Patience, Silence } from "./patience.ts";
import { sameToModel } from "./sameToModel.ts";

/** One worker, as long as it lives. */
export interface ModelConnection {
  readonly model: ModelWorker;
  /** Rejects when the worker is known to have died; never resolves. */
  readonly died: Promise<never>;
  terminate(): void;
}

export interface ModelClientOptions {
  /** Starts a worker. */
  readonly connect: () => ModelConnection;
  /** Told whenever a dead worker has been replaced. */
  readonly onRestart?: () => void;
  /** Longest silence before a worker is taken for dead, s: of an exploration, and between two gaps of a sweep. */
  readonly patienceS?: number;
  /** The same for building the air column, which takes longer for a long bore table. */
  readonly loadPatienceS?: number;
}

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

export class ModelClient {
  readonly #options: Required<ModelClientOptions>;
  #connection: ModelConnection | null = null;
  #loaded: Setup | null = null;
  #loading: Promise<Refusal | { readonly ok: true }> | null = null;
  #exploring = false;
  #waiting: Waiting | null = null;
  #ticket = 0;

  constructor(options: ModelClientOptions) {
    this.#options = { onRestart: () => {}, patienceS: 8, loadPatienceS: 30, ...options };
  }

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
    return this.#longWork<GapSweep>(
      setup,
      (model, ticket, tell) => model.sweep({ ...options, ...ticket }, tell),
      progress,
      signal,
    );
  }

  /** The change between two gaps by drawing instruments. */
  draw(setup: Setup, options: MonteCarloOptions, progress?: StepProgress, signal?: AbortSignal) {
    return this.#longWork<MonteCarlo>(
      setup,
      (model, ticket, tell) => model.draw({ ...options, ...ticket }, tell),
      progress,
      signal,
    );
  }

  /**
   * Stops any long work asked for before, which then answers null; an aborted one too.
   * @param progress called with steps done and asked for
   */
  async #longWork<T>(
    setup: Setup,
    ask: (model: ModelWorker, ticket: Ticket, tell: StepProgress) => Promise<T | Refusal | null>,
    progress: StepProgress = () => {},
    signal?: AbortSignal,
  ): Promise<T | Refusal | null> {
    const ticket = ++this.#ticket;
    if (signal?.aborted) return null;
    const stop = () => void this.#connection?.model.stop(ticket);
    signal?.addEventListener("abort", stop, { once: true });
    let isOver = false;
    try {
      return await this.#ask<T | null>(setup, (model, sign) => {
        if (ticket !== this.#ticket || signal?.aborted) return Promise.resolve(null);
        return ask(model, { ticket }, (done, of) => {
          sign();
          // progress comes by another way than the answer, and may come after it
          if (!isOver && ticket === this.#ticket && !signal?.aborted) progress(done, of);
        });
      });
    } finally {
      isOver = true;
      signal?.removeEventListener("abort", stop);
    }
  }

  /** Ends the worker; the next question starts another. */
  close(): void {
    this.#connection?.terminate();
    this.#forget();
  }

  async #exploreWaiting(): Promise<void> {
    this.#exploring = true;
    while (this.#waiting) {
      const { question, answer } = this.#waiting;
      this.#waiting = null;
      const { setup, gapMm, referenceGapMm, resonance, retune } = question;
      answer(await this.#ask(setup, (model) => model.explore(gapMm, referenceGapMm, resonance, retune)));
    }
    this.#exploring = false;
  }

  /**
   * Loads the setup where it is not yet and asks; twice if the worker dies over it the first time. Both are sent in one
   * go: nothing can come between them, so the question is about this setup whatever is asked meanwhile.
   * @param question gets a function to call at every sign of life
   */
  async #ask<T>(
    setup: Setup,
    question: (model: ModelWorker, sign: () => void) => Promise<T | Refusal>,
  ): Promise<T | Refusal> {
    for (let attempt = 1; ; attempt++) {
      let connection: ModelConnection | null = null;
      try {
        connection = this.#connection ??= this.#options.connect();
        const { model, died } = connection;
        const loading = this.#load(model, setup);
        const patience = new Patience(this.#options.loadPatienceS);
        loading.then(
          () => patience.renew(this.#options.patienceS),
          () => {},
        );
        try {
          const asked = Promise.all([loading, question(model, () => patience.renew())]);
          const [loaded, answer] = await Promise.race([asked, died, patience.end]);
          return "refused" in loaded ? loaded : answer;
        } finally {
          patience.stop();
        }
      } catch (reason) {
        this.#bury(connection);
        if (attempt === 2) return { refused: refusalOf(reason) };
      }
    }
  }

  #load(model: ModelWorker, setup: Setup): Promise<Refusal | { readonly ok: true }> {
    if (this.#loading && this.#loaded && sameToModel(this.#loaded, setup)) return this.#loading;
    this.#loaded = setup;
    this.#loading = model.load(setup);
    return this.#loading;
  }

  /** Several questions may see the same worker die; it is replaced, and told of, once. */
  #bury(connection: ModelConnection | null): void {
    connection?.terminate();
    if (connection !== this.#connection) return;
    this.#forget();
    this.#options.onRestart();
  }

  #forget(): void {
    this.#connection = null;
    this.#loaded = null;
    this.#loading = null;
  }
}

const refusalOf = (reason: unknown): string =>
  reason instanceof Silence
    ? "The model gives no answer for this instrument; make its bore table shorter, or go back to the setup before."
    : "The model's worker cannot run here; load the page again. What you typed is kept.";
