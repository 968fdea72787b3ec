/**
 * What the model says about the store's document: kept beside the store, asked for anew as the document changes. An old
 * answer stays, marked stale, until the new one is there.
 */
import type { Refusal } from "../../../workers/modelProtocol.ts";
import type { Setup } from "../../setup/setup.ts";
import type { Explored } from "../../study/instrument/exploration.ts";
import type { GapSweep } from "../../study/instrument/gapSweep.ts";
import { sweptGapsMm } from "../state/gapLimits.ts";
import { Observable } from "../state/observable.ts";
import type { State } from "../state/state.ts";
import type { Store } from "../state/store.ts";
import { type ModelClient, SUPERSEDED } from "./modelClient.ts";
import { sameToModel } from "./sameToModel.ts";

/** One answer of the model. */
export interface Answer<T> {
  /** The newest there is, also when it is stale; null before the first. */
  readonly value: T | null;
  /** The setup that `value` is about. */
  readonly setup: Setup | null;
  /** `value` is about a document that has since changed. */
  readonly stale: boolean;
  /** Why there is no new value: what is wrong, where, what would be right. */
  readonly refused: string | null;
  /** Share done, 0 to 1, of long work; null when none is under way. */
  readonly progress: number | null;
  /** The person stopped it before it was done. */
  readonly stopped: boolean;
}

export interface Results {
  readonly explored: Answer<Explored>;
  /** Every resonance at every gap shown, the slide as it is. */
  readonly sweep: Answer<GapSweep>;
  /** The same with the slide bringing `view.retune` back; empty while that is null. */
  readonly retuned: Answer<GapSweep>;
}

/** Nothing asked, nothing known. */
export const NONE = {
  value: null,
  setup: null,
  stale: false,
  refused: null,
  progress: null,
  stopped: false,
} as const;

export class ModelResults extends Observable<Results> {
  readonly #store: Store;
  readonly #client: ModelClient;
  #explored: State | null = null;
  #swept: State | null = null;
  #sweeping = new AbortController();

  constructor(store: Store, client: ModelClient) {
    super({ explored: NONE, sweep: NONE, retuned: NONE });
    this.#store = store;
    this.#client = client;
  }

  /** Follows the store from now on. */
  start(): void {
    this.#store.subscribe((state) => this.#follow(state));
    this.#follow(this.#store.state);
  }

  /** Stops long work; what is drawn stays, marked stale, until `sweepAgain` or the next change. */
  stopSweeps(): void {
    this.#sweeping.abort();
    for (const which of ["sweep", "retuned"] as const)
      if (this.value[which].progress !== null) this.#set(which, { progress: null, stopped: true });
  }

  sweepAgain(): void {
    void this.#sweep(this.#store.state);
  }

  #follow(state: State): void {
    if (!this.#explored || exploresAnew(this.#explored, state)) void this.#explore(state);
    if (!this.#swept || sweepsAnew(this.#swept, state)) void this.#sweep(state);
  }

  async #explore(state: State): Promise<void> {
    this.#explored = state;
    const { setup, gapMm, referenceGapMm } = state.document;
    if (this.value.explored.value) this.#set("explored", { stale: true });
    const answer = await this.#client.explore({
      setup,
      gapMm,
      referenceGapMm,
      resonance: state.view.resonance,
      retune: state.view.retune,
    });
    // an answer to an older question is still nearer to the newest than what is drawn
    if (answer === SUPERSEDED) return;
    this.#take("explored", setup, answer, state !== this.#explored);
    // a setup's first answer does not wait for the uncertainties
    if ("verdicts" in answer && answer.uncertainty === null && state === this.#explored)
      void this.#explore(state);
  }

  async #sweep(state: State): Promise<void> {
    this.#swept = state;
    this.#sweeping.abort();
    this.#sweeping = new AbortController();
    const { signal } = this.#sweeping;
    const { setup, referenceGapMm } = state.document;
    const { retune } = state.view;
    const gapsMm = sweptGapsMm(setup);
    const run = async (which: "sweep" | "retuned", options: { readonly retune?: number }) => {
      const progress = (done: number, of: number) => this.#set(which, { progress: done / of });
      const answer = await this.#client.sweep(
        setup,
        { gapsMm, referenceGapMm, ...options },
        progress,
        signal,
      );
      if (!signal.aborted && answer) this.#take(which, setup, answer, false);
    };
    this.#set("sweep", { stale: this.value.sweep.value !== null, progress: 0, stopped: false });
    if (retune === null) this.change({ ...this.value, retuned: NONE });
    else this.#set("retuned", { stale: this.value.retuned.value !== null, progress: 0, stopped: false });
    await run("sweep", {});
    if (retune !== null && !signal.aborted) await run("retuned", { retune });
  }

  #take<K extends keyof Results>(
    which: K,
    setup: Setup,
    answer: NonNullable<Results[K]["value"]> | Refusal,
    stale: boolean,
  ): void {
    if ("refused" in answer)
      this.#set(which, { refused: answer.refused, stale: this.value[which].value !== null, progress: null });
    else this.#set(which, { value: answer, setup, stale, refused: null, progress: null });
  }

  #set<K extends keyof Results>(which: K, part: Partial<Answer<NonNullable<Results[K]["value"]>>>): void {
    this.change({ ...this.value, [which]: { ...this.value[which], ...part } });
  }
}

const exploresAnew = (a: State, b: State): boolean =>
  !sameToModel(a.document.setup, b.document.setup) ||
  a.document.gapMm !== b.document.gapMm ||
  a.document.referenceGapMm !== b.document.referenceGapMm ||
  a.view.resonance !== b.view.resonance ||
  a.view.retune !== b.view.retune;

const sweepsAnew = (a: State, b: State): boolean =>
  !sameToModel(a.document.setup, b.document.setup) ||
  a.document.referenceGapMm !== b.document.referenceGapMm ||
  a.view.retune !== b.view.retune;
