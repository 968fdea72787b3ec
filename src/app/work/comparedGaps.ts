/**
 * Which two gaps the model compares: the document's what-if and the gap it is compared with; or, while a report is in sight,
 * those that the report tells of, wherever the slider stands.
 */
import { Observable } from "../state/observable.ts";
import type { State } from "../state/state.ts";
import type { Store } from "../state/store.ts";

export interface GapPair {
  readonly gapMm: number;
  readonly referenceGapMm: number;
}

/** What the model and the lips are asked about. */
export type Compared = Pick<State, "document" | "view">;

export class ComparedGaps extends Observable<Compared> {
  readonly #store: Store;
  #pair: GapPair | null = null;

  constructor(store: Store) {
    super(compared(store.state, null));
    this.#store = store;
    store.subscribe(() => this.#follow());
  }

  /** Compares these from now on; null goes back to the document's own. */
  show(pair: GapPair | null): void {
    const isSame = pair?.gapMm === this.#pair?.gapMm && pair?.referenceGapMm === this.#pair?.referenceGapMm;
    if (isSame) return;
    this.#pair = pair;
    this.#follow();
  }

  #follow(): void {
    const next = compared(this.#store.state, this.#pair);
    const { document, view } = this.value;
    const isSame =
      next.view === view &&
      next.document.setup === document.setup &&
      next.document.notes === document.notes &&
      next.document.gapMm === document.gapMm &&
      next.document.referenceGapMm === document.referenceGapMm;
    if (!isSame) this.change(next);
  }
}

const compared = ({ document, view }: State, pair: GapPair | null): Compared => ({
  document: pair ? { ...document, ...pair } : document,
  view,
});
