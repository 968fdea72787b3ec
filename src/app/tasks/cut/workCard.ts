/** The card that lies beside the lathe, to be read there and filled in by hand; on the screen as it will be printed. */
import { html, LitElement, nothing } from "lit";
import { customElement, property } from "lit/decorators.js";
import type { LengthUnit } from "../../../units/length.ts";
import { lengthSpan, plusMinus, roundedLength } from "../../../units/uncertainLength.ts";
import { CUT_DIMENSION, checkLength } from "../../../words/bench/cut.ts";
import type { CutCard, CutCardStage } from "../../../words/bench/cutCard.ts";
import { CONSENT } from "../../../words/bench/cutCautions.ts";
import { computedOnWords } from "../../../words/jobNames.ts";
import { controls } from "../../shell/look/controls.ts";
import type { JobNames } from "../../state/record/jobNames.ts";
import { capital } from "./wayCard.ts";
import { workCardStyles } from "./workCardStyles.ts";

/** More than these stand closer, to keep to one page. */
const MANY_STAGES = 8;

@customElement("annulus-work-card")
export class WorkCard extends LitElement {
  @property({ attribute: false }) card: CutCard | null = null;
  @property({ attribute: false }) names!: JobNames;
  @property() unit: LengthUnit = "mm";

  static override styles = [controls, workCardStyles];

  override render() {
    const { card, unit } = this;
    if (!card) return nothing;
    const { gapMm, targetMm, limitsMm, expandedUncertaintyMm } = card;
    const other = unit === "mm" ? "in" : "mm";
    const enoughMm = limitsMm[1] - targetMm;
    return html`
      <header>
        <h3>${capital(card.title)}</h3>
        ${this.#names()}
        <p class="which"><span class="write">Date</span><span class="write">Done by</span></p>
      </header>
      <dl class="order">
        <div>
          <dt>Your gap${expandedUncertaintyMm === undefined ? ", uncertainty unknown" : ", ± U (95 %)"}</dt>
          <dd>${plusMinus(gapMm, expandedUncertaintyMm, unit)}</dd>
          <dd class="other">${plusMinus(gapMm, expandedUncertaintyMm, other)}</dd>
        </div>
        <div>
          <dt>Planned gap</dt>
          <dd class="target">${roundedLength(targetMm, undefined, unit)}</dd>
          <dd class="other">${roundedLength(targetMm, undefined, other)}</dd>
        </div>
        <div>
          <dt>Done as soon as the gap is from</dt>
          <dd>${lengthSpan(limitsMm, enoughMm, unit)}</dd>
          <dd class="other">${lengthSpan(limitsMm, enoughMm, other)}</dd>
        </div>
      </dl>
      ${card.doubts.map((line) => html`<p class="doubt">${line}</p>`)}
      <table class=${card.stages.length > MANY_STAGES ? "many" : ""}>
        <thead>
          <tr>
            <th scope="col">Stage</th>
            <th scope="col">Do</th>
            <th scope="col">Check</th>
            <th scope="col">Gap to find</th>
            <th scope="col">Receiver depth, read</th>
            <th scope="col">Insertion, read</th>
          </tr>
        </thead>
        <tbody>
          ${card.stages.map((stage) => this.#stage(stage, enoughMm))}
        </tbody>
      </table>
      <div class="words">
        ${card.notes.length > 0 ? html`<section><h4>Notes</h4><ul>${card.notes.map((line) => html`<li>${line}</li>`)}</ul></section>` : nothing}
        <section><h4>Cautions</h4><ul>${card.cautions.map((line) => html`<li>${line}</li>`)}</ul></section>
      </div>
      ${
        card.confirmation
          ? html`
              <footer>
                <p>${card.confirmation}</p>
                <p data-testid="consent"><b>Owner’s consent.</b> ${CONSENT}</p>
                <p class="signature"><span class="write">Owner’s signature</span><span class="write">Date</span></p>
              </footer>
            `
          : nothing
      }
    `;
  }

  /** What nobody typed is a line to write on. */
  #names() {
    const { job, player, instrument, mouthpiece, workshop, technician, computedOn } = this.names;
    const lines = [
      ["Job", job],
      ["Player", player],
      ["Instrument", instrument],
      ["Mouthpiece", mouthpiece],
      ["Workshop", workshop],
      ["Technician", technician],
    ];
    return html`
      <dl class="names">
        ${lines.map(([label, text]) => html`<div><dt>${label}</dt><dd class=${text ? "" : "blank-line"}>${text || nothing}</dd></div>`)}
      </dl>
      ${computedOn ? html`<p class="other">${computedOnWords(computedOn)}</p>` : nothing}
    `;
  }

  #stage({ number, doWhat, size, check, expectedGapMm, ...readings }: CutCardStage, enoughMm: number) {
    const { unit } = this;
    const blanks = (places: readonly undefined[]) => places.map(() => html`<span class="blank"></span>`);
    const other = unit === "mm" ? "in" : "mm";
    return html`
      <tr>
        <th scope="row"><span class="box"></span>${number}</th>
        <td data-label="Do">${size ?? doWhat}</td>
        <td data-label="Check">
          ${check ? html`${CUT_DIMENSION[check.what]} <b>${checkLength(check, unit)}</b> <small>${checkLength(check, other)}</small>` : "–"}
        </td>
        <td data-label="Gap to find">
          <b>${roundedLength(expectedGapMm, enoughMm, unit)}</b> <small>${roundedLength(expectedGapMm, enoughMm, other)}</small>
        </td>
        <td class="readings" data-label="Receiver depth, read">${blanks(readings.depthReadings)}</td>
        <td class="readings" data-label="Insertion, read">${blanks(readings.insertionReadings)}</td>
      </tr>
    `;
  }
}
