/** A measured impedance over the model's, with the menu every drawing has. */
import { customElement, property } from "lit/decorators.js";
import type { Frame } from "../../../charts/kit/drawing.ts";
import {
  type MeasuredChartData,
  measuredChart,
  measuredChartHeight,
  measuredChartTable,
} from "../../../charts/plots/compare/measuredChart.ts";
import { ChartFigure } from "../../chart/chartFigure.ts";

@customElement("annulus-measured-curves")
export class MeasuredView extends ChartFigure {
  protected readonly name = "measured-impedance";
  protected readonly label = "Measured impedance over the model's";
  protected readonly about =
    "How strongly the instrument answers at the mouthpiece's rim, as measured and as modelled, in decibels, so that troughs count as " +
    "peaks do. Where the measurement's unit is unknown it is put as high as the model in the mean. The numbers are the model's resonances.";
  @property({ attribute: false }) data!: MeasuredChartData;

  protected caption() {
    const fitted = this.data.fitted ? " Orange: the model with what was fitted." : "";
    return `Ink: the measurement. Dashed blue: the model as the setup has it.${fitted}`;
  }

  protected answer() {
    return null;
  }

  protected heightFor(width: number) {
    return measuredChartHeight(width);
  }

  protected inputs() {
    return [this.data];
  }

  protected draw(frame: Frame) {
    return measuredChart(this.data, frame);
  }

  protected table() {
    return measuredChartTable(this.data);
  }
}
