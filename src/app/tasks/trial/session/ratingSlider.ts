/**
 * One scale that a thumb or the keys rate on. Before it is touched it has no mark at all: a mark in the middle would be a
 * suggestion. Tells by `rate` at every move, and with `done` when it rests.
 */
import { css, html, LitElement } from "lit";
import { customElement, property, query } from "lit/decorators.js";
import { TOP } from "../../../../trial/trial.ts";
import { controls } from "../../../shell/look/controls.ts";

export interface Rated {
  readonly value: number;
  readonly done: boolean;
}
export type RateEvent = CustomEvent<Rated>;

@customElement("annulus-rating")
export class RatingSlider extends LitElement {
  static override shadowRootOptions = { ...LitElement.shadowRootOptions, delegatesFocus: true };
  @property() label = "";
  @property() low = "";
  @property() high = "";
  @property({ attribute: false }) value: number | null = null;
  @query("input") private input!: HTMLInputElement;

  static override styles = [
    controls,
    css`
      :host {
        display: block;
        min-width: 0;
      }
      .head {
        display: flex;
        align-items: baseline;
        justify-content: space-between;
        gap: 0.5rem;
      }
      label {
        font-size: var(--type-20);
        font-weight: 650;
      }
      output {
        font-size: var(--type-14);
        color: var(--muted);
      }
      output.rated {
        font-size: var(--type-20);
        font-weight: 650;
        color: var(--ink);
      }
      .ends {
        display: flex;
        justify-content: space-between;
        font-size: var(--type-14);
        color: var(--muted);
      }
      /* the whole strip can be touched; the line is drawn in its middle, with a tick at each quarter */
      input {
        display: block;
        appearance: none;
        width: 100%;
        height: 3.5rem;
        margin: 0;
        background:
          linear-gradient(var(--ink), var(--ink)) center / 100% 2px no-repeat,
          linear-gradient(90deg, var(--muted) 2px, transparent 2px) 1.25rem center /
            calc((100% - 2.5rem) / 4) 0.9rem repeat-x;
        cursor: pointer;
        touch-action: pan-y;
      }
      input::-webkit-slider-thumb {
        appearance: none;
        width: 2.5rem;
        height: 2.75rem;
        border: 2px solid var(--paper);
        border-radius: 4px;
        background: var(--gap);
      }
      input::-moz-range-thumb {
        box-sizing: border-box;
        width: 2.5rem;
        height: 2.75rem;
        border: 2px solid var(--paper);
        border-radius: 4px;
        background: var(--gap);
      }
      input.blank::-webkit-slider-thumb {
        opacity: 0;
      }
      input.blank::-moz-range-thumb {
        opacity: 0;
      }
    `,
  ];

  override render() {
    const { value } = this;
    const said = value === null ? "not rated yet" : `${Math.round(value)} of ${TOP}`;
    return html`
      <div class="head">
        <label for="scale">${this.label}</label>
        <output for="scale" class=${value === null ? "" : "rated"}>${value === null ? said : Math.round(value)}</output>
      </div>
      <input
        id="scale"
        type="range"
        min="0"
        max=${TOP}
        step="1"
        class=${value === null ? "blank" : ""}
        aria-valuetext=${`${said}; 0 ${this.low}, ${TOP} ${this.high}`}
        .value=${`${value ?? TOP / 2}`}
        @input=${() => this.#tell(false)}
        @change=${() => this.#tell(true)}
        @click=${this.#takeWhereItStands}
        @keydown=${this.#onKey}
      />
      <div class="ends" aria-hidden="true"><span>${this.low}</span><span>${this.high}</span></div>
    `;
  }

  /** A press right in the middle of a blank scale moves nothing, and still means the middle. */
  readonly #takeWhereItStands = (): void => {
    if (this.value === null) this.#tell(true);
  };

  readonly #onKey = ({ key }: KeyboardEvent): void => {
    if (key === "Enter" || key === " ") this.#takeWhereItStands();
  };

  #tell(done: boolean): void {
    this.value = Number(this.input.value);
    const detail: Rated = { value: this.value, done };
    this.dispatchEvent(new CustomEvent("rate", { detail }));
  }
}
