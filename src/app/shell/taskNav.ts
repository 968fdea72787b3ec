/** The way from task to task: links, so that each has an address to keep and to open beside another. */

import { css, html } from "lit";
import { customElement } from "lit/decorators.js";
import { TASKS_IN_ORDER } from "../../words/tasks.ts";
import { PageElement } from "../state/page.ts";
import { writeHash } from "./route.ts";

@customElement("annulus-tasks")
export class TaskNav extends PageElement {
  static override styles = css`
    nav {
      position: relative;
      display: flex;
      gap: 0.25rem;
      padding: 0 calc(var(--edge) - 0.6rem);
      border-bottom: 1px solid var(--hairline);
      overflow-x: auto;
      scrollbar-width: thin;
    }
    a {
      display: inline-flex;
      align-items: center;
      min-height: var(--touch);
      padding: 0 0.6rem;
      color: inherit;
      font-size: var(--type-14);
      text-decoration: none;
      white-space: nowrap;
    }
    a:hover {
      text-decoration: underline;
      text-underline-offset: 0.3em;
    }
    a[aria-current="page"] {
      font-weight: 650;
      box-shadow: inset 0 -3px 0 var(--ink);
    }
    a:focus-visible {
      outline: 2px solid var(--ink);
      outline-offset: -2px;
    }
    @media print {
      nav {
        display: none;
      }
    }
  `;

  override connectedCallback(): void {
    super.connectedCallback();
    document.fonts.addEventListener("loadingdone", this.#onLetters);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    document.fonts.removeEventListener("loadingdone", this.#onLetters);
  }

  /** The page's own letters, which come late, have other widths. */
  readonly #onLetters = (): void => this.requestUpdate();

  /** Where the links do not all fit, the one to where we are is in sight. */
  protected override updated(): void {
    const nav = this.renderRoot.querySelector("nav")!;
    const room = nav.getBoundingClientRect();
    const link = nav.querySelector("[aria-current=page]")!.getBoundingClientRect();
    // a link ends within a pixel, and what is scrolled by are whole ones
    nav.scrollLeft +=
      Math.max(0, Math.ceil(link.right - room.right)) + Math.min(0, Math.floor(link.left - room.left));
  }

  override render() {
    const { task } = this.page.router.parts;
    const shown = task === "edit" ? "explore" : task;
    return html`
      <nav aria-label="Tasks">
        ${TASKS_IN_ORDER.map(
          (link) => html`
            <a
              href=${writeHash(link.task)}
              data-testid="task-${link.task}"
              aria-current=${link.task === shown ? "page" : "false"}
              >${link.name}</a
            >
          `,
        )}
      </nav>
    `;
  }
}
