/** |Z| of all candidates over one another, with the menu every drawing has. */

import { html } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import type { Frame } from "../../../charts/kit/drawing.ts";
import {
  type CompareCurvesData,
  compareCurves,
  compareCurvesHeight,
  compareCurvesTable,
  comparePeaksTable,
} from "../../../charts/plots/compare/compareCurves.ts";
import { ChartFigure } from "../../chart/chartFigure.ts";

@customElement("annulus-compare-curves")
export class CurvesView extends ChartFigure {
  protected readonly name = "compare-impedance";
  protected readonly label = "Input impedance of all candidates";
  protected readonly about =
    "How strongly each instrument answers at the mouthpiece's rim, the ratio of sound pressure to flow, each brought to pitch " +
    "where that is asked for. The numbers are the reference's resonances. Look at one resonance by itself to tell curves apart " +
    "that lie on one another in the whole.";
  @property({ attribute: false }) data!: Omit<CompareCurvesData, "around">;
  @state() private around: number | null = null;

  protected caption() {
    return "Dashed blue: the reference. Orange: the one that stands out.";
  }

  protected override switches() {
    const numbers = this.data.variants[0]?.modes.map(({ n }) => n) ?? [];
    const choose = (event: Event) => {
      const { value } = event.target as HTMLSelectElement;
      this.around = value === "" ? null : Number(value);
    };
    return html`
      <label>
        Look at
        <select data-testid="curves-around" @change=${choose}>
          <option value="" ?selected=${this.around === null}>all</option>
          ${numbers.map((n) => html`<option value=${n} ?selected=${this.around === n}>resonance ${n}</option>`)}
        </select>
      </label>
    `;
  }

  protected answer() {
    return null;
  }

  get #shown(): CompareCurvesData {
    return { ...this.data, around: this.around };
  }

  protected heightFor(width: number) {
    return compareCurvesHeight(this.#shown, width);
  }

  protected inputs() {
    return [this.data, this.around];
  }

  protected draw(frame: Frame) {
    return compareCurves(this.#shown, frame);
  }

  protected table() {
    return compareCurvesTable(this.#shown);
  }

  protected override readableTable() {
    return comparePeaksTable(this.#shown);
  }
}
