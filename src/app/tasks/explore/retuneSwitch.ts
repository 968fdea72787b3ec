/** Whether the charts against gap show the instrument as it is or after the player has pulled the tuning slide. */

import { css, html } from "lit";
import { customElement } from "lit/decorators.js";
import { instrumentOf } from "../../../setup/instrumentOf.ts";
import { noteText } from "../../../words/instruments.ts";
import { controls } from "../../shell/look/controls.ts";
import { segments } from "../../shell/look/segments.ts";
import { PageElement } from "../../state/page.ts";

const TUNED_ON = [2, 3, 4, 5, 6, 7, 8];
const USUAL = 4;
const VIEWS = [
  { value: false, text: "slide as it is" },
  { value: true, text: "slide set again" },
] as const;

@customElement("annulus-retune")
export class RetuneSwitch extends PageElement {
  static override styles = [
    controls,
    css`
      :host {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 0.5rem 1rem;
        font-size: var(--type-14);
      }
      label {
        white-space: nowrap;
      }
    `,
  ];

  override render() {
    const { store } = this.page;
    const { parts: state } = store;
    const { retune, showRetuned } = state.view;
    const instrument = instrumentOf(state.document.setup);
    const show = (retuned: boolean) =>
      store.setView({ showRetuned: retuned, ...(retuned && { retune: retune ?? USUAL }) });
    const choose = (event: Event) =>
      store.setView({ showRetuned: true, retune: Number((event.target as HTMLSelectElement).value) });
    return html`
      ${segments<boolean>("Tuning slide", VIEWS, showRetuned, show)}
      <label>
        on
        <select data-testid="retune" @change=${choose}>
          ${TUNED_ON.map((n) => html`<option value=${n} ?selected=${n === (retune ?? USUAL)}>${noteText(n, instrument)}</option>`)}
        </select>
      </label>
    `;
  }
}
