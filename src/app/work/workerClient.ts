/**
 * Asks a worker on the page's behalf, whatever its questions: an instrument is loaded when it is first asked about; newer
 * long work ends older; a worker that has died is replaced and what it was asked is asked once more.
 */
import type { Refusal, StepProgress, Ticket } from "../../../workers/modelProtocol.ts";
import type { Setup } from "../../setup/setup.ts";
import { Patience, Silence } from "./patience.ts";
import { sameToModel } from "./sameToModel.ts";

/** What every worker here answers. */
export interface Loadable {
  load(setup: Setup): Promise<Refusal | { readonly ok: true }>;
  stop(ticket: number): Promise<void>;
}

/** One worker, as long as it lives. */
export interface Connection<Served extends Loadable> {
  readonly model: Served;
  /** Rejects when the worker is known to have died; never resolves. */
  readonly died: Promise<never>;
  terminate(): void;
}

export interface WorkerClientOptions<Served extends Loadable> {
  /** Starts a worker. */
  readonly connect: () => Connection<Served>;
  /** Told whenever a dead worker has been replaced. */
  readonly onRestart?: () => void;
  /** Longest silence before a worker is taken for dead, s: of a question, and between two steps of long work. */
  readonly patienceS?: number;
  /** The same for building the air column, which takes longer for a long bore table. */
  readonly loadPatienceS?: number;
}

export class WorkerClient<Served extends Loadable> {
  readonly #options: Required<WorkerClientOptions<Served>>;
  #connection: Connection<Served> | null = null;
  #loaded: Setup | null = null;
  #loading: Promise<Refusal | { readonly ok: true }> | null = null;
  #ticket = 0;

  constructor(options: WorkerClientOptions<Served>) {
    this.#options = { onRestart: () => {}, patienceS: 8, loadPatienceS: 30, ...options };
  }

  /**
   * Stops any long work asked for before, which then answers null; an aborted one too.
   * @param progress called with steps done and asked for
   */
  protected async longWork<T>(
    setup: Setup,
    ask: (model: Served, ticket: Ticket, tell: StepProgress) => Promise<T | Refusal | null>,
    progress: StepProgress = () => {},
    signal?: AbortSignal,
  ): Promise<T | Refusal | null> {
    const ticket = ++this.#ticket;
    if (signal?.aborted) return null;
    const stop = () => void this.#connection?.model.stop(ticket);
    signal?.addEventListener("abort", stop, { once: true });
    let isOver = false;
    try {
      return await this.ask<T | null>(setup, (model, sign) => {
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

  /**
   * Loads the setup where it is not yet and asks; twice if the worker dies over it the first time. Both are sent in one
   * go: nothing can come between them, so the question is about this setup whatever is asked meanwhile.
   * @param question gets a function to call at every sign of life
   */
  protected async ask<T>(
    setup: Setup,
    question: (model: Served, sign: () => void) => Promise<T | Refusal>,
  ): Promise<T | Refusal> {
    for (let attempt = 1; ; attempt++) {
      let connection: Connection<Served> | null = null;
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

  #load(model: Served, setup: Setup): Promise<Refusal | { readonly ok: true }> {
    if (this.#loading && this.#loaded && sameToModel(this.#loaded, setup)) return this.#loading;
    this.#loaded = setup;
    this.#loading = model.load(setup);
    return this.#loading;
  }

  /** Several questions may see the same worker die; it is replaced, and told of, once. */
  #bury(connection: Connection<Served> | null): void {
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
