/** All that is shown of the candidates together: figures, impedance, one quantity by resonance, bores, and what errors do. */

import { css, html, nothing } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import type { Standing } from "../../../charts/plots/compare/compareSeries.ts";
import type { InstrumentKind } from "../../../setup/instrumentKind.ts";
import { instrumentOf } from "../../../setup/instrumentOf.ts";
import type { Goal } from "../../../study/compare/goal.ts";
import { noteText } from "../../../words/instruments.ts";
import { NotesForm } from "../../form/notesForm.ts";
import { controls } from "../../shell/look/controls.ts";
import { type Segment, segments } from "../../shell/look/segments.ts";
import { sheetStyles } from "../../shell/look/sheetStyles.ts";
import "../../chart/chartElement.ts";
import { boreDifferenceFigure } from "../../../charts/plots/compare/boreDifference.ts";
import { compareFigure } from "../../../charts/plots/compare/compareChart.ts";
import { compareCurvesFigure } from "../../../charts/plots/compare/compareCurves.ts";
import { sensitivityFigure } from "../../../charts/plots/compare/sensitivityChart.ts";
import type { Candidate } from "../../state/bench/candidates.ts";
import { compareForm, ERROR } from "../../state/notes/compare.ts";
import { PageElement } from "../../state/page.ts";
import { RESONANCES, readError } from "./compareAsked.ts";
import { curvesData, quantityData, type Shown, sensitivityData } from "./comparedCandidates.ts";
import "./figures.ts";
import { type QuantityKey, quantityOf } from "./quantities.ts";

type Felt = "pitch" | "height";
const FELT: readonly Segment<Felt>[] = [
  { value: "pitch", text: "pitch" },
  { value: "height", text: "height" },
];
const PLAYED = Array.from({ length: RESONANCES - 1 }, (_, i) => i + 2);
const PARTS = ["leadpipe", "mouthpiece", "body"] as const;

@customElement("annulus-side-by-side")
export class SideBySide extends PageElement {
  readonly #form = new NotesForm(this, "compare", compareForm);
  @property({ attribute: false }) shown: readonly Shown[] = [];
  @property({ attribute: false }) candidates: readonly Candidate[] = [];
  @property({ attribute: false }) standing!: Standing;
  @property({ attribute: false }) goal: Goal | null = null;
  @state() private quantity: QuantityKey = "cents";
  @state() private felt: Felt = "pitch";
  /** The resonance looked at by itself; null: the whole curves. */
  @state() private around: number | null = null;
  readonly #kept = new Map<string, { readonly keys: readonly unknown[]; readonly data: unknown }>();

  static override styles = [
    controls,
    sheetStyles,
    css`
      .charts {
        display: grid;
        grid-template-columns: minmax(0, 1fr) minmax(0, 1fr);
        gap: 1.5rem 2rem;
        align-items: start;
      }
      .wide {
        grid-column: 1 / -1;
      }
      .controls {
        display: flex;
        flex-wrap: wrap;
        align-items: end;
        gap: 0.5rem 1rem;
        font-size: var(--type-14);
      }
      annulus-entry {
        width: 10rem;
      }
      .controls select {
        display: block;
      }
      @container sheet (max-width: 999px) {
        .charts {
          grid-template-columns: minmax(0, 1fr);
        }
      }
    `,
  ];

