/**
 * One entry of the form: its label, what stands there or was typed, its unit, and beside it what is wrong. Tells of a
 * finished text by `entry`, and by `takeback` that the typed text is given up.
 */
import { html, LitElement, nothing, type PropertyValues } from "lit";
import { customElement, property, query } from "lit/decorators.js";
import type { Field } from "../../form/setup/fields.ts";
import { icon } from "../../shell/look/icon.ts";
import { fieldStyles } from "./fieldStyles.ts";
import { editControls } from "./styles.ts";
import { isUndoKey } from "./undoKey.ts";

type Control = HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement;

@customElement("annulus-field")
export class AnnulusField extends LitElement {
  static override styles = [editControls, fieldStyles];
  static override shadowRootOptions = { ...LitElement.shadowRootOptions, delegatesFocus: true };

  @property({ attribute: false }) field!: Field;
  /** Shown after the control; of bare numbers. */
  @property({ attribute: false }) unit = "";
  /** What the setup has. */
  @property({ attribute: false }) shown = "";
  /** What was typed and refused; null when nothing was. */
  @property({ attribute: false }) typed: string | null = null;
  @property({ attribute: false }) message = "";

  @query("#control") private control!: Control;

  override render() {
    const { kind, label, hint } = this.field;
    const isOptional = "optional" in this.field;
    const hasUnit = kind === "length" || kind === "quantity";
    return html`
      <div class=${kind === "text" ? "entry tall" : "entry"}>
        <div>
          <label for="control">${label}</label>${isOptional ? html` <span class="hint">(optional)</span>` : nothing}
          ${hint ? html`<p class="hint" id="hint">${hint}</p>` : nothing}
        </div>
        <div class="box">
          ${this.#control()}${hasUnit ? html`<span class="unit" id="unit">${this.unit}</span>` : nothing}
        </div>
        ${this.typed === null ? nothing : this.#problem()}
      </div>
    `;
  }

  #control() {
    const describedBy =
      [this.typed !== null && "problem", this.unit && "unit", this.field.hint && "hint"]
        .filter(Boolean)
        .join(" ") || nothing;
    const isInvalid = this.typed === null ? "false" : "true";
    const { field } = this;
    if (field.kind === "choice")
      return html`<select id="control" aria-describedby=${describedBy} @change=${this.#finish}>
        ${field.choices.map(([value, words]) => html`<option value=${value}>${words}</option>`)}
      </select>`;
    if (field.kind === "text" && field.lines > 1)
      return html`<textarea id="control" rows=${field.lines} aria-describedby=${describedBy} aria-invalid=${isInvalid}
        @change=${this.#finish} @keydown=${this.#onKey}></textarea>`;
    return html`<input id="control" type="text" autocomplete="off" spellcheck="false"
      aria-describedby=${describedBy} aria-invalid=${isInvalid} @change=${this.#finish} @keydown=${this.#onKey}>`;
  }

  #problem() {
    const back = this.shown === "" ? "Leave it empty" : `Back to ${this.shown} ${this.unit}`.trim();
    return html`<div class="problem">
      <p id="problem" role="alert">${icon("warning")} ${this.message}</p>
      ${this.field.kind === "text" ? nothing : html`<button type="button" @click=${this.#takeBack}>${back}</button>`}
    </div>`;
  }

  override updated(changed: PropertyValues<this>): void {
    if (changed.has("shown") || changed.has("typed") || changed.has("field")) this.#write();
  }

  /** What was typed otherwise than it is shown, `1/8 in`, is shown as it is understood. */
  #write(): void {
    const text = this.typed ?? this.shown;
    if (this.control.value !== text) this.control.value = text;
  }

  #finish = (): void => {
    this.dispatchEvent(new CustomEvent("entry", { detail: this.control.value }));
    // once all above has been drawn anew
    setTimeout(() => this.isConnected && this.#write());
  };

  #onKey = (event: KeyboardEvent): void => {
    const isLine = this.control instanceof HTMLInputElement;
    if (event.key === "Enter" && isLine && !event.isComposing) {
      event.preventDefault();
      this.#finish();
    } else if (isUndoKey(event)) {
      // what is being typed is the field's own to undo, what stands there the panel's
      if (this.control.value !== this.shown) event.stopPropagation();
    } else if (event.key === "Escape" && (this.typed !== null || this.control.value !== this.shown)) {
      // the next Escape closes the panel
      event.preventDefault();
      event.stopPropagation();
      this.control.value = this.shown;
      this.#takeBack();
    }
  };

  #takeBack = (): void => {
    if (this.typed !== null) this.dispatchEvent(new CustomEvent("takeback"));
    this.control.focus();
  };
}
