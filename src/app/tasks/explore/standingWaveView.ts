/** Where on one resonance's standing wave the gap sits. */
import { html } from "lit";
import { customElement } from "lit/decorators.js";
import type { Drawing, Frame } from "../../../charts/kit/drawing.ts";
import { standingWaveChart, standingWaveTable } from "../../../charts/plots/standingWaveChart.ts";
import { ChartFigure } from "../../chart/chartFigure.ts";

const RESONANCES = Array.from({ length: 12 }, (_, i) => i + 1);

@customElement("annulus-standing-wave")
export class StandingWaveView extends ChartFigure {
  protected readonly name = "standing-wave";
  protected readonly label = "Standing wave of one resonance along the bore";
  protected readonly about =
    "Sound pressure and flow along the bore while one resonance sounds, over the bore's outline. Where pressure is large at " +
    "the gap, the gap works by its volume; where flow is large, by its narrow air's mass. That is why one note hears the gap " +
    "and another does not.";

  protected caption() {
    const { bell } = this.page.store.parts.document.setup.model;
    return `Why one note hears the gap and another does not: where on its wave the gap sits.${
      bell === "plane"
        ? ""
        : " In the bell’s flare the plane wave goes on that reaches it; the fronts there are curved."
    }`;
  }

  protected answer() {
    return this.page.model.parts.explored;
  }

  protected heightFor(width: number) {
    return Math.min(380, Math.max(250, 0.45 * width));
  }

  protected inputs() {
    return [this.page.model.parts.explored.value?.wave];
  }

  protected draw(frame: Frame): Drawing | null {
    const { value } = this.page.model.parts.explored;
    return value && standingWaveChart(value.wave, frame);
  }

  protected table() {
    const { value } = this.page.model.parts.explored;
    return value && standingWaveTable(value.wave, this.page.store.parts.view.unit);
  }

  protected override switches() {
    const { store } = this.page;
    const { parts: state } = store;
    const choose = (event: Event) =>
      store.setView({ resonance: Number((event.target as HTMLSelectElement).value) });
    return html`
      <label>
        resonance
        <select data-testid="resonance" .value=${`${state.view.resonance}`} @change=${choose}>
          ${RESONANCES.map((n) => html`<option value=${n} ?selected=${n === state.view.resonance}>${n}</option>`)}
        </select>
      </label>
    `;
  }
}
