/** Whether something drawn has been out of date for so long that it has to look it. A hand that drags is never late. */
import type { ReactiveController, ReactiveControllerHost } from "lit";
import type { Answer } from "../model/results.ts";

const PATIENCE_MS = 250;

export class Lateness implements ReactiveController {
  isLate = false;
  readonly #host: ReactiveControllerHost;
  readonly #answer: () => Answer<unknown> | null;
  #value: unknown = null;
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(host: ReactiveControllerHost, answer: () => Answer<unknown> | null) {
    this.#host = host;
    this.#answer = answer;
    host.addController(this);
  }

  hostUpdate(): void {
    const answer = this.#answer();
    const isNew = answer?.value !== this.#value;
    this.#value = answer?.value;
    if (isNew || !answer?.stale) {
      clearTimeout(this.#timer);
      this.#timer = undefined;
      this.isLate = false;
    }
    if (!answer?.stale || this.isLate) return;
    this.#timer ??= setTimeout(() => {
      this.isLate = true;
      this.#host.requestUpdate();
    }, PATIENCE_MS);
  }

  hostDisconnected(): void {
    clearTimeout(this.#timer);
    this.#timer = undefined;
  }
}
