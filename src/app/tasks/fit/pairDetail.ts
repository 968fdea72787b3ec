/** The chosen pair: where the shank comes to rest, the gap that leaves, how sure that is, and what it can be used for. */
import { css, html, LitElement, nothing } from "lit";
import { customElement, property } from "lit/decorators.js";
import type { Fit } from "../../../bench/fit/fit.ts";
import { dimensionName, type FitDimensions, isTaper } from "../../../bench/fit/fitDimensions.ts";
import type { FitCell } from "../../../bench/fit/fitMatrix.ts";
import type { FitBudgetRow } from "../../../bench/fit/fitUncertainty.ts";
import type { SeatData } from "../../../charts/drawings/seatDrawing.ts";
import { tickText } from "../../../charts/kit/numbers.ts";
import { shareText } from "../../../charts/plots/bench/causesChart.ts";
import { formatLength } from "../../../units/formatLength.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { fitCellWords, fitWords, TOUCHES } from "../../../words/bench/fit.ts";
import { bothUnits, signed } from "../../../words/numbers.ts";
import { controls } from "../../shell/look/controls.ts";
import { sheetStyles } from "../../shell/look/sheetStyles.ts";
import { preferredWords } from "./cellWords.ts";
import type { AnyPart } from "./partTables.ts";
import "../../chart/chartElement.ts";
import { seatFigure } from "../../../charts/drawings/seatDrawing.ts";

@customElement("annulus-pair")
export class PairDetail extends LitElement {
  @property({ attribute: false }) cell!: FitCell;
  @property({ attribute: false }) mouthpiece!: AnyPart;
  @property({ attribute: false }) instrument!: AnyPart;
  @property() unit: LengthUnit = "mm";
  /** What is typed of the pair and cannot be read. */
  @property({ attribute: false }) unread: readonly string[] = [];
  @property({ attribute: false }) use!: () => void;
  /** Why the pair could not be used; empty when it was not tried. */
  @property() refused = "";
  #seat: { readonly cell: FitCell; readonly unit: LengthUnit; readonly data: SeatData } | undefined;

  static override styles = [
    controls,
    sheetStyles,
    css`
      .big {
        font-size: var(--type-44);
        font-weight: 700;
        line-height: 1;
        letter-spacing: -0.01em;
        color: var(--gap);
      }
      .other {
        margin-left: 0.5rem;
        font-size: var(--type-20);
        font-weight: 600;
        color: var(--gap);
      }
      .words {
        max-width: 70ch;
      }
      dl {
        display: grid;
        grid-template-columns: max-content 1fr;
        gap: 0.15rem 1rem;
        margin: 0;
        font-size: var(--type-14);
      }
      dd {
        margin: 0;
      }
      td.number {
        white-space: nowrap;
      }
      @media print {
        annulus-chart {
          display: none;
        }
      }
    `,
  ];

