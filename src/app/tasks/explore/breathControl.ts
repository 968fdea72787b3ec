/**
 * The breath an instrument is explored under, 0 for still air: to slide and to type. What cannot be read, or cannot be, stays as typed
 * with the reason beside it.
 */
import { css, html } from "lit";
import { customElement, state } from "lit/decorators.js";
import type { WriteEvent } from "../../form/entry.ts";
import "../../form/entry.ts";
import { readField } from "../../form/field.ts";
import { controls } from "../../shell/look/controls.ts";
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
        grid-template-columns: minmax(8rem, 1fr) 9rem max-content;
        align-items: end;
        gap: 0.25rem 1rem;
        font-size: var(--type-14);
      }
      label {
        display: block;
      }
      input {
        display: block;
        width: 100%;
        height: var(--touch);
        margin: 0;
        accent-color: var(--gap);
      }
      .hint {
        color: var(--muted);
        font-size: var(--type-12);
      }
      @media (max-width: 699px) {
        :host {
          grid-template-columns: minmax(0, 1fr) max-content;
        }
        label {
          grid-column: 1 / -1;
        }
      }
      @media print {
        label,
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
      <label>
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
      <annulus-entry
        data-testid="breath-field"
        label="or type it"
        unit="L/min"
        .text=${this.typed ?? `${breath}`}
        .standing=${`${breath}`}
        .problem=${this.problem}
        @write=${this.#onWrite}
        @takeback=${this.#answered}
      ></annulus-entry>
      <button type="button" data-testid="still-air" ?disabled=${breath === 0} @click=${() => store.setBreath(0)}>
        Still air
      </button>
    `;
  }

  readonly #onWrite = ({ detail: { text, done } }: WriteEvent): void => {
    this.typed = text;
    this.problem = "";
    if (!done) return;
    const { value, problem } = readField(BREATH, text, this.page.store.state.view.unit);
    if (value === undefined) {
      this.problem = problem;
      return;
    }
    this.#answered();
    this.page.store.setBreath(value);
  };

  readonly #answered = (): void => {
    this.typed = null;
    this.problem = "";
  };
}
