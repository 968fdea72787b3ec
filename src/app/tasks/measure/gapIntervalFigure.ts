/** The gap's interval drawn against contact and against the setup that is open. */
import { customElement, property } from "lit/decorators.js";
import type { Frame } from "../../../charts/kit/drawing.ts";
import {
  type GapInterval,
  gapIntervalChart,
  gapIntervalTable,
} from "../../../charts/plots/bench/gapIntervalChart.ts";
import { gapMm } from "../../../setup/setup.ts";
import { ChartFigure } from "../../chart/chartFigure.ts";
import { expandedGapMm, type Measurement } from "../../state/bench/measurement.ts";

@customElement("annulus-gap-interval")
export class GapIntervalFigure extends ChartFigure {
  @property({ attribute: false }) measurement!: Measurement;
  protected readonly name = "gap-interval";
  protected readonly label = "The gap's interval against contact";
  protected readonly about =
    "The dot is the measured gap, the line through it the interval that holds the gap with 95 % confidence. Left of 0 there " +
    "is metal: at 0 the shank touches the leadpipe, and no gap is below. The dashed line is the gap of the open setup.";

  protected caption() {
    return "Where the gap lies with 95 % confidence. At 0 the shank touches the leadpipe.";
  }

  protected answer() {
    return null;
  }

  protected heightFor() {
    return 150;
  }

  protected inputs() {
    return [this.measurement, this.page.store.parts.document.setup];
  }

  protected draw(frame: Frame) {
    const interval = this.#interval();
    return interval && gapIntervalChart(interval, frame);
  }

  protected table() {
    const interval = this.#interval();
    return interval && gapIntervalTable(interval, this.measurement.unit);
  }

  #interval(): GapInterval | null {
    const { measured } = this.measurement;
    if (!measured) return null;
    return {
      gapMm: measured.gapMm,
      expandedMm: expandedGapMm(measured),
      setupGapMm: gapMm(this.page.store.parts.document.setup),
    };
  }
}