  override render() {
    const { cell, unit } = this;
    const { fit, mouthpiece, instrument, fromPreferredMm, isApartFromPreferred } = cell;
    const words = [...(fit ? fitWords(fit, unit) : [fitCellWords(cell, unit)]), ...this.unread];
    const u = fit?.standardUncertaintyMm;
    return html`
      <h2>${mouthpiece} in ${instrument}</h2>
      <div class="columns">
        <div class="stack">
          <div aria-live="polite">
            ${
              fit?.gapMm === undefined
                ? html`<p class="lead">${fit === undefined ? "Gap unknown" : sentenceOf[fit.outcome]}</p>`
                : html`
                    <p>
                      <output class="big" data-testid="pair-gap">${formatLength(fit.gapMm, unit)}</output>
                      <span class="other">${formatLength(fit.gapMm, unit === "mm" ? "in" : "mm")}</span>
                      <span class="muted">predicted</span>
                    </p>
                  `
            }
            ${u === undefined ? nothing : html`<p>standard uncertainty ${bothUnits(u, unit)}</p>`}
            ${
              fromPreferredMm === undefined
                ? nothing
                : html`<p>${preferredWords(fromPreferredMm, unit)}${isApartFromPreferred === false ? ", same within measurement error" : ""}</p>`
            }
          </div>
          <div class="words" data-testid="pair-words">${words.map((line) => html`<p>${line}</p>`)}</div>
          ${fit?.insertionMm === undefined ? nothing : this.#numbers(fit)}
          ${fit && fit.budget.length > 0 ? this.#budget(fit.budget) : nothing}
          <div class="actions controls">
            <button type="button" data-testid="use-pair" ?disabled=${fit?.insertionMm === undefined} @click=${() => this.use()}>
              Use this pair in the setup
            </button>
          </div>
          <div role="alert">${this.refused ? html`<p class="notice wrong" data-testid="pair-refused">${this.refused}</p>` : nothing}</div>
        </div>
        ${fit && fit.outcome !== "impossible" ? html`<annulus-chart .figure=${seatFigure} .data=${this.#seatOf(fit)}></annulus-chart>` : nothing}
      </div>
    `;
  }

  #numbers({ insertionMm, contact, insertionPerDiameter }: Fit) {
    const { unit } = this;
    const diameterMm = unit === "mm" ? 0.01 : 0.0254;
    return html`
      <dl>
        <dt>insertion</dt>
        <dd>${bothUnits(insertionMm!, unit)}</dd>
        ${
          contact
            ? html`
                <dt>contact</dt>
                <dd>${bothUnits(contact.contactLengthMm, unit)}, ${TOUCHES[contact.touches]}</dd>
                <dt>clearance, free end</dt>
                <dd>${formatLength(contact.freeClearanceMm, unit, unit === "mm" ? 3 : 4)}</dd>
              `
            : nothing
        }
        ${
          insertionPerDiameter === undefined
            ? nothing
            : html`
                <dt>${formatLength(diameterMm, unit)} off the shank</dt>
                <dd>goes in ${formatLength(insertionPerDiameter * diameterMm, unit)} further</dd>
              `
        }
      </dl>
    `;
  }

  #budget(budget: readonly FitBudgetRow[]) {
    const { unit } = this;
    const perDigits = unit === "mm" ? 3 : 4;
    return html`
      <div class="scroll">
        <table>
          <caption class="unseen">What the gap's uncertainty is made of</caption>
          <thead>
            <tr>
              <th scope="col">uncertainty of</th>
              <th scope="col" class="number">u</th>
              <th scope="col" class="number">times</th>
              <th scope="col" class="number">makes</th>
              <th scope="col" class="number">share</th>
            </tr>
          </thead>
          <tbody>
            ${budget.map(
              ({ dimension, standardUncertainty, sensitivity, contributionMm, varianceShare }) => html`
                <tr>
                  <th scope="row">${dimensionName[dimension]}</th>
                  <td class="number">${isTaper(dimension) ? tickText(standardUncertainty) : formatLength(standardUncertainty, unit, perDigits)}</td>
                  <td class="number">${isTaper(dimension) ? "" : signed(sensitivity, 1)}</td>
                  <td class="number">${formatLength(contributionMm, unit, perDigits)}</td>
                  <td class="number">${shareText(varianceShare)}</td>
                </tr>
              `,
            )}
          </tbody>
        </table>
      </div>
    `;
  }

  /** The same object as long as it would say the same, so that nothing is drawn twice. */
  #seatOf(fit: Fit): SeatData {
    const { cell, unit } = this;
    const { insertionMm, contact } = fit;
    if (this.#seat?.cell !== cell || this.#seat.unit !== unit)
      this.#seat = {
        cell,
        unit,
        data: {
          ...({ ...this.mouthpiece.dimensions, ...this.instrument.dimensions } as FitDimensions),
          insertionMm,
          ...(contact && { contact }),
          words: fitWords(fit, unit).join(" "),
        },
      };
    return this.#seat.data;
  }
}

const sentenceOf: Readonly<Record<Fit["outcome"], string>> = {
  seated: "The shank seats",
  "on-leadpipe": "On the leadpipe",
  "not-entering": "Does not enter",
  impossible: "Impossible",
};
