/** The gap after each stage of the way chosen. */
import { customElement, property } from "lit/decorators.js";
import type { Frame } from "../../../charts/kit/drawing.ts";
import { type StagesData, stagesChart, stagesTable } from "../../../charts/plots/bench/stagesChart.ts";
import { ChartFigure } from "../../chart/chartFigure.ts";

@customElement("annulus-cut-stages")
export class StagesView extends ChartFigure {
  protected readonly name = "cut-stages";
  protected readonly label = "Gap after each stage";
  protected readonly about =
    "The staircase goes from the gap now to the limits within which the work is done (hatched). Each stage goes at most half of " +
    "the way that remains to the target, marked by a short line; then the gap is measured again.";
  @property({ attribute: false }) data: StagesData | null = null;

  protected caption() {
    return "Short lines: half of what remains. Hatched: done.";
  }

  protected answer() {
    return null;
  }

  protected heightFor(width: number) {
    return width < 420 ? 240 : 260;
  }

  protected inputs() {
    return [this.data];
  }

  protected draw(frame: Frame) {
    return this.data && stagesChart(this.data, frame);
  }

  protected table() {
    return this.data && stagesTable(this.data, this.page.store.parts.view.unit);
  }
}
