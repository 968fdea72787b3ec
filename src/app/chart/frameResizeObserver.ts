/**
 * A ResizeObserver that tells in the frame after: what is drawn to a width changes its own height, and done at once that is
 * an error on the console of some browsers, a resize that goes round in a loop.
 */
export class FrameResizeObserver extends ResizeObserver {
  #isEnded = false;

  constructor(tell: ResizeObserverCallback) {
    super((entries) =>
      requestAnimationFrame(() => {
        if (!this.#isEnded) tell(entries, this);
      }),
    );
  }

  override observe(target: Element, options?: ResizeObserverOptions): void {
    this.#isEnded = false;
    super.observe(target, options);
  }

  override disconnect(): void {
    this.#isEnded = true;
    super.disconnect();
  }
}
