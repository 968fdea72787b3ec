/** The chance that a leap lands wrong against gap. */
import { customElement, property } from "lit/decorators.js";
import type { Frame } from "../../../charts/kit/drawing.ts";
import { type LeapData, leapChart, leapTable } from "../../../charts/plots/leapChart.ts";
import { ChartFigure } from "../../chart/chartFigure.ts";

@customElement("annulus-leaps-view")
export class LeapsView extends ChartFigure {
  protected readonly name = "leaps";
  protected readonly label = "Chance that a leap lands wrong, against gap";
  protected readonly about =
    "A mark a gap: of so many leaps, each with its own error of aim, how many ended on another note or on none. The bar is " +
    "where the chance lies with 95 % confidence. Every gap got the same errors, so that what differs is the gap; gaps whose " +
    "bars overlap cannot be told apart by so few leaps.";
  @property({ attribute: false }) data: LeapData | null = null;

  protected caption() {
    return "Bars: 95 % confidence. More leaps make them shorter.";
  }

  protected answer() {
    return null;
  }

  protected heightFor(width: number) {
    return Math.min(400, Math.max(290, 0.5 * width));
  }

  protected inputs() {
    return [this.data];
  }

  protected draw(frame: Frame) {
    return this.data && leapChart(this.data, frame);
  }

  protected table() {
    return this.data && leapTable(this.data, this.page.store.parts.view.unit);
  }
}
