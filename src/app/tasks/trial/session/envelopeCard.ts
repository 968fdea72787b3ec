/** The paper of a trial played alone: what to do, and a slip for each envelope. It knows no code, since nobody does. */
import { css, html, LitElement } from "lit";
import { customElement, property } from "lit/decorators.js";
import type { Setup } from "../../../../setup/setup.ts";
import type { Trial, TrialItem } from "../../../../trial/trial.ts";
import type { LengthUnit } from "../../../../units/length.ts";
import { bothUnits } from "../../../../words/numbers.ts";
import { ENVELOPE_LIMITS, envelopeSteps, slipWords } from "../../../../words/trial/envelopes.ts";
import type { JobNames } from "../../../state/record/jobNames.ts";
import { cardNames } from "./cardNames.ts";
import { setupCardStyles } from "./setupCardStyles.ts";

@customElement("annulus-trial-envelopes")
export class EnvelopeCard extends LitElement {
  @property({ attribute: false }) trial!: Trial;
  @property({ attribute: false }) setup!: Setup;
  /** As it is at the bench, mm. */
  @property({ attribute: false }) presentMm!: number;
  @property({ attribute: false }) names!: JobNames;
  @property() unit: LengthUnit = "mm";

  static override styles = [
    setupCardStyles,
    css`
      .slips {
        display: grid;
        grid-template-columns: repeat(auto-fill, minmax(min(15rem, 100%), 1fr));
        margin-top: 1rem;
        border: dashed var(--ink);
        border-width: 1px 0 0 1px;
      }
      .slip {
        display: grid;
        gap: 0.35rem;
        align-content: start;
        min-height: 8.5rem;
        padding: 0.75rem;
        border: dashed var(--ink);
        border-width: 0 1px 1px 0;
        break-inside: avoid;
      }
      .slip b {
        font-size: var(--type-20);
      }
      .measured {
        align-self: end;
      }
    `,
  ];

  override render() {
    const { trial } = this;
    return html`
      <header>
        <h3>Envelopes for a blind trial played alone</h3>
        ${cardNames(this.names, trial).map((line) => html`<p>${line}</p>`)}
      </header>
      <ol class="rules">${envelopeSteps(trial).map((step) => html`<li>${step}</li>`)}</ol>
      <p>${ENVELOPE_LIMITS}</p>
      <div class="slips">${trial.items.map((item) => this.#slip(item))}</div>
    `;
  }

  #slip(item: TrialItem) {
    const { name, gapMm } = item;
    return html`
      <div class="slip" data-testid="slip">
        <b>${gapMm === null ? name : bothUnits(gapMm, this.unit)}</b>
        <span>${slipWords(item, this.setup, this.unit, this.presentMm)}</span>
        ${gapMm === null ? "" : html`<span class="measured">measured: ____________ ${this.unit}</span>`}
      </div>
    `;
  }
}
