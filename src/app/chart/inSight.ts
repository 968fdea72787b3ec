/** What is in sight is drawn at once, and what nobody sees once the hand rests. */
import type { ReactiveController } from "lit";
import type { FrameElement } from "../state/frameElement.ts";

const REST_MS = 150;

export class InSight implements ReactiveController {
  readonly #seen = new WeakMap<Element, boolean>();
  readonly #observer: IntersectionObserver;
  #resting: ReturnType<typeof setTimeout> | undefined;

  /** @param host is drawn anew when something of it comes into sight */
  constructor(host: FrameElement) {
    this.#observer = new IntersectionObserver((entries) => {
      for (const { target, isIntersecting } of entries) this.#seen.set(target, isIntersecting);
      if (entries.some(({ isIntersecting }) => isIntersecting)) host.requestUpdate();
    });
    host.addController(this);
  }

  /** Whether it is in sight, as far as is known: what is new may be. */
  has(element: Element): boolean {
    this.#observer.observe(element);
    return this.#seen.get(element) ?? true;
  }

  /** Draws once the hand has rested; not what waited before. */
  atRest(draw: () => void): void {
    clearTimeout(this.#resting);
    this.#resting = setTimeout(draw, REST_MS);
  }

  hostDisconnected(): void {
    this.#observer.disconnect();
    clearTimeout(this.#resting);
  }
}
