/** Why instruments of one model feel different: how far the gaps lie apart, and which dimension makes them. */
import { css, html, LitElement, nothing } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import type { FitMatrix } from "../../../bench/fit/fitMatrix.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { bothUnits } from "../../../words/numbers.ts";
import { controls } from "../../shell/look/controls.ts";
import { segments } from "../../shell/look/segments.ts";
import { sheetStyles } from "../../shell/look/sheetStyles.ts";
import "../../chart/chartElement.ts";
import { causesFigure } from "../../../charts/plots/bench/causesChart.ts";
import { spreadFigure } from "../../../charts/plots/bench/spreadChart.ts";
import type { Pair } from "./matrixGrid.ts";
import { type Held, type ShownSpread, spreadOf } from "./spreadOf.ts";

const CHOICES = [
  { value: "mouthpiece", text: "one mouthpiece" },
  { value: "instrument", text: "one instrument" },
  { value: "nothing", text: "all pairs" },
] as const;

@customElement("annulus-fit-spread")
export class SpreadPanel extends LitElement {
  @property({ attribute: false }) matrix!: FitMatrix;
  @property({ attribute: false }) chosen!: Pair;
  @property() unit: LengthUnit = "mm";
  @state() private held: Held = "mouthpiece";
  #shown!: ShownSpread;

  static override styles = [
    controls,
    sheetStyles,
    css`
      select {
        max-width: 100%;
      }
      .words {
        max-width: 80ch;
        text-wrap: pretty;
      }
      dl {
        display: flex;
        flex-wrap: wrap;
        gap: 0.25rem 2rem;
        margin: 0;
      }
      dt {
        font-size: var(--type-12);
        color: var(--muted);
      }
      dd {
        margin: 0;
        font-weight: 600;
      }
      ul {
        margin: 0;
        padding-left: 1.1rem;
        font-size: var(--type-14);
      }
      @media print {
        .columns {
          grid-template-columns: minmax(0, 1fr) minmax(0, 1fr);
        }
      }
    `,
  ];

  override willUpdate(): void {
    this.#shown = spreadOf(this.matrix, this.chosen, this.held, this.unit);
  }

  override render() {
    const { spread, title, words, gaps, causes, sensitivities } = this.#shown;
    const { unit } = this;
    const { lowMm, highMm, meanMm, standardDeviationMm } = spread;
    return html`
      <div class="head over">
        <h2>Spread: ${title}</h2>
        <div class="actions controls">
          ${segments<Held>("Spread of", CHOICES, this.held, (held) => {
            this.held = held;
          })}
          ${this.#which()}
        </div>
      </div>
      <div class="columns">
        <div class="stack">
          <p class="words" aria-live="polite" data-testid="spread-words">${words}</p>
          ${
            standardDeviationMm === undefined
              ? nothing
              : html`
                  <dl>
                    <div><dt>range</dt><dd>${bothUnits(highMm! - lowMm!, unit)}</dd></div>
                    <div><dt>mean</dt><dd>${bothUnits(meanMm!, unit)}</dd></div>
                    <div><dt>standard deviation</dt><dd>${bothUnits(standardDeviationMm, unit)}</dd></div>
                  </dl>
                `
          }
          ${causes.causes.length > 0 ? html`<annulus-chart .figure=${causesFigure} .data=${causes}></annulus-chart>` : nothing}
          ${sensitivities.length > 0 ? html`<ul data-testid="sensitivities">${sensitivities.map((line) => html`<li>${line}</li>`)}</ul>` : nothing}
        </div>
        <annulus-chart .figure=${spreadFigure} .data=${gaps}></annulus-chart>
      </div>
    `;
  }

  /** The same choice as in the matrix: of which mouthpiece, of which instrument. */
  #which() {
    const { held, chosen, matrix } = this;
    if (held === "nothing") return nothing;
    const names = held === "mouthpiece" ? matrix.mouthpieces : matrix.instruments;
    return html`
      <select
        aria-label=${held === "mouthpiece" ? "Mouthpiece" : "Instrument"}
        data-testid="spread-of"
        .value=${`${chosen[held]}`}
        @change=${(event: Event) => this.#choose({ ...chosen, [held]: Number((event.target as HTMLSelectElement).value) })}
      >
        ${names.map((name, i) => html`<option value=${i} ?selected=${i === chosen[held]}>${name}</option>`)}
      </select>
    `;
  }

  #choose(chosen: Pair): void {
    this.dispatchEvent(new CustomEvent<Pair>("choose", { detail: chosen }));
  }
}
