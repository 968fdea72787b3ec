/** A value that changes as a whole, and whoever wants to know. Listeners hear only of real changes, in the order they came. */
export class Observable<T> {
  #value: T;
  readonly #listeners = new Set<(value: T) => void>();

  constructor(value: T) {
    this.#value = value;
  }

  get value(): T {
    return this.#value;
  }

  /** Calls `listener` after every change, not at once. The answer unsubscribes. */
  subscribe(listener: (value: T) => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  protected change(value: T): void {
    if (Object.is(value, this.#value)) return;
    this.#value = value;
    for (const listener of [...this.#listeners]) if (this.#listeners.has(listener)) listener(this.#value);
  }
}
