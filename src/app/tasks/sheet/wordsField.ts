/**
 * One paragraph's words as a person writes them: lines of text with figures named in braces, the figures to choose from
 * beside it. As an entry, `write` tells of the text at every key and when it is finished; `restore` asks for the proposal.
 */
import { css, html, LitElement, nothing } from "lit";
import { customElement, property, query } from "lit/decorators.js";
import type { Figure } from "../../../words/report/sheetFigure.ts";
import type { Written } from "../../form/entry.ts";
import { entryStyles } from "../../form/entryStyles.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";

@customElement("annulus-words")
export class WordsField extends LitElement {
  static override shadowRootOptions = { ...LitElement.shadowRootOptions, delegatesFocus: true };
  static override styles = [
    controls,
    entryStyles,
    css`
      :host {
        display: grid;
        gap: 0.25rem;
        min-width: 0;
      }
      .top {
        display: flex;
        flex-wrap: wrap;
        align-items: end;
        justify-content: space-between;
        gap: 0 1rem;
      }
      label {
        font-size: var(--type-14);
        font-weight: 600;
      }
      .state {
        font-size: var(--type-12);
        color: var(--muted);
      }
      textarea {
        width: 100%;
        min-height: 4.2rem;
        field-sizing: content;
        padding: 0.35rem 0.5rem;
        border: 1px solid var(--muted);
        border-radius: 3px;
        background: var(--paper);
        color: inherit;
        font: inherit;
        font-size: var(--type-14);
        resize: vertical;
      }
      .under {
        display: flex;
        flex-wrap: wrap;
        align-items: start;
        justify-content: space-between;
        gap: 0.25rem 1rem;
      }
      details {
        flex: 1 1 10rem;
        min-width: 0;
        font-size: var(--type-12);
      }
      summary {
        min-height: var(--touch);
        align-content: center;
        color: var(--muted);
        cursor: pointer;
      }
      details[open] {
        flex-basis: 100%;
      }
      .figures {
        display: flex;
        flex-wrap: wrap;
        gap: 0.3rem;
        max-height: 17rem;
        overflow-y: auto;
        padding: 2px;
      }
      .figures button {
        min-height: min(var(--touch), 2.75rem);
        padding: 0 0.5rem;
        font-size: var(--type-12);
      }
      .figures small {
        max-width: 12rem;
        overflow: hidden;
        text-overflow: ellipsis;
        font-size: inherit;
        color: var(--muted);
      }
    `,
  ];

  @property() label = "";
  /** The template as the owner has it. */
  @property({ attribute: false }) text = "";
  /** What is wrong with it; empty when nothing is. */
  @property() problem = "";
  @property({ type: Boolean }) isProposal = true;
  /** To be put in by a button; every other figure may be written by its name. */
  @property({ attribute: false }) figures: readonly Figure[] = [];
  @query("textarea") private area!: HTMLTextAreaElement;

  override render() {
    return html`
      <div class="top">
        <label for="text">${this.label}</label>
        <span class="state" id="state">${this.isProposal ? "as proposed" : this.text.trim() === "" ? "left out" : "your words"}</span>
      </div>
      <textarea
        id="text"
        rows="3"
        aria-describedby=${this.problem ? "problem state" : "state"}
        aria-invalid=${this.problem ? "true" : "false"}
        .value=${this.text}
        @input=${() => this.#tell(false)}
        @change=${() => this.#tell(true)}
      ></textarea>
      ${this.problem ? html`<p class="problem" id="problem">${icon("warning")}<span>${this.problem}</span></p>` : nothing}
      <div class="under controls">
        <details>
          <summary>Put in a figure</summary>
          <div class="figures">
            ${this.figures.map(
              (figure) => html`
                <button type="button" title=${figure.what} aria-label="{${figure.name}} ${figure.text}, ${figure.what}" @click=${() => this.#put(figure)}>
                  {${figure.name}} <small>${figure.text}</small>
                </button>
              `,
            )}
          </div>
        </details>
        ${
          this.isProposal
            ? nothing
            : html`<button type="button" aria-label="Back to the proposal: ${this.label}" @click=${this.#restore}>${icon("reset")}Back to the proposal</button>`
        }
      </div>
    `;
  }

  /** What a hand has typed stays, also while the owner's text is a frame behind. */
  protected override updated(): void {
    if (this.area.value !== this.text) this.area.value = this.text;
  }

  /** Where the caret stands or stood last. */
  #put({ name }: Figure): void {
    const { area } = this;
    area.setRangeText(`{${name}}`, area.selectionStart, area.selectionEnd, "end");
    this.#tell(true);
    area.focus();
  }

  readonly #restore = (): void => {
    this.area.focus();
    this.dispatchEvent(new CustomEvent("restore", { bubbles: true, composed: true }));
  };

  #tell(done: boolean): void {
    const detail: Written = { text: this.area.value, done };
    this.text = detail.text;
    this.dispatchEvent(new CustomEvent("write", { detail, bubbles: true, composed: true }));
  }
}
