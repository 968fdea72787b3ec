/** Whether something drawn has been out of date for so long that it has to look it. A hand that drags is never late. */
import type { Answer } from "../work/work.ts";

const PATIENCE_MS = 250;

export class Lateness {
  #isLate = false;
  #value: unknown = null;
  #timer: ReturnType<typeof setTimeout> | undefined;
  readonly #onLate: () => void;

  /** @param onLate called when it has become late; `isLate` says whether it still is */
  constructor(onLate: () => void) {
    this.#onLate = onLate;
  }

  isLate(answer: Answer<unknown> | null): boolean {
    const isNew = answer?.value !== this.#value;
    this.#value = answer?.value;
    if (isNew || !answer?.stale) this.stop();
    if (answer?.stale && !this.#isLate)
      this.#timer ??= setTimeout(() => {
        this.#isLate = true;
        this.#onLate();
      }, PATIENCE_MS);
    return this.#isLate;
  }

  stop(): void {
    clearTimeout(this.#timer);
    this.#timer = undefined;
    this.#isLate = false;
  }
}
