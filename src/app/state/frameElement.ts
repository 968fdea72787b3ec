/**
 * An element that is drawn anew when something it read while it was drawn has changed (signals), at most once a frame however
 * often that is: at a hand's every step. The first change of a frame is drawn at once, so that a hand is not followed a frame
 * late.
 */
import { effect, untracked } from "@preact/signals-core";
import { LitElement, type PropertyValues } from "lit";
import { frameNumber, nextFrame } from "./frames.ts";
import { Pace } from "./pace.ts";

export abstract class FrameElement extends LitElement {
  /** From one drawing to the next: for words, which nobody reads sixty times a second. */
  protected readonly paceMs: number = 0;
  /**
   * Drawn as the next frame is made, not at once: it is seen no later, the model is asked before it is drawn, and what comes
   * until then is drawn with it.
   */
  protected readonly waitsForFrame: boolean = false;
  /** Resolves when it may be drawn anew: for what need not be there as soon as the hand's own mark is. */
  protected ready?(): Promise<void>;
  readonly #pace = new Pace();
  /** The frame it was drawn in last. */
  #drawnIn = Number.NaN;
  /** It was to be drawn while it was away. */
  #isDue = false;
  /** Ends following what was read in the last drawing. */
  #unfollow: (() => void) | null = null;

  override connectedCallback(): void {
    super.connectedCallback();
    // while it was away nothing was followed
    if (this.hasUpdated) this.requestUpdate();
    if (this.#isDue) void this.scheduleUpdate();
    this.#isDue = false;
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#unfollow?.();
    this.#unfollow = null;
  }

  protected override async scheduleUpdate(): Promise<void> {
    const waitMs = this.#pace.waitMs(this.paceMs, performance.now());
    if (waitMs > 0) await new Promise((done) => setTimeout(done, waitMs));
    else {
      if (this.ready && this.hasUpdated) await untracked(() => this.ready?.());
      if (this.#drawnIn === frameNumber() || (this.waitsForFrame && this.hasUpdated)) await nextFrame();
    }
    super.scheduleUpdate();
  }

  protected override performUpdate(): void {
    if (!this.isUpdatePending) return;
    // what has gone from the page asks for nothing any more; it is drawn when it comes back
    if (!this.isConnected) {
      this.#isDue = true;
      return;
    }
    const before = this.#unfollow;
    let isDrawing = true;
    this.#unfollow = effect(() => {
      if (isDrawing) super.performUpdate();
      else this.requestUpdate();
      isDrawing = false;
    });
    // only now: what both drawings read is followed throughout
    before?.();
  }

  protected override update(changed: PropertyValues): void {
    this.#pace.drawn(performance.now());
    this.#drawnIn = frameNumber();
    super.update(changed);
  }
}
