/**
 * How the store's document feels, kept beside the model's results: asked for when someone shows it, after the hand has come
 * to rest and the model has drawn what it can at once. A hand that moves ends the work; an old answer stays, marked stale.
 */
import { Observable } from "../state/observable.ts";
import type { Store } from "../state/store.ts";
import { ASKS, type FeelKind, type FeelState, isSame, KINDS } from "./feelAsks.ts";
import type { FeelClient } from "./feelClient.ts";
import { type FeelQuestion, feelQuestion } from "./feelQuestion.ts";
import { type Answer, type ModelResults, NONE } from "./results.ts";

const REST_MS = 250;

export class FeelResults extends Observable<FeelState> {
  readonly #store: Store;
  readonly #model: ModelResults;
  readonly #client: FeelClient;
  readonly #users = new Map<FeelKind, number>();
  readonly #answered = new Map<FeelKind, FeelQuestion>();
  #question: FeelQuestion | null = null;
  #work: AbortController | null = null;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #isStopped = false;

  constructor(store: Store, model: ModelResults, client: FeelClient) {
    // what an element draws is asked for as long as it is drawn
    super({ stream: NONE, felt: NONE, slots: NONE, closed: NONE, holds: NONE, levels: NONE }, {}, (kind) =>
      this.use([kind]),
    );
    this.#store = store;
    this.#model = model;
    this.#client = client;
  }

  /** Follows the store and the model from now on. */
  start(): void {
    this.#store.subscribe(() => this.#follow());
    this.#model.subscribe(() => this.#wake());
    this.#follow();
  }

  /** Someone shows these from now on, until the answer is called. */
  use(kinds: readonly FeelKind[]): () => void {
    const count = (by: number) => {
      for (const kind of kinds) this.#users.set(kind, (this.#users.get(kind) ?? 0) + by);
    };
    count(1);
    this.#wake();
    return () => count(-1);
  }

  /** What is drawn stays; nothing more is asked until `again` or the next change. */
  stop(): void {
    this.#isStopped = true;
    this.#end({ stopped: true });
  }

  again(): void {
    this.#isStopped = false;
    this.#wake();
  }

  #follow(): void {
    const question = feelQuestion(this.#store.state.document);
    const before = this.#question;
    this.#question = question;
    if (before && KINDS.every((kind) => isSame(kind, before, question))) return;
    this.#isStopped = false;
    this.#end({});
    // a hand that drags makes all of it stale once
    for (const kind of KINDS) {
      const stale = this.#isStale(kind, question);
      if (stale !== this.value[kind].stale || this.value[kind].stopped)
        this.#set(kind, { stale, stopped: false });
    }
    clearTimeout(this.#timer);
    this.#timer = undefined;
    this.#wake();
  }

  #isStale(kind: FeelKind, question: FeelQuestion): boolean {
    const answered = this.#answered.get(kind);
    return this.value[kind].value !== null && !(answered && isSame(kind, answered, question));
  }

  /** The worker ends with its work: the hand needs the machine. */
  #end(part: { readonly stopped?: boolean }): void {
    if (!this.#work) return;
    this.#work.abort();
    this.#work = null;
    this.#client.close();
    for (const kind of KINDS)
      if (this.value[kind].progress !== null) this.#set(kind, { progress: null, ...part });
  }

  #wake(): void {
    if (this.#work || this.#timer !== undefined || this.#isStopped) return;
    if (!isCalm(this.#model) || this.#due().length === 0) return;
    this.#timer = setTimeout(() => {
      this.#timer = undefined;
      if (isCalm(this.#model)) void this.#run();
    }, REST_MS);
  }

  #due(): FeelKind[] {
    const question = this.#question;
    return KINDS.filter((kind) => {
      const answered = this.#answered.get(kind);
      return (this.#users.get(kind) ?? 0) > 0 && question && !(answered && isSame(kind, answered, question));
    });
  }

  async #run(): Promise<void> {
    const work = new AbortController();
    this.#work = work;
    const question = this.#question!;
    for (let [kind] = this.#due(); kind; [kind] = this.#due()) {
      await this.#answer(kind, question, work.signal);
      if (work.signal.aborted) return;
    }
    this.#work = null;
  }

  async #answer(kind: FeelKind, question: FeelQuestion, signal: AbortSignal): Promise<void> {
    this.#set(kind, { progress: 0 });
    const progress = (done: number, of: number) => this.#set(kind, { progress: done / of });
    const answer = await ASKS[kind].ask(this.#client, question, progress, signal);
    if (signal.aborted) return;
    this.#answered.set(kind, question);
    if (answer === null || "refused" in answer)
      this.#set(kind, {
        refused: answer?.refused ?? null,
        stale: this.value[kind].value !== null,
        progress: null,
      });
    else
      this.#set(kind, { value: answer, setup: question.setup, stale: false, refused: null, progress: null });
  }

  #set(kind: FeelKind, part: Partial<Answer<unknown>>): void {
    this.change({ ...this.value, [kind]: { ...this.value[kind], ...part } });
  }
}

/** The hand rests, and what the model can draw at once is drawn. */
const isCalm = ({ value: { explored, sweep, retuned } }: ModelResults): boolean =>
  explored.value !== null && !explored.stale && sweep.progress === null && retuned.progress === null;
