/** How a search for a leadpipe goes, with the menu every drawing has. */
import { customElement, property } from "lit/decorators.js";
import type { Frame } from "../../../charts/kit/drawing.ts";
import { type DesignStep, designChart, designTable } from "../../../charts/plots/compare/designChart.ts";
import { ChartFigure } from "../../chart/chartFigure.ts";

@customElement("annulus-design-steps")
export class DesignView extends ChartFigure {
  protected readonly name = "design-steps";
  protected readonly label = "The search, step by step";
  protected readonly about =
    "Every step the search took. It begins with the present leadpipe and then with others, since a goal may have several valleys; " +
    "the numbers on top are the starts. What is left is the weighted root mean square of the misses, of pitch in cents, of heights in dB.";
  @property({ attribute: false }) data: readonly DesignStep[] = [];

  protected caption() {
    return "Orange: the best so far.";
  }

  protected answer() {
    return null;
  }

  protected heightFor(width: number) {
    return Math.min(300, Math.max(220, 0.45 * width));
  }

  protected inputs() {
    return [this.data];
  }

  protected draw(frame: Frame) {
    return designChart(this.data, frame);
  }

  protected table() {
    return designTable(this.data);
  }
}
