/**
 * One text that a person types at the bench: its label, its unit, and under it what is wrong. The text is the owner's;
 * `write` tells of it at every key (`detail.done` false) and when it is finished (true), so that a whole entry is one undo.
 */
import { css, html, LitElement, nothing } from "lit";
import { customElement, property, query } from "lit/decorators.js";
import { controls } from "../shell/look/controls.ts";
import { icon } from "../shell/look/icon.ts";
import { entryStyles } from "./entryStyles.ts";

export interface Written {
  readonly text: string;
  readonly done: boolean;
}
export type WriteEvent = CustomEvent<Written>;

@customElement("annulus-entry")
export class Entry extends LitElement {
  static override shadowRootOptions = { ...LitElement.shadowRootOptions, delegatesFocus: true };
  static override styles = [
    controls,
    entryStyles,
    css`
      :host {
        display: block;
        min-width: 0;
      }
      label {
        display: block;
        font-size: var(--type-14);
      }
      :host([bare]) label {
        position: absolute;
        width: 1px;
        height: 1px;
        overflow: hidden;
        clip-path: inset(50%);
      }
      .hint,
      .unit {
        font-size: var(--type-12);
        color: var(--muted);
      }
      .box {
        display: flex;
        align-items: center;
        gap: 0.4rem;
      }
      input[type="text"] {
        flex: 1;
        min-width: 0;
        width: 100%;
        padding: 0 0.5rem;
        font-size: var(--type-16);
        font-variant-numeric: tabular-nums;
      }
      @media print {
        .box input {
          display: block !important;
          border: 0;
          padding: 0;
          outline: none;
        }
      }
    `,
  ];

  @property() label = "";
  /** The text as the owner has it. */
  @property({ attribute: false }) text = "";
  /** Of bare numbers. */
  @property() unit = "";
  @property() hint = "";
  /** What is wrong with the text; empty when nothing is. */
  @property() problem = "";
  /** The label is there for who cannot see, and not drawn: in a table whose head says the same. */
  @property({ type: Boolean, reflect: true }) bare = false;
  @query("input") private input!: HTMLInputElement;

  override render() {
    const described =
      [this.problem && "problem", this.unit && "unit", this.hint && "hint"].filter(Boolean).join(" ") ||
      nothing;
    return html`
      <label for="text">${this.label}</label>
      ${this.hint ? html`<span class="hint" id="hint">${this.hint}</span>` : nothing}
      <div class="box">
        <input
          id="text"
          type="text"
          autocomplete="off"
          spellcheck="false"
          aria-describedby=${described}
          aria-invalid=${this.problem ? "true" : "false"}
          .value=${this.text}
          @input=${() => this.#tell(false)}
          @change=${() => this.#tell(true)}
        />
        ${this.unit ? html`<span class="unit" id="unit">${this.unit}</span>` : nothing}
      </div>
      ${this.problem ? html`<p class="problem" id="problem">${icon("warning")}<span>${this.problem}</span></p>` : nothing}
    `;
  }

  /** What a hand has typed stays, also while the owner's text is a frame behind. */
  protected override updated(): void {
    if (this.input.value !== this.text) this.input.value = this.text;
  }

  #tell(done: boolean): void {
    const detail: Written = { text: this.input.value, done };
    this.text = detail.text;
    this.dispatchEvent(new CustomEvent("write", { detail, bubbles: true, composed: true }));
  }
}
