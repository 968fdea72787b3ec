/** What the model is, what it leaves out, and that nothing leaves the machine. */
import { css, html, LitElement } from "lit";
import { customElement } from "lit/decorators.js";
import { version } from "../../../package.json";
import { controls } from "./look/controls.ts";

@customElement("annulus-about")
export class About extends LitElement {
  static override styles = [
    controls,
    css`
      :host {
        display: block;
        padding: 1rem var(--edge) 1.5rem;
        border-top: 1.5px solid var(--ink);
        font-size: var(--type-14);
      }
      .columns {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(min(17rem, 100%), 1fr));
        gap: 0.75rem 2rem;
      }
      h2 {
        font-size: var(--type-14);
        font-weight: 650;
      }
      p {
        color: var(--muted);
        max-width: 60ch;
      }
    `,
  ];

  override render() {
    return html`
      <div class="columns">
        <section>
          <h2>What is computed</h2>
          <p>
            A one-dimensional line from rim to bell with wall losses, and the gap joined to its neighbours by mode
            matching, so that the fields at its two edges meet. The bore's resonances follow from it.
          </p>
        </section>
        <section>
          <h2>What is left out</h2>
          <p>
            The player. In the bell the sound's fronts are curved wherever that can be worked out, and plane where not. Lips are two
            simple models, and the breath is even: neither knows a player's mouth, and neither says what suits anyone. Where the model has no answer, it says so.
          </p>
        </section>
        <section>
          <h2>Where it runs</h2>
          <p>
            Works offline, in this browser. Nothing you open or type leaves this machine. Annulus
            <span data-testid="version">${version}</span>.
          </p>
        </section>
      </div>
    `;
  }
}