  override render() {
    const instrument = instrumentOf(this.page.store.parts.document.setup);
    const { shown, standing, goal, quantity } = this;
    if (shown.length === 0) return nothing;
    const { resonance } = this.page.store.parts.view;
    const { thresholds } = this.page.store.parts.document.setup;
    const { reference, chosen } = standing;
    const { errorMm, problem } = readError(this.#form.notes);
    const highlight = Math.min(RESONANCES, Math.max(2, resonance));
    const by = [shown, reference, chosen];
    const values = (key: QuantityKey) =>
      this.#keep(`values ${key}`, [...by, thresholds], () =>
        quantityData(shown, standing, quantityOf(key), thresholds),
      );
    const one = shown.find(({ number }) => number === chosen) ?? shown[0];
    const errors = this.#keep("errors", [one, this.felt, errorMm, highlight, thresholds], () =>
      sensitivityData(one, this.felt, errorMm, highlight, thresholds),
    );
    const bores = this.#keep("bores", [this.candidates, reference, chosen], () => this.#bores());
    const curves = this.#keep("curves", [...by, this.around], () => curvesData(shown, standing, this.around));
    const isNote = quantityOf(quantity).of === "note" && shown.every(({ answer }) => answer.notes === null);
    return html`
      <div class="stack">
        <annulus-figures
          .shown=${shown}
          .reference=${reference}
          .thresholds=${thresholds}
          .goal=${goal}
          .quantity=${quantity}
          .highlight=${highlight}
          .errorMm=${errorMm}
          @quantity=${({ detail }: CustomEvent<QuantityKey>) => {
            this.quantity = detail;
          }}
        ></annulus-figures>
        <div class="charts">
          ${isNote ? nothing : html`<annulus-chart class="wide" .figure=${compareFigure(`compare-${quantity}`)} .data=${values(quantity)}></annulus-chart>`}
          ${quantity === "height" ? nothing : html`<annulus-chart class="wide" .figure=${compareFigure("compare-height")} .data=${values("height")}></annulus-chart>`}
          <annulus-chart
            class="wide"
            .figure=${compareCurvesFigure}
            .data=${curves}
          >
            ${this.#lookAt(
              curves.variants[0].modes.map(({ n }) => n),
              instrument,
            )}
          </annulus-chart>
          ${bores ? html`<annulus-chart .figure=${boreDifferenceFigure} .data=${bores}></annulus-chart>` : nothing}
          ${
            errors
              ? html`
                  <div class="stack">
                    <annulus-chart .figure=${sensitivityFigure} .data=${errors}></annulus-chart>
                    <div class="controls">
                      <label>
                        Of
                        <select data-testid="errors-of" @change=${(event: Event) => this.page.store.setView({ resonance: Number((event.target as HTMLSelectElement).value) })}>
                          ${PLAYED.map((n) => html`<option value=${n} ?selected=${n === highlight}>${noteText(n, instrument)}</option>`)}
                        </select>
                      </label>
                      ${segments<Felt>("What errors change", FELT, this.felt, (felt) => {
                        this.felt = felt;
                      })}
                      ${this.#form.entry(ERROR, ["error"], problem)}
                    </div>
                  </div>
                `
              : nothing
          }
        </div>
      </div>
    `;
  }

  #lookAt(numbers: readonly number[], instrument: InstrumentKind) {
    const choose = (event: Event) => {
      const { value } = event.target as HTMLSelectElement;
      this.around = value === "" ? null : Number(value);
    };
    return html`
      <label slot="switches">
        Look at
        <select data-testid="curves-around" @change=${choose}>
          <option value="" ?selected=${this.around === null}>all</option>
          ${numbers.map((n) => html`<option value=${n} ?selected=${this.around === n}>${noteText(n, instrument)}</option>`)}
        </select>
      </label>
    `;
  }

  /** Of the part that differs, the leadpipe first; null where none does. */
  #bores() {
    const { candidates, standing } = this;
    const isDifferent = (part: (typeof PARTS)[number]) =>
      new Set(candidates.map(({ setup }) => JSON.stringify(setup[part].profileMm))).size > 1;
    const part = PARTS.find(isDifferent);
    if (!part) return null;
    return {
      ...standing,
      part,
      variants: candidates.map(({ number, name, setup }) => ({
        number,
        name,
        profileMm: setup[part].profileMm,
      })),
    };
  }

  /** Made anew only when what it is made of is another: a chart is drawn again for new data. */
  #keep<T>(name: string, keys: readonly unknown[], make: () => T): T {
    const last = this.#kept.get(name);
    if (last && last.keys.length === keys.length && last.keys.every((key, i) => key === keys[i]))
      return last.data as T;
    const data = make();
    this.#kept.set(name, { keys, data });
    return data;
  }
}
