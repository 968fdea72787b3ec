/** How the instrument is set up for sweeps, drawn with the open setup's own parts. */
import { css, html } from "lit";
import { customElement } from "lit/decorators.js";
import { SWEEP_PLACES, sweepGuide } from "../../../charts/drawings/sweepGuide.ts";
import type { Frame } from "../../../charts/kit/drawing.ts";
import type { Setup } from "../../../setup/setup.ts";
import { SET_UP_STEPS } from "../../../words/swept/sweptWords.ts";
import { GuideElement } from "../../chart/guideElement.ts";

@customElement("annulus-sweep-guide")
export class SweepGuide extends GuideElement {
  protected override readonly heightPx = 250;
  protected override readonly pictures = SWEEP_PLACES.map(
    (place) => (setup: Setup, frame: Frame) => sweepGuide(place, setup, frame),
  );

  static override styles = [
    GuideElement.styles,
    css`
      h3 {
        font-size: var(--type-16);
        font-weight: 650;
      }
      .pictures {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(min(18rem, 100%), 1fr));
        gap: 1rem 1.75rem;
        margin: 0.5rem 0;
      }
      h4 {
        font-size: var(--type-14);
        font-weight: 650;
      }
      ol {
        display: grid;
        gap: 0.35rem;
        margin: 0;
        padding-left: 1.4rem;
        font-size: var(--type-14);
      }
      li {
        max-width: 75ch;
        text-wrap: pretty;
      }
      .source {
        padding-top: 0.35rem;
      }
    `,
  ];

  override render() {
    return html`
      <h3>Set-up</h3>
      <div class="pictures">
        ${SWEEP_PLACES.map(
          (place) => html`
            <div data-testid="sweep-guide-${place}">
              <h4>${place === "cup" ? "Earphone and microphone at the mouthpiece" : "Or the microphone at the bell"}</h4>
              <div class="picture"></div>
            </div>
          `,
        )}
      </div>
      <ol>
        ${SET_UP_STEPS.map((step) => html`<li>${step}</li>`)}
      </ol>
      <p class="source">Drawn to scale with the open setup's dimensions; rim, walls, earphone and microphone are not measured. Steps: common practice, no source.</p>
    `;
  }
}
