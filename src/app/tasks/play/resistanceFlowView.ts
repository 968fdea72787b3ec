/** Where a steady stream loses its pressure, part by part. */
import { customElement } from "lit/decorators.js";
import type { Frame } from "../../../charts/kit/drawing.ts";
import { flowChart, flowHeight, flowTable } from "../../../charts/plots/flowChart.ts";
import { ChartFigure } from "../../chart/chartFigure.ts";
import { FeelController } from "../../state/storeController.ts";

@customElement("annulus-resistance-flow")
export class ResistanceFlowView extends ChartFigure {
  readonly #feel = new FeelController(this, "stream");
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
    return this.#feel.state.stream;
  }

  protected heightFor(width: number) {
    const { value } = this.#feel.state.stream;
    return value ? flowHeight(value, width) : 360;
  }

  protected inputs() {
    return [this.#feel.state.stream.value];
  }

  protected draw(frame: Frame) {
    const { value } = this.#feel.state.stream;
    return value && flowChart(value, frame);
  }

  protected table() {
    const { value } = this.#feel.state.stream;
    return value && flowTable(value, this.page.state.view.unit);
  }
}
