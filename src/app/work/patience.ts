/** Why a wait ended. */
export class Silence extends Error {}

/**
 * A wait that ends after so many seconds without a sign of life. Counted in ticks, each of which counts once however late
 * it comes: a machine that slept for an hour has waited one tick.
 */
export class Patience {
  /** Rejects with a `Silence` when the wait is over; never when it was stopped. */
  readonly end: Promise<never>;
  #seconds: number;
  #left: number;
  readonly #timer: ReturnType<typeof setInterval>;

  constructor(seconds: number) {
    this.#seconds = seconds;
    this.#left = seconds;
    let over: (reason: Silence) => void;
    this.end = new Promise((_, reject) => {
      over = reject;
    });
    const tickS = Math.min(1, seconds / 4);
    this.#timer = setInterval(() => {
      this.#left -= tickS;
      if (this.#left <= 0) over(new Silence(`no answer within ${this.#seconds} s`));
    }, 1000 * tickS);
  }

  /** A sign of life: the wait begins anew, from now on with another length if one is given. */
  renew(seconds = this.#seconds): void {
    this.#seconds = seconds;
    this.#left = seconds;
  }

  stop(): void {
    clearInterval(this.#timer);
  }
}
