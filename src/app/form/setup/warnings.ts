/**
 * What is unusual about the instrument, a line each, as the terminal says it, or what makes it none where it was kept so;
 * nothing where all is as usual.
 */
import { css, html, nothing } from "lit";
import { customElement } from "lit/decorators.js";
import { flawsOf, warningsOf, warningText } from "../../../setup/dimension/plausible.ts";
import { PageElement } from "../../state/page.ts";

@customElement("annulus-warnings")
export class Warnings extends PageElement {
  static override styles = css`
    ul {
      margin: 0;
      padding: 0.5rem 0.75rem;
      list-style: none;
      border: 1.5px solid var(--gap);
      overflow-wrap: anywhere;
    }
  `;

  override render() {
    const { setup } = this.page.store.parts.document;
    const flaws = flawsOf(setup);
    const warnings = flaws.length > 0 ? flaws : warningsOf(setup);
    if (warnings.length === 0) return nothing;
    return html`<ul aria-label="Check the instrument" data-testid="warnings">
      ${warnings.map((warning) => html`<li>${warningText(warning)}</li>`)}
    </ul>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    "annulus-warnings": Warnings;
  }
}
