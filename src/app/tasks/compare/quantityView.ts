/** One quantity of every resonance, candidate by candidate, with the menu every drawing has. */
import { customElement, property } from "lit/decorators.js";
import type { Frame } from "../../../charts/kit/drawing.ts";
import {
  type CompareChartData,
  compareChart,
  compareChartHeight,
  compareChartTable,
} from "../../../charts/plots/compare/compareChart.ts";
import { ChartFigure } from "../../chart/chartFigure.ts";

@customElement("annulus-compare-quantity")
export class QuantityView extends ChartFigure {
  @property() protected override name = "compare-quantity";
  protected readonly label = "One quantity of every resonance, candidate by candidate";
  protected readonly about =
    "All on one scale. Each candidate's values are drawn over the reference's, which are dashed; within the hatched band about " +
    "them nobody feels the difference. An equivalent fundamental is a resonance over its number: level dots are a harmonic series.";
  @property({ attribute: false }) data!: CompareChartData;

  protected caption() {
    return this.data.feltFrom === null
      ? "Dashed: the reference."
      : "Dashed: the reference. Within the hatched band the difference is too small to feel.";
  }

  protected answer() {
    return null;
  }

  protected heightFor(width: number) {
    return compareChartHeight(this.data, width);
  }

  protected inputs() {
    return [this.data];
  }

  protected draw(frame: Frame) {
    return compareChart(this.data, frame);
  }

  protected table() {
    return compareChartTable(this.data);
  }
}
