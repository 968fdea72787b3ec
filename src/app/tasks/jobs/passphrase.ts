/** A passphrase as it is typed: hidden, unless the person wants to see it. */
import { css, html, LitElement, nothing } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import { entryStyles } from "../../form/entryStyles.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";

@customElement("annulus-passphrase")
export class Passphrase extends LitElement {
  static override shadowRootOptions = { ...LitElement.shadowRootOptions, delegatesFocus: true };
  static override styles = [
    controls,
    entryStyles,
    css`
      :host {
        display: block;
        max-width: 26rem;
      }
      label {
        display: block;
        font-size: var(--type-14);
      }
      .box {
        display: flex;
        gap: 0.25rem;
      }
      input {
        flex: 1;
        min-width: 0;
        min-height: var(--touch);
        padding: 0 0.5rem;
        border: 1px solid var(--muted);
        border-radius: 3px;
        background: var(--paper);
        font-size: var(--type-16);
      }
    `,
  ];

  @property() label = "";
  /** Whether it is one to be made up, for the browser's own keeper of passwords. */
  @property({ type: Boolean }) isNew = false;
  @property() problem = "";
  @property({ attribute: false }) text = "";
  @state() private isShown = false;

  override render() {
    return html`
      <label for="text">${this.label}</label>
      <div class="box">
        <input
          id="text"
          type=${this.isShown ? "text" : "password"}
          autocomplete=${this.isNew ? "new-password" : "current-password"}
          spellcheck="false"
          aria-invalid=${this.problem ? "true" : "false"}
          aria-describedby=${this.problem ? "problem" : nothing}
          .value=${this.text}
          @input=${this.#tell}
        />
        <button type="button" class="square" aria-pressed=${this.isShown ? "true" : "false"} aria-label="Show the passphrase" @click=${this.#show}>${icon(this.isShown ? "eye-slash" : "eye")}</button>
      </div>
      ${this.problem ? html`<p class="problem" id="problem" role="alert">${icon("warning")}<span>${this.problem}</span></p>` : nothing}
    `;
  }

  readonly #tell = (event: Event): void => {
    this.text = (event.target as HTMLInputElement).value;
    this.dispatchEvent(new CustomEvent<string>("passphrase", { detail: this.text }));
  };

  readonly #show = (): void => {
    this.isShown = !this.isShown;
  };
}
