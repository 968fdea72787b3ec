/**
 * An element that is drawn at most once a frame, and only when something it shows is new, however often the store changes
 * in between: at a hand's every step. The first news of a frame is drawn at once, so that a hand is not followed a frame late.
 */
import { LitElement, type PropertyValues } from "lit";

export abstract class FrameElement extends LitElement {
  /** Shortest time from one drawing to the next: for words, which nobody reads sixty times a second. */
  protected readonly paceMs: number = 0;
  #shown: readonly unknown[] = [];
  #drawnAt = Number.NEGATIVE_INFINITY;
  #isDrawn = false;

  /** What is shown, beside the element's own properties; drawn anew when one of these is another. */
  protected abstract news(): readonly unknown[];

  protected override async scheduleUpdate(): Promise<void> {
    const waitMs = this.#drawnAt + this.paceMs - performance.now();
    if (waitMs > 0) await new Promise((done) => setTimeout(done, waitMs));
    else if (this.#isDrawn) await new Promise(requestAnimationFrame);
    super.scheduleUpdate();
  }

  protected override shouldUpdate(changed: PropertyValues): boolean {
    const news = this.news();
    const isNew = !this.hasUpdated || changed.size > 0 || news.some((one, i) => one !== this.#shown[i]);
    this.#shown = news;
    return isNew;
  }

  protected override update(changed: PropertyValues): void {
    if (this.paceMs > 0) this.#drawnAt = performance.now();
    this.#isDrawn = true;
    requestAnimationFrame(() => {
      this.#isDrawn = false;
    });
    super.update(changed);
  }
}
