/**
 * Asks a worker on the page's behalf, whatever class it serves: a setup is loaded when it is first asked about; newer long
 * work ends older; a worker that has died is replaced and what it was asked is asked once more.
 */
import type { Refusal, Ticket } from "../../../workers/service/served.ts";
import { flawsOf } from "../../setup/dimension/plausible.ts";
import { SetupError } from "../../setup/problem.ts";
import type { Setup } from "../../setup/setup.ts";
import type { Connection, Methods } from "./connection.ts";
import { Patience, Silence } from "./patience.ts";
import { sameToModel, textToModel } from "./sameToModel.ts";
import { unlessEnded } from "./unlessEnded.ts";

/** What every served class answers. */
interface Loadable {
  load(setup: Setup): Promise<Refusal | { readonly ok: true }>;
  stop(ticket: number): Promise<void>;
}

export interface WorkerClientOptions<Served> {
  /** Starts a worker. */
  readonly connect: () => Connection<Served>;
  /** Told whenever a dead worker has been replaced. */
  readonly onRestart?: () => void;
  /**
   * Longest silence before a worker is taken for dead, s: of a question, and between two steps of long work. Usually 30: one
   * set of lips, or one variant with all its notes, takes its time on a slow machine.
   */
  readonly patienceS?: number;
  /** The same for building the air column, which takes longer for a long bore table. */
  readonly loadPatienceS?: number;
  /**
   * How long long work that was given up may hold up the next, ms: a worker that is within one step for longer does not hear
   * that it is to stop, and another takes its place. Usually it is waited for.
   */
  readonly deafMs?: number;
}

/** A method that takes a ticket and tells of its steps, taken apart. */
type Long<Method> = Method extends (
  request: infer Request extends Ticket,
  tell: (...step: infer Step) => void,
) => Promise<infer Answer>
  ? { readonly request: Omit<Request, "ticket">; readonly step: Step; readonly answer: Answer }
  : never;
type LongName<Served> = {
  [Name in keyof Served]: [Long<Served[Name]>] extends [never] ? never : Name;
}[keyof Served];
type AnyLong = (request: Ticket, tell: (...step: unknown[]) => void) => Promise<never>;

/** The client was closed while the answer was awaited. */
class Closed extends Error {}

/** The worker was busy with what nobody asks any more, and another took its place. */
class Replaced extends Error {}

interface Running<Served> extends Connection<Served> {
  /** Rejects when the client is closed or the worker is replaced. */
  readonly ended: Promise<never>;
  end(reason: Closed | Replaced): void;
}

export class WorkerClient<Served extends Loadable> {
  readonly #options: Required<WorkerClientOptions<Served>>;
  #running: Running<Served> | null = null;
  #loaded: Setup | null = null;
  #loading: Promise<Refusal | { readonly ok: true }> | null = null;
  #ticket = 0;

  constructor(options: WorkerClientOptions<Served>) {
    this.#options = { onRestart: () => {}, patienceS: 30, loadPatienceS: 30, deafMs: Infinity, ...options };
  }

  /**
   * Long work of the served class, by the method's name. Stops any asked for before, which then answers null; an aborted one
   * too.
   * @param setup what it is about; null where it is about none
   * @param tell what the method tells of its steps, until it is over
   */
  async run<Name extends LongName<Served>>(
    name: Name,
    setup: Setup | null,
    request: Long<Served[Name]>["request"],
    tell: (...step: Long<Served[Name]>["step"]) => void = () => {},
    signal?: AbortSignal,
  ): Promise<Long<Served[Name]>["answer"] | Refusal | null> {
    if (signal?.aborted) return null;
    const ticket = ++this.#ticket;
    let isOver = false;
    const isOvertaken = () => isOver || ticket !== this.#ticket || signal?.aborted;
    const ask = (worker: Methods<Served>, sign: () => void) => {
      if (isOvertaken()) return Promise.resolve(null);
      const methods = worker as unknown as Record<Name, AnyLong>;
      return methods[name]({ ...request, ticket }, (...step) => {
        sign();
        // a step comes by another way than the answer, and may come after it
        if (!isOvertaken()) tell(...(step as Long<Served[Name]>["step"]));
      });
    };
    const stopped = new Promise<null>((resolve) =>
      signal?.addEventListener(
        "abort",
        () => {
          if (!isOver) this.#stop(ticket);
          resolve(null);
        },
        { once: true },
      ),
    );
    try {
      return await Promise.race([
        this.ask<Long<Served[Name]>["answer"] | null>(setup, ask, undefined, () => isOvertaken() ?? false),
        stopped,
      ]);
    } finally {
      isOver = true;
    }
  }

