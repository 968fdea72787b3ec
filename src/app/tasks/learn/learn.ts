/** The task Learn: the notebooks as cards, and whether they can be read without a network. */
import { css, html, type TemplateResult } from "lit";
import { customElement, state } from "lit/decorators.js";
import { type Kept, keptWords } from "../../../words/keptNotebooks.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { sheetStyles } from "../../shell/look/sheetStyles.ts";
import { FrameElement } from "../../state/frameElement.ts";
import { NOTEBOOKS, type NotebookEntry } from "./contents.ts";
import { followKeeping } from "./keptNotebooks.ts";

@customElement("annulus-learn")
export class LearnSheet extends FrameElement {
  @state() private kept: Kept = { state: "looking" };
  #leave = () => {};

  static override styles = [
    controls,
    sheetStyles,
    css`
      main {
        max-width: 78rem;
      }
      .lead {
        max-width: 46rem;
        margin: 0.4rem 0 1.25rem;
      }
      ol {
        display: grid;
        grid-template-columns: repeat(auto-fill, minmax(min(19rem, 100%), 1fr));
        gap: 1rem;
        margin: 0;
        padding: 0;
        list-style: none;
      }
      li {
        display: grid;
      }
      .card {
        display: grid;
        grid-template-columns: 2.6rem 1fr;
        grid-template-rows: auto 1fr auto;
        gap: 0.3rem 0.25rem;
        padding: 0.9rem 1rem;
        border: 1px solid var(--hairline);
        border-top: 1.5px solid var(--ink);
        color: inherit;
        text-decoration: none;
      }
      .card:hover {
        border-color: var(--ink);
      }
      .card:hover .title {
        text-decoration: underline;
        text-underline-offset: 0.2em;
      }
      .count {
        grid-row: 1 / -1;
        font-size: var(--type-28);
        font-weight: 650;
        line-height: 1;
        color: var(--muted);
      }
      .card:hover .count {
        color: var(--gap);
      }
      .title {
        font-size: var(--type-20);
        font-weight: 650;
        line-height: 1.2;
        text-wrap: balance;
      }
      .about {
        line-height: 1.4;
        text-wrap: pretty;
      }
      .who {
        margin-top: 0.4rem;
        color: var(--muted);
        font-size: var(--type-14);
      }
      .offline {
        display: flex;
        align-items: center;
        flex-wrap: wrap;
        gap: 0.5rem;
        min-height: var(--touch);
        margin-top: 1.25rem;
        color: var(--muted);
        font-size: var(--type-14);
      }
      @media print {
        .offline {
          display: none;
        }
      }
    `,
  ];

  override connectedCallback(): void {
    super.connectedCallback();
    this.#leave = followKeeping(new URL("notebooks/", document.baseURI), (kept) => {
      this.kept = kept;
    });
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#leave();
  }

  override render() {
    return html`
      <main>
        <h2>Learn</h2>
        <p class="lead">
          How this tool works, what it can say and what it cannot, in pages that compute as you read. Move what can be moved.
        </p>
        <ol>
          ${NOTEBOOKS.map((entry, i) => html`<li>${card(entry, i + 1)}</li>`)}
        </ol>
        <div class="offline" role="status" data-testid="notebooks-kept">${this.#state()}</div>
      </main>
    `;
  }

  #state(): TemplateResult {
    const { kept } = this;
    return html`
      ${kept.state === "missing" ? icon("warning") : ""}<span>${keptWords(kept)}</span>
      ${kept.state === "keeping" ? html`<progress max=${kept.of} .value=${kept.done} aria-label="Keeping the notebooks"></progress>` : ""}
    `;
  }
}

const card = ({ name, title, about, forWhom, minutes }: NotebookEntry, count: number) => html`
  <a class="card" href="./notebooks/${name}.html" data-testid="notebook-${name}">
    <span class="count" aria-hidden="true">${count}</span>
    <span class="title">${title}</span>
    <span class="about">${about}</span>
    <span class="who">For ${forWhom}. About ${minutes} minutes.</span>
  </a>
`;
