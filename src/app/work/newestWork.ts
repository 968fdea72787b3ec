/**
 * Work in a worker on the newest question. It is begun when the hand rests; an old answer stays, marked stale, until the new
 * one is there. Each instance has a worker of its own, which ends with `close`.
 */
import type { Refusal } from "../../../workers/modelProtocol.ts";
import { Observable } from "../state/observable.ts";

export interface WorkState<Question, Value> {
  /** What the answer is of. */
  readonly answered: Question | null;
  readonly value: Value | null;
  /** The answer is of another question than the one asked last. */
  readonly stale: boolean;
  /** Share done, 0 to 1; null when nothing is under way. */
  readonly progress: number | null;
  readonly refused: string | null;
  readonly stopped: boolean;
}

const REST_MS = 200;

export abstract class NewestWork<Question, Value extends object> extends Observable<
  WorkState<Question, Value>
> {
  #question: Question | null = null;
  #work: AbortController | null = null;
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor() {
    super({ answered: null, value: null, stale: false, progress: null, refused: null, stopped: false });
  }

  /** Whether two questions have one answer. */
  protected abstract isSame(a: Question, b: Question): boolean;
  /** null where the signal ended it. */
  protected abstract run(
    question: Question,
    progress: (done: number, of: number) => void,
    signal: AbortSignal,
  ): Promise<Value | Refusal | null>;
  /** Ends the worker. */
  protected abstract release(): void;

  /** Asks, unless this is what was asked last. */
  ask(question: Question): void {
    if (this.#question !== null && this.isSame(this.#question, question)) return;
    this.#question = question;
    this.again();
  }

  again(): void {
    this.#end();
    const { value } = this.value;
    this.change({ ...this.value, stale: value !== null, progress: 0, refused: null, stopped: false });
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
    this.release();
  }

  #end(): void {
    clearTimeout(this.#timer);
    this.#work?.abort();
    this.#work = null;
  }

  async #run(): Promise<void> {
    const question = this.#question!;
    const work = new AbortController();
    this.#work = work;
    const progress = (done: number, of: number) => this.change({ ...this.value, progress: done / of });
    const answer = await this.run(question, progress, work.signal);
    if (work.signal.aborted || answer === null) return;
    this.#work = null;
    if ("refused" in answer) this.change({ ...this.value, progress: null, refused: answer.refused });
    else this.change({ ...this.value, answered: question, value: answer, stale: false, progress: null });
  }
}
