import { html, LitElement } from "lit";
import { customElement } from "lit/decorators.js";

@customElement("annulus-cut")
export class Cut extends LitElement {
  override render() {
    return html`<main></main>`;
  }
}
