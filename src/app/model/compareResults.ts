/**
 * The newest comparison that was asked for. It is begun when the hand rests; an old one stays, marked stale, until the new one
 * is there. Each instance has a worker of its own, which ends with `close`.
 */
import type { ComparedVariant, CompareWorker } from "../../../workers/compareProtocol.ts";
import { Observable } from "../store/observable.ts";
import { CompareClient, type CompareQuestion } from "./compareClient.ts";
import { sameToModel } from "./sameToModel.ts";
import type { Connection } from "./workerClient.ts";

export interface CompareState {
  /** What the answer is of. */
  readonly answered: CompareQuestion | null;
  readonly value: readonly ComparedVariant[] | null;
  /** The answer is of another question than the one asked last. */
  readonly stale: boolean;
  /** Share done, 0 to 1; null when nothing is under way. */
  readonly progress: number | null;
  readonly refused: string | null;
  readonly stopped: boolean;
}

const REST_MS = 200;

export class CompareResults extends Observable<CompareState> {
  readonly #client: CompareClient;
  #question: CompareQuestion | null = null;
  #work: AbortController | null = null;
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(connect: () => Connection<CompareWorker>) {
    super({ answered: null, value: null, stale: false, progress: null, refused: null, stopped: false });
    this.#client = new CompareClient(connect);
  }

  /** Asks, unless this is what was asked last. */
  ask(question: CompareQuestion): void {
    if (this.#question && isSame(this.#question, question)) return;
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
    this.#client.close();
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
    const answer = await this.#client.compare(question, progress, work.signal);
    if (work.signal.aborted || answer === null) return;
    this.#work = null;
    if ("refused" in answer) this.change({ ...this.value, progress: null, refused: answer.refused });
    else this.change({ ...this.value, answered: question, value: answer, stale: false, progress: null });
  }
}

/** A new name is no new instrument. */
function isSame(a: CompareQuestion, b: CompareQuestion): boolean {
  const { variants: ofA, ...optionsA } = a;
  const { variants: ofB, ...optionsB } = b;
  return (
    ofA.length === ofB.length &&
    ofA.every(({ setup, gapMm }, i) => gapMm === ofB[i].gapMm && sameToModel(setup, ofB[i].setup)) &&
    JSON.stringify(optionsA) === JSON.stringify(optionsB)
  );
}
