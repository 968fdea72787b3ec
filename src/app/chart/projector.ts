/**
 * One figure at a time over the whole screen, to be read from the back of a hall: drawn as for a sheet 732 px wide and enlarged,
 * type and all, so that the smallest type, 12 px there, is 30 px on a screen of 1920. Arrow keys, or a presenter's Page keys, go
 * from figure to figure.
 */
import { css, html, nothing, type TemplateResult } from "lit";
import { customElement, property, query, state } from "lit/decorators.js";
import { keyed } from "lit/directives/keyed.js";
import { shownGaps } from "../../setup/gapLimits.ts";
import { bothUnits } from "../../words/numbers.ts";
import { PROJECTOR_KEYS, type ProjectedName, TEACHER_NOTE } from "../../words/teacherNotes.ts";
import { controls } from "../shell/look/controls.ts";
import { icon } from "../shell/look/icon.ts";
import { PageElement } from "../state/page.ts";
import type { Enlarged } from "./chartElement.ts";

/** Width that a figure is drawn for, px. */
const DRAWN_PX = 732;
/** Left free on either side of it, and above and below together for what is said of it, screen px. */
const EDGE_PX = 40;
const WORDS_PX = 146;
/** Of a step of the gap, mm: a tenth of a millimetre, or five thousandths of an inch. */
const STEP_MM = { mm: 0.1, in: 0.127 } as const;

export interface ProjectedFigure {
  readonly name: ProjectedName;
  readonly title: string;
  readonly chart: (enlarged: Enlarged) => TemplateResult;
  /** What is switched in it. */
  readonly switches?: TemplateResult;
}

@customElement("annulus-projector")
export class Projector extends PageElement {
  @property({ attribute: false }) figures: readonly ProjectedFigure[] = [];
  @state() private at: number | null = null;
  @query("dialog") private readonly dialog!: HTMLDialogElement | null;

  static override styles = [
    controls,
    css`
      dialog {
        width: 100vw;
        height: 100vh;
        max-width: none;
        max-height: none;
        margin: 0;
        padding: 0;
        border: 0;
        background: var(--paper);
        color: var(--ink);
      }
      .page {
        display: grid;
        grid-template-columns: minmax(0, 1fr);
        grid-template-rows: max-content minmax(0, 1fr) max-content;
        min-height: 100%;
        padding: 8px 40px;
      }
      header {
        display: flex;
        flex-wrap: wrap;
        align-items: baseline;
        justify-content: space-between;
        gap: 0 2rem;
        font-size: clamp(16px, 1.5625vw, 30px);
        line-height: 1.3;
      }
      h2 {
        font-size: clamp(20px, 1.8vw, 34px);
        font-weight: 650;
      }
      .gap {
        color: var(--gap);
        font-weight: 650;
      }
      .figure {
        align-self: center;
        min-width: 0;
      }
      footer {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        justify-content: space-between;
        gap: 0.25rem 2rem;
        font-size: 16px;
        color: var(--muted);
      }
      footer p {
        flex: 1 1 24rem;
        max-width: 110ch;
        text-wrap: pretty;
      }
      nav {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 0.5rem;
        white-space: nowrap;
      }
    `,
  ];

  override connectedCallback(): void {
    super.connectedCallback();
    addEventListener("resize", this.#onResize);
    // wherever the focus is: what had it goes with its figure
    addEventListener("keydown", this.#onKey, { capture: true });
    addEventListener("keyup", this.#onKeyUp);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    removeEventListener("resize", this.#onResize);
    removeEventListener("keydown", this.#onKey, { capture: true });
    removeEventListener("keyup", this.#onKeyUp);
    this.at = null;
  }

  override render() {
    return html`
      <button type="button" data-testid="projector" @click=${() => this.#show(0)}>Show on a projector</button>
      ${this.at === null ? nothing : this.#page(this.at)}
    `;
  }

  #page(at: number) {
    const { name, title, chart, switches } = this.figures[at];
    const { gapMm, referenceGapMm } = this.page.store.parts.document;
    const { unit } = this.page.store.parts.view;
    const zoom = Math.max(1, (innerWidth - 2 * EDGE_PX) / DRAWN_PX);
    const enlarged = { zoom, heightPx: Math.max(240 * zoom, innerHeight - WORDS_PX) };
    return html`
      <dialog aria-label="Projector" data-testid="projector-page" @close=${() => this.#leave()}>
        <div class="page">
          <header>
            <h2 data-testid="projector-title">${title}</h2>
            <span><span class="gap" data-testid="projector-gap">gap ${bothUnits(gapMm, unit)}</span>, compared with ${bothUnits(referenceGapMm, unit)}</span>
          </header>
          <div class="figure">${keyed(name, chart(enlarged))}</div>
          <footer>
            <p data-testid="projector-note">${TEACHER_NOTE[name]}</p>
            <nav aria-label="Figures">
              ${switches ?? nothing}
              <span>${PROJECTOR_KEYS}</span>
              <button type="button" class="square" aria-label="Figure before" ?disabled=${at === 0} @click=${() => this.#show(at - 1)}>‹</button>
              <span data-testid="projector-place">${at + 1} of ${this.figures.length}</span>
              <button type="button" class="square" aria-label="Next figure" ?disabled=${at === this.figures.length - 1} @click=${() => this.#show(at + 1)}>›</button>
              <button type="button" class="square" aria-label="Back to the page" @click=${() => this.dialog?.close()}>${icon("xmark")}</button>
            </nav>
          </footer>
        </div>
      </dialog>
    `;
  }

  protected override updated(): void {
    if (this.dialog && !this.dialog.open) this.dialog.showModal();
  }

  #show(at: number): void {
    if (at >= 0 && at < this.figures.length) this.at = at;
  }

  #leave(): void {
    this.at = null;
  }

  /** Before the figure's own keys: here they go from figure to figure, and move the gap. */
  readonly #onKey = (event: KeyboardEvent): void => {
    if (this.at === null || event.ctrlKey || event.metaKey || event.altKey) return;
    // a choice of a list has its own arrows
    if (event.composedPath()[0] instanceof HTMLSelectElement) return;
    const turn = TURNS[event.key];
    const widen = event.key === "ArrowUp" ? 1 : event.key === "ArrowDown" ? -1 : 0;
    if (turn === undefined && widen === 0) return;
    event.preventDefault();
    event.stopPropagation();
    if (turn !== undefined) this.#show(this.at + turn);
    else this.#moveGap(widen);
  };

  #moveGap(direction: number): void {
    const { store } = this.page;
    const { document, view } = store.state;
    const { leastMm, mostMm } = shownGaps(document.setup);
    const toMm = document.gapMm + direction * STEP_MM[view.unit];
    store.setGap(Math.min(mostMm, Math.max(leastMm, toMm)), { commit: false });
  }

  /** A run of keys is one step of undo. */
  readonly #onKeyUp = ({ key }: KeyboardEvent): void => {
    const { store } = this.page;
    if (this.at === null) return;
    if (key === "ArrowUp" || key === "ArrowDown") store.setGap(store.state.document.gapMm);
  };

  readonly #onResize = (): void => this.requestUpdate();
}

const TURNS: Readonly<Record<string, 1 | -1>> = {
  ArrowRight: 1,
  PageDown: 1,
  ArrowLeft: -1,
  PageUp: -1,
};
