/**
 * Which two gaps the model compares: the document's what-if and the gap it is compared with; or, while a report is in sight,
 * those that the report tells of, wherever the slider stands. In still air, except for who explores it under a breath.
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
  #isBlown = false;

  constructor(store: Store) {
    super(compared(store.state, null, false));
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

  /** The document's breath counts from now on, or no longer: what is measured, cut and reported is told of still air. */
  blow(isBlown: boolean): void {
    if (this.#isBlown === isBlown) return;
    this.#isBlown = isBlown;
    this.#follow();
  }

  #follow(): void {
    const next = compared(this.#store.state, this.#pair, this.#isBlown);
    const { document, view } = this.value;
    const isSame =
      next.view === view &&
      next.document.setup === document.setup &&
      next.document.notes === document.notes &&
      next.document.gapMm === document.gapMm &&
      next.document.breathLitresPerMinute === document.breathLitresPerMinute &&
      next.document.referenceGapMm === document.referenceGapMm;
    if (!isSame) this.change(next);
  }
}

function compared({ document, view }: State, pair: GapPair | null, isBlown: boolean): Compared {
  const { breathLitresPerMinute, ...still } = document;
  const isStill = isBlown || breathLitresPerMinute === undefined ? document : still;
  return { document: pair ? { ...isStill, ...pair } : isStill, view };
}
