/** The bores over one another and their differences, with the menu every drawing has. */
import { customElement, property } from "lit/decorators.js";
import type { Frame } from "../../../charts/kit/drawing.ts";
import {
  type BoreDifferenceData,
  boreDifference,
  boreDifferenceHeight,
  boreDifferenceTable,
} from "../../../charts/plots/compare/boreDifference.ts";
import { ChartFigure } from "../../chart/chartFigure.ts";

@customElement("annulus-bores")
export class BoreView extends ChartFigure {
  protected readonly name = "bores";
  protected readonly label = "The bores over one another";
  protected readonly about =
    "Above, the inner wall from the axis outwards, radii drawn far larger than lengths. Below, how much wider each bore is than " +
    "the reference's at the same distance from the part's start; a longer one ends where the other ends.";
  @property({ attribute: false }) data!: BoreDifferenceData;

  protected caption() {
    return "Dashed blue: the reference. Where only that is seen, the bores are alike.";
  }

  protected answer() {
    return null;
  }

  protected heightFor(width: number) {
    return boreDifferenceHeight(this.data, width);
  }

  protected inputs() {
    const { part, reference, chosen, variants } = this.data;
    return [part, reference, chosen, ...variants.flatMap(({ name, profileMm }) => [name, profileMm])];
  }

  protected draw(frame: Frame) {
    return boreDifference(this.data, frame);
  }

  protected table() {
    return boreDifferenceTable(this.data, this.page.store.parts.view.unit);
  }
}
