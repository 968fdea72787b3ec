/** How wide a part of an element is laid out, for what is drawn to it: the element is drawn anew when that changes. */
import type { ReactiveController } from "lit";
import type { FrameElement } from "../state/frameElement.ts";
import { FrameResizeObserver } from "./frameResizeObserver.ts";

export class DrawnWidth implements ReactiveController {
  readonly #host: FrameElement;
  readonly #part: string;
  readonly #observer: FrameResizeObserver;
  #observed: Element | null = null;
  #px = 0;

  /**
   * @param part selector of the part, in the host's own tree
   * @param widthOf CSS px of it that are drawn to: its content's width, unless something else is
   */
  constructor(
    host: FrameElement,
    part: string,
    widthOf = ({ contentRect }: ResizeObserverEntry): number => contentRect.width,
  ) {
    this.#host = host;
    this.#part = part;
    this.#observer = new FrameResizeObserver((entries) => {
      const px = Math.floor(widthOf(entries.at(-1)!));
      if (px === this.#px) return;
      this.#px = px;
      host.requestUpdate();
    });
    host.addController(this);
  }

  /** Whole CSS px; 0 until it is laid out. */
  get px(): number {
    return this.#px;
  }

  /** Also when the host comes back to the page: it is drawn then. */
  hostUpdated(): void {
    const part = this.#host.renderRoot.querySelector(this.#part);
    if (part === this.#observed) return;
    this.#observer.disconnect();
    this.#observed = part;
    if (part) this.#observer.observe(part);
  }

  hostDisconnected(): void {
    this.#observer.disconnect();
    this.#observed = null;
  }
}
