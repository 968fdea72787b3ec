/** What the breath does to the peaks, under its control: nothing in still air. */
import { css, html, nothing } from "lit";
import { customElement } from "lit/decorators.js";
import { instrumentOf } from "../../../setup/instrumentOf.ts";
import { breathLeavesOut, breathWords } from "../../../words/blown/breathEffect.ts";
import { lateStyles } from "../../chart/lateStyles.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { PageElement } from "../../state/page.ts";

@customElement("annulus-breath-finding")
export class BreathFinding extends PageElement {
  /** Words and numbers that change more often cannot be read. */
  protected override readonly paceMs = 100;

  static override styles = [
    controls,
    lateStyles,
    css`
      :host {
        display: block;
        font-size: var(--type-14);
      }
      p + p {
        padding-top: 0.35rem;
      }
      .answer {
        display: flex;
        gap: 0.35rem;
        font-weight: 650;
      }
      ul {
        margin: 0;
        padding-left: 1.2rem;
      }
    `,
  ];

  override render() {
    const { document, view } = this.page.store.parts;
    if (document.breathLitresPerMinute === undefined) return nothing;
    const { breath } = this.page.model.parts;
    const { value, refused } = breath;
    if (refused) return html`<p role="alert">${icon("warning")} ${refused}</p>`;
    if (!value) return html`<p>What the breath does to the peaks is being worked out.</p>`;
    const { setup } = document;
    const said = breathWords(value, setup.thresholds.decibels, view.unit, instrumentOf(setup));
    return html`
      <div class=${breath.late ? "late" : ""} data-testid="breath-finding" aria-live="polite">
        <p>${said.onPeaks}</p>
        ${said.onGap ? html`<p>${said.onGap}</p>` : nothing}
        ${said.finding ? html`<p class="answer">${icon(said.isNoticed ? "check" : "about-equal")}<span>${said.finding}</span></p>` : nothing}
      </div>
      <details data-testid="breath-leaves-out">
        <summary>What this leaves out</summary>
        <ul>${breathLeavesOut(value).map((line) => html`<li>${line}</li>`)}</ul>
      </details>
    `;
  }
}
