/**
 * The change between the store's two gaps by drawing instruments, on demand: in a worker of its own, so that the hand on the
 * shank is not slowed, which ends with the work.
 */
import type { Setup } from "../../setup/setup.ts";
import type { MonteCarlo } from "../../study/uncertainty/monteCarlo.ts";
import { Observable } from "../state/observable.ts";
import type { Document } from "../state/state.ts";
import { ModelClient } from "./modelClient.ts";
import { openModelWorker } from "./modelConnection.ts";
import { sameToModel } from "./sameToModel.ts";

/** What was drawn, and for which instrument and gaps. */
export interface DrawnAnswer {
  readonly monteCarlo: MonteCarlo;
  readonly setup: Setup;
  readonly gapMm: number;
  readonly referenceGapMm: number;
}

export interface DrawsState {
  readonly answer: DrawnAnswer | null;
  /** Share done, 0 to 1; null when nothing is being drawn. */
  readonly progress: number | null;
  readonly refused: string | null;
}

/** Good for a standard deviation to 5, 2.2 and 1 %. */
export const TRIALS = [200, 1000, 5000] as const;
export type Trials = (typeof TRIALS)[number];

export class Draws extends Observable<DrawsState> {
  #work: AbortController | null = null;

  constructor() {
    super({ answer: null, progress: null, refused: null });
  }

  /** Draws for what the document shows now; whatever was being drawn before is stopped. */
  async start({ setup, gapMm, referenceGapMm }: Document, trials: Trials): Promise<void> {
    this.stop();
    const work = new AbortController();
    this.#work = work;
    const client = new ModelClient({ connect: openModelWorker });
    this.change({ answer: this.value.answer, progress: 0, refused: null });
    const progress = (done: number, of: number) => {
      if (!work.signal.aborted) this.change({ ...this.value, progress: done / of });
    };
    try {
      const options = { gapMm, referenceGapMm, trials };
      const drawn = await client.draw(setup, options, progress, work.signal);
      if (work.signal.aborted || drawn === null) return;
      if ("refused" in drawn) this.change({ ...this.value, progress: null, refused: drawn.refused });
      else {
        const answer = { monteCarlo: drawn, setup, gapMm, referenceGapMm };
        this.change({ answer, progress: null, refused: null });
      }
    } finally {
      client.close();
    }
  }

  /** What was drawn before stays. */
  stop(): void {
    this.#work?.abort();
    this.#work = null;
    if (this.value.progress !== null) this.change({ ...this.value, progress: null });
  }
}

/** Whether an answer is about what the document shows now. */
export const isAbout = (answer: DrawnAnswer, { setup, gapMm, referenceGapMm }: Document): boolean =>
  sameToModel(answer.setup, setup) && answer.gapMm === gapMm && answer.referenceGapMm === referenceGapMm;
