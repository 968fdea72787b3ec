/** The page's outermost element. */
import { html, LitElement } from "lit";
import { customElement } from "lit/decorators.js";
import { ResultsController, StoreController } from "./store/storeController.ts";

@customElement("annulus-app")
export class AnnulusApp extends LitElement {
  readonly #store = new StoreController(this);
  readonly #results = new ResultsController(this);

  override render() {
    const { document, message } = this.#store.state;
    const { explored, sweep } = this.#results.results;
    return html`
      <h1>${document.setup.name}</h1>
      <p>${document.gapMm} mm</p>
      <p role="status">${message?.text}</p>
      <p>${explored.refused ?? explored.value?.chosen.modes.map(({ frequencyHz }) => frequencyHz.toFixed(1)).join(" ")}</p>
      <p>${sweep.refused ?? sweep.value?.rows.length}</p>
    `;
  }
}
