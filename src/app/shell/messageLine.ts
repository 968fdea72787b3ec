/** One line for the person, over the sheet and never in its way: what was done, or what went wrong and what would be right. */

import { css, html, nothing, type PropertyValues } from "lit";
import { customElement } from "lit/decorators.js";
import { PageElement } from "../state/page.ts";
import type { Document, Message } from "../state/state.ts";
import { controls } from "./look/controls.ts";
import { icon } from "./look/icon.ts";
import type { Route } from "./route.ts";

/** A note that asks nothing goes by itself; one that offers something, when the person goes on to something else. */
const READ_S = 8;
/** A change of task till then belongs to what the note tells. */
const SETTLED_S = 2;

@customElement("annulus-message")
export class MessageLine extends PageElement {
  #shown: Message | null = null;
  #shownIn: { readonly route: Route; readonly document: Document; readonly at: number } | null = null;
  #timer: ReturnType<typeof setTimeout> | undefined;

  static override styles = [
    controls,
    css`
      :host {
        position: sticky;
        top: 0;
        z-index: 30;
        display: block;
        height: 0;
      }
      .line {
        position: absolute;
        top: 0.5rem;
        left: 50%;
        translate: -50% 0;
        width: max-content;
        max-width: min(46rem, calc(100vw - 1.5rem));
        display: flex;
        align-items: center;
        gap: 0.75rem;
        padding: 0.25rem 0.25rem 0.25rem 0.75rem;
        background: var(--paper);
        border: 1.5px solid var(--ink);
        border-radius: 3px;
        box-shadow: 0 4px 16px rgb(0 0 0 / 18%);
      }
      .error {
        border-left: 6px solid var(--gap);
      }
      @media print {
        :host {
          display: none;
        }
      }
    `,
  ];

  override render() {
    const { store } = this.page;
    const { parts: state } = store;
    const { message } = state;
    return html`
      <div role="status">${message?.kind === "note" ? this.#line(message, () => store.clearMessage()) : nothing}</div>
      <div role="alert">${message?.kind === "error" ? this.#line(message, () => store.clearMessage()) : nothing}</div>
    `;
  }

  protected override updated(_: PropertyValues): void {
    const { store } = this.page;
    const { parts: state } = store;
    const { message } = state;
    if (message === this.#shown) {
      if (message?.kind === "note" && this.#isPast()) store.clearMessage();
      return;
    }
    this.#shown = message;
    this.#shownIn = { route: this.page.router.value, document: store.state.document, at: performance.now() };
    clearTimeout(this.#timer);
    if (message?.kind !== "note" || message.offer) return;
    this.#timer = setTimeout(() => {
      if (store.state.message === message) store.clearMessage();
    }, 1000 * READ_S);
  }

  /** Whether the person has gone on: to another task, or to other work once it could be read. */
  #isPast(): boolean {
    const { route, document, at } = this.#shownIn!;
    const shownS = (performance.now() - at) / 1000;
    return (
      (this.page.router.value !== route && shownS > SETTLED_S) ||
      (this.page.store.state.document !== document && shownS > READ_S)
    );
  }

  #line({ kind, text, offer }: Message, close: () => void) {
    const accept = () => {
      close();
      offer?.accept();
    };
    return html`
      <div class="line ${kind}" data-testid="message">
        ${kind === "error" ? icon("warning") : icon("info")}
        <span>${text}</span>
        ${offer ? html`<button type="button" @click=${accept}>${offer.label}</button>` : nothing}
        <button type="button" class="plain square" aria-label="Close this message" @click=${close}>${icon("xmark")}</button>
      </div>
    `;
  }
}
