/** The gaps of a set of parts on one axis, with the menu every drawing has. */
import { customElement, property } from "lit/decorators.js";
import type { Frame } from "../../../charts/kit/drawing.ts";
import {
  type SpreadData,
  spreadChart,
  spreadHeight,
  spreadTable,
} from "../../../charts/plots/bench/spreadChart.ts";
import { ChartFigure } from "../../chart/chartFigure.ts";

@customElement("annulus-spread")
export class SpreadView extends ChartFigure {
  protected readonly name = "spread";
  protected readonly label = "How far the gaps lie apart";
  protected readonly about =
    "A line a part, a mark a gap, its bar twice the standard uncertainty to either side. An open mark is a shank on the " +
    "leadpipe: it counts for neither mean nor deviation. Hatched: one standard deviation about the mean. The dashed line " +
    "is the preferred gap. In the accent: the chosen pair.";
  @property({ attribute: false }) data!: SpreadData;

  protected caption() {
    return "Every gap, with twice its uncertainty.";
  }

  protected answer() {
    return null;
  }

  protected heightFor(width: number) {
    return spreadHeight(this.data, width);
  }

  protected inputs() {
    return [this.data];
  }

  protected draw(frame: Frame) {
    return spreadChart(this.data, frame);
  }

  protected table() {
    return spreadTable(this.data, this.page.store.parts.view.unit);
  }
}
