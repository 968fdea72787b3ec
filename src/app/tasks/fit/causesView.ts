/** What makes the gaps differ, with the menu every drawing has. */
import { customElement, property } from "lit/decorators.js";
import type { Frame } from "../../../charts/kit/drawing.ts";
import {
  type CausesData,
  causesChart,
  causesHeight,
  causesTable,
} from "../../../charts/plots/bench/causesChart.ts";
import { ChartFigure } from "../../chart/chartFigure.ts";

@customElement("annulus-causes")
export class CausesView extends ChartFigure {
  protected readonly name = "causes";
  protected readonly label = "What makes the gaps differ";
  protected readonly about =
    "Each dimension's share of the gaps' variance, to first order about the mean dimensions. What dimensions do together, by " +
    "going up and down with each other, is hatched; it is negative where they make up for one another, and single " +
    "shares may then pass 100 %. All shares sum to 100 %.";
  @property({ attribute: false }) data!: CausesData;

  protected caption() {
    return "Shares of the variance; they sum to 100 %.";
  }

  protected answer() {
    return null;
  }

  protected heightFor(width: number) {
    return causesHeight(this.data, width);
  }

  protected inputs() {
    return [this.data];
  }

  protected draw(frame: Frame) {
    return causesChart(this.data, frame);
  }

  protected table() {
    return causesTable(this.data);
  }
}
