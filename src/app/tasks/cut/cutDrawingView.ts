/** The shank's wall before and after the way chosen. */
import { customElement, property } from "lit/decorators.js";
import { cutDrawing } from "../../../charts/drawings/cutDrawing.ts";
import { cutTable, type ShankCut, type ShankState } from "../../../charts/drawings/shankCut.ts";
import type { Frame } from "../../../charts/kit/drawing.ts";
import { cavityDiameterMm } from "../../../setup/geometry.ts";
import type { Setup } from "../../../setup/setup.ts";
import { ChartFigure } from "../../chart/chartFigure.ts";

@customElement("annulus-cut-drawing")
export class CutDrawingView extends ChartFigure {
  protected readonly name = "cut-drawing";
  protected readonly label = "The shank's wall before and after, in section";
  protected readonly about =
    "One wall of the shank cut open along its axis, the bore below it. Lengths are to one scale, diameters to a larger one, " +
    "and a layer too thin to be seen is drawn thicker again: the drawing says by how much. The wall is given as it is, " +
    "not as it is drawn. The receiver's face is where the receiver begins on the seated shank.";
  /** As it will be. */
  @property({ attribute: false }) planned: Setup | null = null;

  protected caption() {
    return "Hatched in the accent: what is taken off, or laid on.";
  }

  protected answer() {
    return null;
  }

  protected heightFor() {
    return 240;
  }

  protected inputs() {
    return [this.page.store.parts.document.setup, this.planned];
  }

  protected draw(frame: Frame) {
    return this.planned && cutDrawing(this.#cut(this.planned), frame);
  }

  protected table() {
    return this.planned && cutTable(this.#cut(this.planned), this.page.store.parts.view.unit);
  }

  #cut(planned: Setup): ShankCut {
    const { setup } = this.page.store.parts.document;
    const { shankTaper, shankEndDiameterMm } = setup.mouthpiece;
    return {
      before: stateOf(setup),
      after: stateOf(planned),
      taper: shankTaper ?? setup.receiver.taper,
      isEndKnown: shankEndDiameterMm !== undefined,
    };
  }
}

const stateOf = ({ mouthpiece, receiver }: Setup): ShankState => ({
  boreMm: mouthpiece.profileMm,
  insertionMm: mouthpiece.insertionMm,
  endDiameterMm:
    mouthpiece.shankEndDiameterMm ??
    cavityDiameterMm(receiver.mouthDiameterMm, receiver.taper, mouthpiece.insertionMm),
});
