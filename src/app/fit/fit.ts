import { html, LitElement } from "lit";
import { customElement } from "lit/decorators.js";

@customElement("annulus-fit")
export class Fit extends LitElement {
  override render() {
    return html`<main></main>`;
  }
}
