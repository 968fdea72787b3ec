/** Where a steady stream loses its pressure, part by part. */
import { customElement } from "lit/decorators.js";
import type { Frame } from "../../../charts/kit/drawing.ts";
import { flowChart, flowHeight, flowTable } from "../../../charts/plots/flowChart.ts";
import { ChartFigure } from "../../chart/chartFigure.ts";

@customElement("annulus-resistance-flow")
export class ResistanceFlowView extends ChartFigure {
  protected readonly name = "pressure-drop";
  protected readonly label = "Pressure drop of a steady stream, part by part";
  protected readonly about =
    "Each bar is what one part of the bore takes of the pressure that drives the stream, from the rim to the room. The gap's " +
    "jet is either caught whole by the leadpipe (least), or spreads a little on the way (estimate), or fills the cavity and " +
    "enters the leadpipe anew (most). The table has the Reynolds numbers and whether the stream is laminar or turbulent.";

  protected caption() {
    return "All parts but the gap are the same at both gaps.";
  }

  protected answer() {
    return this.page.feel.parts.stream;
  }

  protected heightFor(width: number) {
    const { value } = this.page.feel.parts.stream;
    return value ? flowHeight(value, width) : 360;
  }

  protected inputs() {
    return [this.page.feel.parts.stream.value];
  }

  protected draw(frame: Frame) {
    const { value } = this.page.feel.parts.stream;
    return value && flowChart(value, frame);
  }

  protected table() {
    const { value } = this.page.feel.parts.stream;
    return value && flowTable(value, this.page.store.parts.view.unit);
  }
}
