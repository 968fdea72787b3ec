/** The figures side by side: what the whole is of each candidate, and one quantity of every resonance with its difference. */

import { html, nothing } from "lit";
import { customElement, property } from "lit/decorators.js";
import { tableCsv } from "../../../charts/kit/tableCsv.ts";
import { instrumentOf } from "../../../setup/instrumentOf.ts";
import type { Thresholds } from "../../../setup/setup.ts";
import type { Goal } from "../../../study/compare/goal.ts";
import { formatLength } from "../../../units/formatLength.ts";
import { noteText } from "../../../words/instruments.ts";
import { bothUnits, signed } from "../../../words/numbers.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { notice } from "../../shell/look/notice.ts";
import { sheetStyles } from "../../shell/look/sheetStyles.ts";
import { saveTableFile } from "../../shell/tableFiles.ts";
import { PageElement } from "../../state/page.ts";
import { allFigures, type Shown, valuesOf } from "./comparedCandidates.ts";
import { figuresStyles } from "./figuresStyles.ts";
import { QUANTITIES, type QuantityKey, quantityOf, type ShownQuantity } from "./quantities.ts";

@customElement("annulus-figures")
export class Figures extends PageElement {
  @property({ attribute: false }) shown: readonly Shown[] = [];
  /** Number of the candidate the others are held against. */
  @property({ type: Number }) reference = 1;
  @property({ attribute: false }) thresholds!: Thresholds;
  @property({ attribute: false }) goal: Goal | null = null;
  @property() quantity: QuantityKey = "cents";
  /** The resonance that errors and the gap are told of. */
  @property({ type: Number }) highlight = 4;
  @property({ type: Number }) errorMm = 0.05;

  static override styles = [controls, sheetStyles, figuresStyles];

  override render() {
    const quantity = quantityOf(this.quantity);
    return html`
      <div class="scroll" tabindex="0" role="region" aria-label="Figures of the whole">${this.#whole()}</div>
      <div class="head apart">
        <label>
          Of every note
          <select data-testid="quantity" @change=${this.#choose}>
            ${QUANTITIES.map(({ key, title, unit }) => html`<option value=${key} ?selected=${key === this.quantity}>${title} (${unit})</option>`)}
          </select>
        </label>
        <button type="button" class="controls" data-testid="save-figures" @click=${this.#save}>${icon("save")}Save all figures as CSV</button>
      </div>
      ${
        quantity.of === "note" && this.shown.every(({ answer }) => answer.notes === null)
          ? notice("Not worked out yet: ask for slot width and pull above.")
          : html`<div class="scroll" tabindex="0" role="region" aria-label="${quantity.title} of every note" data-testid="figures">${this.#each(quantity)}</div>`
      }
    `;
  }

  #heads() {
    return this.shown.map(
      ({ number, name }) =>
        html`<th scope="col" class="number">${number} ${name}${number === this.reference ? html` <span class="muted">(compared with)</span>` : nothing}</th>`,
    );
  }

  #whole() {
    const instrument = instrumentOf(this.page.store.parts.document.setup);
    const { unit } = this.page.store.parts.view;
    const { highlight, errorMm } = this;
    const error = formatLength(errorMm, unit, unit === "mm" ? 2 : 4);
    const rows: readonly [title: string, of: (one: Shown) => unknown][] = [
      ["gap", ({ answer }) => bothUnits(answer.gapMm, unit)],
      [
        "length put in to retune",
        ({ answer: { retuned, refusal } }) =>
          retuned
            ? html`${bothUnits(retuned.drawMm, unit).replaceAll("-", "−")}<br /><span class="muted">by ${retuned.by}</span>`
            : (refusal ?? "as it is"),
      ],
      [
        "steady flow resistance, MPa·s/m³",
        ({ answer }) => {
          const { resistance } = answer.quantities;
          return resistance === null || resistance === undefined ? "–" : resistance.toFixed(3);
        },
      ],
      [
        `by the gap, ${noteText(highlight, instrument)}`,
        ({ answer: { sensitivity } }) => {
          const mode = sensitivity?.modes[highlight - 1];
          if (!mode) return "–";
          const decibels = mode.gapDecibelsPerMm === null ? "" : `, ${signed(mode.gapDecibelsPerMm, 2)} dB`;
          return `${signed(mode.gapCentsPerMm, 2)} cents${decibels} per mm`;
        },
      ],
      [
        `worst place of the leadpipe, ${error} too wide, ${noteText(highlight, instrument)}`,
        ({ answer: { worst } }) => {
          const found = worst.find(({ n }) => n === highlight);
          return found
            ? `${signed(found.centsPerMm * errorMm, 2)} cents at ${formatLength(found.place.positionMm, unit)}`
            : "–";
        },
      ],
    ];
    return html`
      <table data-testid="whole">
        <thead><tr><td></td>${this.#heads()}</tr></thead>
        <tbody>
          ${rows.map(([title, of]) => html`<tr><th scope="row">${title}</th>${this.shown.map((one) => html`<td class="number">${of(one)}</td>`)}</tr>`)}
        </tbody>
      </table>
    `;
  }

  #each(quantity: ShownQuantity) {
    const instrument = instrumentOf(this.page.store.parts.document.setup);
    const values = this.shown.map(
      (one) => new Map(valuesOf(one, quantity).map(({ n, value }) => [n, value])),
    );
    const base = values[this.shown.findIndex(({ number }) => number === this.reference)];
    const numbers = [...new Set(values.flatMap((of) => [...of.keys()]))].sort((a, b) => a - b);
    const felt = quantity.feltFrom(this.thresholds);
    return html`
      <table>
        <thead><tr><th scope="col">note</th>${this.#heads()}</tr></thead>
        <tbody>
          ${numbers.map(
            (n) => html`
              <tr>
                <th scope="row">${noteText(n, instrument)}</th>
                ${values.map((of) => this.#cell(of.get(n) ?? null, of === base ? null : (base?.get(n) ?? null), quantity, felt))}
              </tr>
            `,
          )}
        </tbody>
      </table>
      <p class="legend">
        ${quantity.unit}; in brackets the difference from the one compared with${felt === null ? "" : html`, <b class="felt">framed</b> from ${felt} on, where a player may notice`}.
      </p>
    `;
  }

  #cell(value: number | null, from: number | null, { digits }: ShownQuantity, felt: number | null) {
    if (value === null) return html`<td class="number">–</td>`;
    const by = from === null ? null : value - from;
    const isFelt = by !== null && felt !== null && Math.abs(by) >= felt;
    return html`
      <td class="number">
        ${signedOrPlain(value, digits)}
        ${by === null ? nothing : html`<span class="by ${isFelt ? "felt" : ""}">(${signed(by, digits)})</span>`}
      </td>
    `;
  }

  readonly #choose = (event: Event): void => {
    const detail = (event.target as HTMLSelectElement).value as QuantityKey;
    this.dispatchEvent(new CustomEvent<QuantityKey>("quantity", { detail }));
  };

  readonly #save = (): Promise<void> =>
    saveTableFile(tableCsv(allFigures(this.shown, this.goal)), "compare.csv", this.page.store);
}

const signedOrPlain = (value: number, digits: number): string => value.toFixed(digits).replace("-", "−");
