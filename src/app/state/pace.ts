/**
 * How soon something may be drawn again. Drawings stand apart by the pace, but that the second after a rest does not wait: a
 * hand's first step makes what was said out of date before there is something new to say.
 */
export class Pace {
  /** When it was drawn last, and when before that, ms. */
  #last = Number.NEGATIVE_INFINITY;
  #before = Number.NEGATIVE_INFINITY;

  /** How long the next drawing has to wait, ms; none where that is not above 0. */
  waitMs(paceMs: number, now: number): number {
    return Math.min(this.#last + paceMs, this.#before + 2 * paceMs) - now;
  }

  drawn(now: number): void {
    this.#before = this.#last;
    this.#last = now;
  }
}
