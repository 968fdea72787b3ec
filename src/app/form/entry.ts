/**
 * One text that a person types: its label, its unit, and under it what is wrong. The text is the owner's; `write` tells of
 * it at every key (`detail.done` false) and when it is finished (true), so that a whole entry is one undo. Where there is a
 * text to go back to (`standing`), Escape or a button does, told by `takeback`.
 */
import { css, html, LitElement, nothing } from "lit";
import { customElement, property, query, state } from "lit/decorators.js";
import { otherUnit, type UsualLengthsMm } from "../../units/otherUnit.ts";
import { otherUnitAnswer, otherUnitQuestion } from "../../words/otherUnit.ts";
import { controls } from "../shell/look/controls.ts";
import { icon } from "../shell/look/icon.ts";
import { fetchArithmetic, isReadable } from "./arithmetic.ts";
import { entryStyles } from "./entryStyles.ts";
import type { Choices } from "./field.ts";
import { isUndoKey } from "./undoKey.ts";

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
      input[type="text"],
      select,
      textarea {
        flex: 1;
        min-width: 0;
        width: 100%;
        padding: 0 0.5rem;
        font-size: var(--type-16);
        font-variant-numeric: tabular-nums;
      }
      textarea {
        padding-block: 0.375rem;
        font-family: inherit;
        line-height: inherit;
        resize: vertical;
      }
      .problem button {
        font-size: var(--type-14);
      }
      @media print {
        .box input {
          display: block !important;
          border: 0;
          padding: 0;
          outline: none;
        }
      }
      /* in a panel of many: what it is called on the left, what is typed on the right */
      :host([beside]) .entry {
        display: grid;
        grid-template-columns: minmax(7rem, 1fr) 10.5rem;
        gap: 0.125rem 0.75rem;
        align-items: center;
      }
      :host([tall]) .entry {
        grid-template-columns: minmax(0, 1fr);
      }
      :host([beside]) .problem {
        grid-column: 1 / -1;
        flex-wrap: wrap;
      }
      :host([beside]) :is(input, select) {
        /* clear of the panel's head when the keyboard comes here */
        scroll-margin-block: 4rem;
        font-size: max(1em, var(--field-type, 1em));
      }
      :host([beside]) input {
        text-align: end;
      }
      :host([beside]) .unit {
        flex: none;
        inline-size: 2.625rem;
      }
      :host([tall]) input {
        text-align: start;
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
  /** The label stands beside the box. */
  @property({ type: Boolean, reflect: true }) beside = false;
  /** Over it all the same: words need the room. */
  @property({ type: Boolean, reflect: true }) tall = false;
  /** Of a length: between which it lies as a rule, mm. */
  @property({ attribute: false }) usualMm: UsualLengthsMm | null = null;
  /** What was typed last: a text that had to wait is not written over a later one. */
  #newest: Written | null = null;
  /** All that a hand has typed here since it began. */
  readonly #told = new Set<string>();
  /** A hand is typing here: nothing is asked of half a number. */
  @state() private isTyping = false;
  @property({ type: Boolean }) optional = false;
  @property({ attribute: false }) lines = 1;
  @property({ attribute: false }) choices: Choices | null = null;
  /** What is in force, whatever was typed; undefined where that is the text itself. */
  @property({ attribute: false }) standing: string | undefined;
  @query("#text") private input!: HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement;

  override render() {
    return html`
      <div class="entry">
        <div>
          <label for="text">${this.label}${this.optional ? html` <span class="hint">(optional)</span>` : nothing}</label>
          ${this.hint ? html`<span class="hint" id="hint">${this.hint}</span>` : nothing}
        </div>
        <div class="box">
          ${this.#control()}${this.unit ? html`<span class="unit" id="unit">${this.unit}</span>` : nothing}
        </div>
        ${this.problem ? this.#problem() : nothing} ${this.#otherUnit()}
      </div>
    `;
  }

  #control() {
    const describedBy =
      [this.problem && "problem", this.unit && "unit", this.hint && "hint"].filter(Boolean).join(" ") ||
      nothing;
    const isInvalid = this.problem ? "true" : "false";
    if (this.choices)
      return html`<select id="text" aria-describedby=${describedBy} @change=${() => this.#tell(true)}>
        ${this.choices.map(([value, words]) => html`<option value=${value}>${words}</option>`)}
      </select>`;
    if (this.lines > 1)
      return html`<textarea id="text" rows=${this.lines} aria-describedby=${describedBy} aria-invalid=${isInvalid}
        @input=${() => this.#tell(false)} @change=${() => this.#tell(true)} @keydown=${this.#onKey}></textarea>`;
    return html`<input
      id="text"
      type="text"
      autocomplete="off"
      spellcheck="false"
      aria-describedby=${describedBy}
      aria-invalid=${isInvalid}
      @input=${() => this.#tell(false)}
      @change=${() => this.#tell(true)}
      @keydown=${this.#onKey}
    />`;
  }

  /** A number that fits the other unit better is asked about, beside it. */
  #otherUnit() {
    const { unit, usualMm, text } = this;
    if (!usualMm || this.isTyping || (unit !== "mm" && unit !== "in")) return nothing;
    const found = otherUnit(text, unit, usualMm);
    if (!found) return nothing;
    const take = () => {
      this.input.value = found.text;
      this.#tell(true);
      this.input.focus();
    };
    return html`<div class="problem" data-testid="other-unit">
      <p role="status">${icon("info")} ${otherUnitQuestion(text, unit, found)}</p>
      <button type="button" @click=${take}>${otherUnitAnswer(found)}</button>
    </div>`;
  }

  #problem() {
    const { standing } = this;
    if (standing === undefined)
      return html`<p class="problem" id="problem">${icon("warning")}<span>${this.problem}</span></p>`;
    const back = standing === "" ? "Leave it empty" : `Back to ${standing} ${this.unit}`.trim();
    return html`<div class="problem">
      <p id="problem" role="alert">${icon("warning")} ${this.problem}</p>
      <button type="button" @click=${this.#takeBack}>${back}</button>
    </div>`;
  }

  /**
   * What a hand has typed stays, also while the owner is behind: what comes back of what was typed here before is no news. Written
   * over the input it would be what the hand is taken to have finished with.
   */
  protected override updated(): void {
    if (this.input.value === this.text) return;
    if (this.isTyping && this.#told.has(this.text)) this.text = this.input.value;
    else this.input.value = this.text;
  }

  #tell(done: boolean): void {
    const detail: Written = { text: this.input.value, done };
    if (!this.isTyping) this.#told.clear();
    this.#told.add(detail.text);
    this.isTyping = !done;
    this.text = detail.text;
    this.#newest = detail;
    const write = () => {
      if (this.#newest === detail)
        this.dispatchEvent(new CustomEvent("write", { detail, bubbles: true, composed: true }));
    };
    if (isReadable(detail.text)) write();
    // where it cannot be fetched, the text is kept as typed and says so itself
    else
      void fetchArithmetic()
        .catch(() => {})
        .then(write);
  }

  /** Where there is something to go back to: Enter finishes, Escape goes back, undo is the text's own while it is typed. */
  readonly #onKey = (event: KeyboardEvent): void => {
    const { standing } = this;
    if (standing === undefined) return;
    const isChanged = this.input.value !== standing;
    if (event.key === "Enter" && this.lines === 1 && !event.isComposing) {
      event.preventDefault();
      this.#tell(true);
    } else if (isUndoKey(event)) {
      if (isChanged) event.stopPropagation();
    } else if (event.key === "Escape" && (this.problem || isChanged)) {
      // the next Escape closes the panel
      event.preventDefault();
      event.stopPropagation();
      this.#takeBack();
    }
  };

  readonly #takeBack = (): void => {
    this.input.value = this.standing ?? "";
    this.text = this.input.value;
    this.dispatchEvent(new CustomEvent("takeback"));
    this.input.focus();
  };
}

declare global {
  interface HTMLElementTagNameMap {
    "annulus-entry": Entry;
  }
}
