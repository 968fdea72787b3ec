/** What an error of the leadpipe's bore does along it, with the menu every drawing has. */
import { customElement, property } from "lit/decorators.js";
import type { Frame } from "../../../charts/kit/drawing.ts";
import {
  type SensitivityData,
  sensitivityChart,
  sensitivityTable,
} from "../../../charts/plots/compare/sensitivityChart.ts";
import { formatLength } from "../../../units/formatLength.ts";
import { ChartFigure } from "../../chart/chartFigure.ts";

@customElement("annulus-sensitivity")
export class SensitivityView extends ChartFigure {
  protected readonly name = "bore-sensitivity";
  protected readonly label = "What an error of the leadpipe's bore does";
  protected readonly about =
    "The leadpipe is too wide at one place: a bump that is largest there and gone on either side. Each curve says what that does to " +
    "one resonance, exact to first order; half the error does half, a bore too narrow the opposite. Errors at several places add up.";
  @property({ attribute: false }) data!: SensitivityData;

  protected caption() {
    const { unit } = this.page.store.parts.view;
    return `The error is gone ${formatLength(this.data.extentMm, unit)} to either side. Orange: resonance ${this.data.highlight}.`;
  }

  protected answer() {
    return null;
  }

  protected heightFor(width: number) {
    return Math.min(400, Math.max(280, 0.5 * width));
  }

  protected inputs() {
    return [this.data];
  }

  protected draw(frame: Frame) {
    return sensitivityChart(this.data, frame);
  }

  protected table() {
    return sensitivityTable(this.data, this.page.store.parts.view.unit);
  }
}
