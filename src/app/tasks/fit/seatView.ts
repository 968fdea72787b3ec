/** The chosen pair in section, with the menu every drawing has. */
import { customElement, property } from "lit/decorators.js";
import { type SeatData, seatDrawing, seatTable } from "../../../charts/drawings/seatDrawing.ts";
import type { Frame } from "../../../charts/kit/drawing.ts";
import { ChartFigure } from "../../chart/chartFigure.ts";

@customElement("annulus-seat")
export class SeatView extends ChartFigure {
  protected readonly name = "seat";
  protected readonly label = "Where the shank seats, in section";
  protected readonly about =
    "The upper half of shank and receiver cut open along the axis. Lengths along the bore are true to scale; radii are " +
    "drawn many times as large, so that a clearance of a hundredth can be seen. The heavy line is where the walls touch " +
    "within the clearance that counts as touching. Wall thicknesses are not measured.";
  @property({ attribute: false }) seat!: SeatData;

  protected caption() {
    return "Shank in receiver, upper half.";
  }

  protected answer() {
    return null;
  }

  protected heightFor(width: number) {
    return width < 560 ? 320 : 340;
  }

  protected inputs() {
    return [this.seat];
  }

  protected draw(frame: Frame) {
    return seatDrawing(this.seat, frame);
  }

  protected table() {
    return seatTable(this.seat, this.page.store.parts.view.unit);
  }
}
