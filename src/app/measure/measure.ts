import { html, LitElement } from "lit";
import { customElement } from "lit/decorators.js";

@customElement("annulus-measure")
export class Measure extends LitElement {
  override render() {
    return html`<main></main>`;
  }
}
