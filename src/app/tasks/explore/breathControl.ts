/**
 * The breath an instrument is explored under, 0 for still air: to slide and to type. What cannot be read, or cannot be, stays as typed
 * with the reason beside it.
 */
import { css, html, nothing } from "lit";
import { customElement, state } from "lit/decorators.js";
import { readField } from "../../form/field.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { BREATH, BREATH_LIMITS } from "../../state/breath.ts";
import { PageElement } from "../../state/page.ts";

@customElement("annulus-breath")
export class BreathControl extends PageElement {
  /** What is being typed; null: the field shows the breath. */
  @state() private typed: string | null = null;
  @state() private problem = "";
  #shown: number | null = null;

  static override styles = [
    controls,
    css`
      :host {
        display: grid;
        grid-template-columns: minmax(8rem, 1fr) max-content max-content;
        align-items: end;
        gap: 0.25rem 1rem;
        font-size: var(--type-14);
      }
      .typed {
        display: flex;
        align-items: center;
        gap: 0.5rem;
      }
      input[type="range"] {
        display: block;
        width: 100%;
        height: var(--touch);
        margin: 0;
        accent-color: var(--gap);
      }
      input[type="text"] {
        width: 6rem;
        font-size: var(--type-16);
      }
      input[aria-invalid="true"] {
        border: 2px solid var(--gap);
      }
      .hint {
        color: var(--muted);
        font-size: var(--type-12);
      }
      .said {
        grid-column: 1 / -1;
      }
      .said p {
        display: flex;
        gap: 0.35rem;
      }
      .icon {
        color: var(--gap);
      }
      @media (max-width: 699px) {
        :host {
          grid-template-columns: minmax(0, 1fr) max-content;
        }
        .slid {
          grid-column: 1 / -1;
        }
      }
      @media print {
        input[type="range"],
        .hint,
        button {
          display: none;
        }
      }
    `,
  ];

  protected override willUpdate(): void {
    const breath = this.#breath;
    // it was changed elsewhere: what was typed is answered
    if (this.#shown !== null && breath !== this.#shown) this.#answered();
    this.#shown = breath;
  }

  get #breath(): number {
    return this.page.store.parts.document.breathLitresPerMinute ?? 0;
  }

  override render() {
    const breath = this.#breath;
    const { store } = this.page;
    const slid = (event: Event) => (event.target as HTMLInputElement).valueAsNumber;
    return html`
      <label class="slid">
        Breath <span class="hint">0 is still air; playing takes some 5 to 40 L/min</span>
        <input
          type="range"
          data-testid="breath-slider"
          aria-label="Breath"
          aria-valuetext=${breath === 0 ? "still air" : `${breath} litres per minute`}
          min=${BREATH_LIMITS.least}
          max=${BREATH_LIMITS.most}
          step="1"
          .value=${`${breath}`}
          @input=${(event: Event) => store.setBreath(slid(event), { commit: false })}
          @change=${(event: Event) => store.setBreath(slid(event))}
        />
      </label>
      <label class="typed">
        or type it
        <input
          type="text"
          inputmode="decimal"
          autocomplete="off"
          spellcheck="false"
          data-testid="breath-field"
          aria-label="Breath, L/min"
          aria-invalid=${this.problem ? "true" : "false"}
          aria-describedby=${this.problem ? "problem" : nothing}
          .value=${this.typed ?? `${breath}`}
          @focus=${(event: Event) => (event.target as HTMLInputElement).select()}
          @input=${(event: Event) => this.#onType((event.target as HTMLInputElement).value)}
          @change=${this.#take}
          @keydown=${this.#onKey}
        />
        L/min
      </label>
      <button type="button" data-testid="still-air" ?disabled=${breath === 0} @click=${() => store.setBreath(0)}>
        Still air
      </button>
      <div class="said" aria-live="polite">
        ${this.problem ? html`<p id="problem" data-testid="breath-problem">${icon("warning")}<span>${this.problem}</span></p>` : nothing}
      </div>
    `;
  }

  #onType(text: string): void {
    this.typed = text;
    this.problem = "";
  }

  readonly #onKey = (event: KeyboardEvent): void => {
    if (event.key === "Enter") this.#take();
    else if (event.key === "Escape") this.#answered();
  };

  readonly #take = (): void => {
    if (this.typed === null) return;
    const { store } = this.page;
    const { value, problem } = readField(BREATH, this.typed, store.state.view.unit);
    if (value === undefined) {
      this.problem = problem;
      return;
    }
    this.#answered();
    store.setBreath(value);
  };

  #answered(): void {
    this.typed = null;
    this.problem = "";
  }
}
