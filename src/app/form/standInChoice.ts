/** The choice of a stand-in to begin with, by family; tells by `begin` which instrument was chosen. */
import { css, html, LitElement } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import type { Setup } from "../../setup/setup.ts";
import { isStandIn, STAND_INS, type StandInId, standIn } from "../../setup/standIns.ts";
import { FAMILY } from "../../words/instruments.ts";
import { controls } from "../shell/look/controls.ts";

export type BeginEvent = CustomEvent<Setup>;

/** What is said once one is open. */
export const standInNote = ({ name }: Setup): string =>
  `Opened “${name}”: invented, of usual size. Every dimension is assumed until you enter your own. Undo brings back what was open.`;

const GROUPS = [...new Set(STAND_INS.map((id) => FAMILY[id].group))];

@customElement("annulus-stand-in-choice")
export class StandInChoice extends LitElement {
  static override styles = [
    controls,
    css`
      :host {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 0.375rem 0.5rem;
        font-size: var(--type-14);
      }
      label {
        display: contents;
      }
      select {
        min-inline-size: 0;
        max-inline-size: 100%;
      }
      .hint {
        flex: 1 1 100%;
        color: var(--muted);
        font-size: var(--type-12);
      }
    `,
  ];

  @property() label = "Begin with a stand-in";
  @property({ type: Boolean }) disabled = false;
  @state() private chosen: StandInId = STAND_INS[0];
  @state() private problem = "";

  override render() {
    return html`
      <label><span>${this.label}</span>
        <select data-testid="stand-in" ?disabled=${this.disabled} @change=${this.#choose}>
          ${GROUPS.map(
            (group) => html`<optgroup label=${group}>
              ${STAND_INS.filter((id) => FAMILY[id].group === group).map(
                (id) => html`<option value=${id} ?selected=${id === this.chosen}>${FAMILY[id].name}</option>`,
              )}
            </optgroup>`,
          )}
        </select>
      </label>
      <button type="button" data-testid="begin-stand-in" ?disabled=${this.disabled} @click=${this.#begin}>Begin</button>
      <p class="hint" role="status">${this.problem || "Invented, of usual size: every dimension is assumed until you enter your own."}</p>
    `;
  }

  #choose({ target }: Event): void {
    const { value } = target as HTMLSelectElement;
    if (isStandIn(value)) this.chosen = value;
  }

  async #begin(): Promise<void> {
    this.problem = "";
    let detail: Setup;
    try {
      detail = await standIn(this.chosen);
    } catch {
      this.problem = "The stand-in could not be loaded; check the connection and try again.";
      return;
    }
    this.dispatchEvent(new CustomEvent("begin", { detail }) satisfies BeginEvent);
  }
}

declare global {
  interface HTMLElementTagNameMap {
    "annulus-stand-in-choice": StandInChoice;
  }
}
