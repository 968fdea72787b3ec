/** How far something is off at every resonance, with the menu every drawing has. */
import { customElement, property } from "lit/decorators.js";
import type { Frame } from "../../../charts/kit/drawing.ts";
import {
  type DeviationData,
  deviationChart,
  deviationHeight,
  deviationTable,
} from "../../../charts/plots/compare/deviationChart.ts";
import { ChartFigure } from "../../chart/chartFigure.ts";

@customElement("annulus-deviations")
export class DeviationView extends ChartFigure {
  @property() protected override name = "deviations";
  @property() protected override label = "";
  @property() protected override about = "";
  @property() protected said = "";
  @property({ attribute: false }) data!: DeviationData;

  protected caption() {
    return this.said;
  }

  protected answer() {
    return null;
  }

  protected heightFor(width: number) {
    return deviationHeight(this.data, width);
  }

  protected inputs() {
    return [this.data];
  }

  protected draw(frame: Frame) {
    return deviationChart(this.data, frame);
  }

  protected table() {
    return deviationTable(this.data);
  }
}
