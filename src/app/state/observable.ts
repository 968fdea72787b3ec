/** A value that changes as a whole and is read as a whole or part by part, on signals: reading it while drawing is following it. */
import { effect, signal, untracked } from "@preact/signals-core";
import { type Inner, partsOf, type Watch } from "./parts.ts";

export abstract class Observable<T extends object> {
  readonly #whole;
  /** Its parts, each followed by itself. */
  readonly parts: Readonly<T>;

  /**
   * @param inner the parts that are themselves followed part by part
   * @param watch told of a part that begins to be followed; its answer is called when nobody follows it any more
   */
  constructor(value: T, inner?: Inner<T>, watch?: Watch<T>) {
    this.#whole = signal(value);
    this.parts = partsOf(this.#whole, inner, watch);
  }

  get value(): T {
    return this.#whole.value;
  }

  /** Calls `listener` after every change, not at once. The answer unsubscribes. */
  subscribe(listener: (value: T) => void): () => void {
    let isFirst = true;
    return effect(() => {
      const { value } = this.#whole;
      if (!isFirst) untracked(() => listener(value));
      isFirst = false;
    });
  }

  protected change(value: T): void {
    this.#whole.value = value;
  }
}