  /**
   * Loads the setup where it is not yet and asks; twice if the worker dies over it the first time. One that can be no
   * instrument, which was kept when the limits were wider, is refused without asking: it might keep a worker busy for ever. Both are sent in one
   * go: nothing can come between them, so the question is about this setup whatever is asked meanwhile.
   * @param question gets a function to call at every sign of life
   * @param signal of what nobody asks any more: a worker at work on it cannot hear of it, so another takes its place, and
   * whatever else this one was asked is asked of that
   */
  async ask<T>(
    setup: Setup | null,
    question: (model: Methods<Served>, sign: () => void) => Promise<T | Refusal>,
    signal?: AbortSignal,
    isGivenUp = () => signal?.aborted ?? false,
  ): Promise<T | Refusal> {
    const flaws = setup ? flawsOf(setup) : [];
    if (flaws.length > 0) return { refused: new SetupError(flaws).message };
    for (let attempt = 1; ; attempt++) {
      let running: Running<Served> | null = null;
      const replace = () => this.#replace(running);
      signal?.addEventListener("abort", replace, { once: true });
      try {
        running = this.#running ??= started(this.#options.connect());
        const { model, died, ended } = running;
        const loading = this.#load(model, setup);
        const patience = new Patience(this.#options.loadPatienceS);
        loading.then(
          () => patience.renew(this.#options.patienceS),
          () => {},
        );
        try {
          const asked = Promise.all([loading, question(model, () => patience.renew())]);
          const [loaded, answer] = await unlessEnded(Promise.race([asked, patience.end]), [died, ended]);
          return "refused" in loaded ? loaded : answer;
        } finally {
          patience.stop();
        }
      } catch (reason) {
        if (reason instanceof Closed || isGivenUp()) return { refused: ENDED };
        if (reason instanceof Replaced) {
          attempt--;
          continue;
        }
        this.#discard(running);
        if (attempt === 2) return { refused: refusalOf(reason) };
      } finally {
        signal?.removeEventListener("abort", replace);
      }
    }
  }

  /** Something will soon be asked about this setup: the worker makes ready for it. A worker that dies over it is the asker's to replace. */
  expect(setup: Setup): void {
    if (flawsOf(setup).length > 0) return;
    this.#running ??= started(this.#options.connect());
    this.#load(this.#running.model, setup).catch(() => {});
  }

  /** Ends the worker and whatever it was asked; the next question starts another. */
  close(): void {
    this.#running?.end(new Closed());
    this.#running?.terminate();
    this.#forget();
  }

  #stop(ticket: number): void {
    const running = this.#running;
    const heard = running?.model.stop(ticket);
    const { deafMs } = this.#options;
    if (deafMs === Infinity) return;
    const deaf = setTimeout(() => this.#replace(running), deafMs);
    heard?.then(
      () => clearTimeout(deaf),
      () => {},
    );
  }

  #replace(running: Running<Served> | null): void {
    if (!running || running !== this.#running) return;
    running.terminate();
    this.#forget();
    running.end(new Replaced());
  }

  #load(model: Methods<Served>, setup: Setup | null): Promise<Refusal | { readonly ok: true }> {
    if (!setup) return Promise.resolve({ ok: true });
    const before = this.#loaded;
    this.#loaded = setup;
    // one that was read a second time is the same instrument in other objects
    const isSame = before && (sameToModel(before, setup) || textToModel(before) === textToModel(setup));
    if (this.#loading && isSame) return this.#loading;
    this.#loading = model.load(setup);
    return this.#loading;
  }

  /** Several questions may see the same worker die; it is replaced, and told of, once. */
  #discard(running: Running<Served> | null): void {
    running?.terminate();
    if (running !== this.#running) return;
    this.#forget();
    this.#options.onRestart();
  }

  #forget(): void {
    this.#running = null;
    this.#loaded = null;
    this.#loading = null;
  }
}

/** Long work in a worker of its own, which ends with it. */
export async function inOwnWorker<Served extends Loadable, T>(
  options: WorkerClientOptions<Served>,
  use: (client: WorkerClient<Served>) => Promise<T>,
): Promise<T> {
  const client = new WorkerClient(options);
  try {
    return await use(client);
  } finally {
    client.close();
  }
}

function started<Served>(connection: Connection<Served>): Running<Served> {
  let end = (_: Closed | Replaced) => {};
  const ended = new Promise<never>((_, reject) => {
    end = reject;
  });
  // nobody may be waiting for an answer when it ends
  ended.catch(() => {});
  return { ...connection, ended, end };
}

const ENDED = "This was ended before it was worked out.";

const refusalOf = (reason: unknown): string =>
  reason instanceof Silence
    ? "The model gives no answer for this instrument; make its bore table shorter, or go back to the setup before."
    : "The model's worker cannot run here; load the page again. What you typed is kept.";
