/** Whether something drawn has been out of date for so long that it has to look it. A hand that drags is never late. */
import { css, type ReactiveController, type ReactiveControllerHost } from "lit";
import type { Answer } from "../work/work.ts";

const PATIENCE_MS = 250;

/** What is late is grey. */
export const lateStyles = css`
  .late {
    opacity: 0.4;
  }
`;

export class Lateness implements ReactiveController {
  #isLate = false;
  #value: unknown = null;
  #timer: ReturnType<typeof setTimeout> | undefined;
  readonly #host: ReactiveControllerHost;

  /** @param host drawn anew when it has become late; `isLate` says whether it still is */
  constructor(host: ReactiveControllerHost) {
    this.#host = host;
    host.addController(this);
  }

  isLate(answer: Answer<unknown> | null): boolean {
    const isNew = answer?.value !== this.#value;
    this.#value = answer?.value;
    if (isNew || !answer?.stale) this.#stop();
    if (answer?.stale && !this.#isLate)
      this.#timer ??= setTimeout(() => {
        this.#isLate = true;
        this.#host.requestUpdate();
      }, PATIENCE_MS);
    return this.#isLate;
  }

  hostDisconnected(): void {
    this.#stop();
  }

  #stop(): void {
    clearTimeout(this.#timer);
    this.#timer = undefined;
    this.#isLate = false;
  }
}
