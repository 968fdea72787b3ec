/** Every gap at a glance: mouthpieces down, instruments across. One cell is chosen, by a click or the arrow keys. */
import { html, LitElement, nothing } from "lit";
import { customElement, property } from "lit/decorators.js";
import { styleMap } from "lit/directives/style-map.js";
import type { FitCell, FitMatrix } from "../../../bench/fit/fitMatrix.ts";
import { formatLength } from "../../../units/formatLength.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { bothUnits } from "../../../words/numbers.ts";
import { controls } from "../../shell/look/controls.ts";
import { sheetStyles } from "../../shell/look/sheetStyles.ts";
import { cellFigures, cellLabel, shadeOf, shadeReachMm } from "./cellWords.ts";
import { matrixGridStyles } from "./matrixGridStyles.ts";

/** A cell of the matrix. */
export interface Pair {
  readonly mouthpiece: number;
  readonly instrument: number;
}

@customElement("annulus-fit-matrix")
export class MatrixGrid extends LitElement {
  static override styles = [controls, sheetStyles, matrixGridStyles];

  @property({ attribute: false }) matrix!: FitMatrix;
  @property({ attribute: false }) chosen!: Pair;
  @property() unit: LengthUnit = "mm";

  override render() {
    const { mouthpieces, instruments, cells, preferredMm } = this.matrix;
    const reachMm = shadeReachMm(cells);
    return html`
      <div class="scroll">
        <table role="grid" aria-label="Gap of every mouthpiece in every instrument" @keydown=${this.#onKey}>
          <thead>
            <tr>
              <th scope="col" class="corner">gap <span class="muted">± u</span>, ${this.unit}</th>
              ${instruments.map((name) => html`<th scope="col">${name}</th>`)}
            </tr>
          </thead>
          <tbody>
            ${cells.map(
              (row, m) => html`
                <tr>
                  <th scope="row">${mouthpieces[m]}</th>
                  ${row.map((cell, i) => this.#cell(cell, { mouthpiece: m, instrument: i }, reachMm))}
                </tr>
              `,
            )}
          </tbody>
        </table>
      </div>
      ${preferredMm === undefined ? nothing : this.#legend(preferredMm, reachMm)}
    `;
  }

  #cell(cell: FitCell, at: Pair, reachMm: number) {
    const { gap, uncertainty, difference, isAlike, remark } = cellFigures(cell, this.unit);
    const isChosen = at.mouthpiece === this.chosen.mouthpiece && at.instrument === this.chosen.instrument;
    const side = (cell.fromPreferredMm ?? 0) > 0 ? "more" : "less";
    return html`
      <td
        role="gridcell"
        class=${`${side}${isAlike ? " alike" : ""}`}
        style=${styleMap({ "--shade": `${(100 * shadeOf(cell, reachMm)).toFixed(1)}%` })}
        tabindex=${isChosen ? "0" : "-1"}
        aria-selected=${isChosen ? "true" : "false"}
        data-cell=${`${at.mouthpiece} ${at.instrument}`}
        @click=${() => this.#choose(at)}
      >
        <span class="unseen">${cellLabel(cell, this.unit)}</span>
        ${gap ? html`<span class="figures" aria-hidden="true"><b>${gap}</b> <span class="u">${uncertainty}</span></span>` : nothing}
        ${remark ? html`<span class="remark" aria-hidden="true">${remark}</span>` : nothing}
        ${difference ? html`<span class="difference" aria-hidden="true">${difference}${isAlike ? html` <b>≈</b>` : nothing}</span>` : nothing}
      </td>
    `;
  }

  #legend(preferredMm: number, reachMm: number) {
    const far = formatLength(reachMm, this.unit);
    return html`
      <div class="legend">
        ${
          reachMm > 0
            ? html`<span class="scale"><span>▼ ${far} less</span><span class="shades"></span><span>▲ ${far} more</span></span>`
            : nothing
        }
        <span>than the preferred ${bothUnits(preferredMm, this.unit)}</span>
        <span><b>≈</b> framed: same within measurement error, within twice the uncertainty</span>
      </div>
    `;
  }

  #choose(chosen: Pair): void {
    this.dispatchEvent(new CustomEvent<Pair>("choose", { detail: chosen }));
  }

  readonly #onKey = (event: KeyboardEvent): void => {
    if (event.altKey || event.metaKey || event.shiftKey) return;
    const [mouthpiece, instrument] = (event.target as HTMLElement).dataset.cell?.split(" ").map(Number) ?? [];
    if (mouthpiece === undefined) return;
    const next = this.#after({ mouthpiece, instrument }, event.key, event.ctrlKey);
    if (!next) return;
    event.preventDefault();
    this.#choose(next);
    this.#focus(next);
  };

  /** Where a key leads from a cell. */
  #after({ mouthpiece, instrument }: Pair, key: string, isFar: boolean): Pair | undefined {
    const last = {
      mouthpiece: this.matrix.mouthpieces.length - 1,
      instrument: this.matrix.instruments.length - 1,
    };
    const to = (m: number, i: number): Pair => ({
      mouthpiece: Math.max(0, Math.min(last.mouthpiece, m)),
      instrument: Math.max(0, Math.min(last.instrument, i)),
    });
    if (key === "Home") return to(isFar ? 0 : mouthpiece, 0);
    if (key === "End") return to(isFar ? last.mouthpiece : mouthpiece, last.instrument);
    if (isFar) return undefined;
    if (key === "ArrowLeft") return to(mouthpiece, instrument - 1);
    if (key === "ArrowRight") return to(mouthpiece, instrument + 1);
    if (key === "ArrowUp") return to(mouthpiece - 1, instrument);
    if (key === "ArrowDown") return to(mouthpiece + 1, instrument);
    return undefined;
  }

  #focus({ mouthpiece, instrument }: Pair): void {
    this.renderRoot.querySelector<HTMLElement>(`[data-cell="${mouthpiece} ${instrument}"]`)?.focus();
  }
}
