/** The gap as a person types it, with its unit. What cannot be read, or cannot be, stays as typed with the reason beside it. */

import { css, html, nothing } from "lit";
import { customElement, state } from "lit/decorators.js";
import { gapLimits } from "../../../setup/gapLimits.ts";
import { formatLength } from "../../../units/formatLength.ts";
import { InputError } from "../../../units/inputError.ts";
import { parseLengthMm } from "../../../units/length.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { PageElement } from "../../state/page.ts";
import { fetchArithmetic, isReadable } from "../arithmetic.ts";

@customElement("annulus-gap-field")
export class GapField extends PageElement {
  protected override readonly waitsForFrame = true;
  protected override readonly ready = () => this.page.model.pictured();
  /** What is being typed; null: the field shows the gap. */
  @state() private typed: string | null = null;
  @state() private problem: string | null = null;
  #shownGapMm: number | null = null;

  static override styles = [
    controls,
    css`
      label {
        display: flex;
        align-items: center;
        gap: 0.5rem;
        font-size: var(--type-14);
      }
      input[type="text"] {
        flex: 1;
        width: 8rem;
        font-size: var(--type-16);
      }
      input[aria-invalid="true"] {
        border: 2px solid var(--gap);
      }
      p {
        display: flex;
        gap: 0.35rem;
        max-width: 24rem;
        padding-top: 0.25rem;
        font-size: var(--type-14);
      }
      .icon {
        color: var(--gap);
      }
    `,
  ];

  protected override willUpdate(): void {
    const { gapMm } = this.page.store.parts.document;
    // the gap was moved elsewhere: what was typed is answered
    if (this.#shownGapMm !== null && gapMm !== this.#shownGapMm) this.#answered();
    this.#shownGapMm = gapMm;
  }

  override render() {
    const { document, view } = this.page.store.parts;
    return html`
      <label>
        type a gap
        <input
          type="text"
          inputmode="text"
          autocomplete="off"
          spellcheck="false"
          data-testid="gap-field"
          aria-invalid=${this.problem ? "true" : "false"}
          aria-describedby=${this.problem ? "problem" : nothing}
          .value=${this.typed ?? formatLength(document.gapMm, view.unit)}
          @focus=${(event: Event) => (event.target as HTMLInputElement).select()}
          @input=${(event: Event) => this.#onType((event.target as HTMLInputElement).value)}
          @change=${this.#take}
          @keydown=${this.#onKey}
        />
      </label>
      <div aria-live="polite">
        ${this.problem ? html`<p id="problem" data-testid="gap-problem">${icon("warning")}<span>${this.problem}</span></p>` : nothing}
      </div>
    `;
  }

  #onType(text: string): void {
    // only a gap that is moved after this answers it: one that is not drawn yet was there before
    this.#shownGapMm = this.page.store.parts.document.gapMm;
    this.typed = text;
    this.problem = null;
  }

  readonly #onKey = (event: KeyboardEvent): void => {
    if (event.key === "Enter") void this.#take();
    else if (event.key === "Escape") this.#answered();
  };

  readonly #take = async (): Promise<void> => {
    if (this.typed !== null && !isReadable(this.typed)) await fetchArithmetic().catch(() => {});
    if (this.typed === null) return;
    const { store } = this.page;
    const { parts: state } = store;
    const { unit } = state.view;
    const { leastMm, mostMm } = gapLimits(state.document.setup);
    try {
      const wantedMm = parseLengthMm(this.typed, unit);
      if (wantedMm < leastMm || wantedMm > mostMm)
        this.problem = `This receiver can have gaps from ${formatLength(leastMm, unit)} to ${formatLength(mostMm, unit)}.`;
      else {
        store.setGap(wantedMm);
        this.#answered();
      }
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      this.problem = error.message;
    }
  };

  #answered(): void {
    this.typed = null;
    this.problem = null;
  }
}
