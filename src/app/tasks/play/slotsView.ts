/** Every note's slot at the chosen gap and the reference, as a chart with all that charts have. */
import { customElement } from "lit/decorators.js";
import type { Frame } from "../../../charts/kit/drawing.ts";
import { type SlotData, slotChart, slotHeight, slotTable } from "../../../charts/plots/slotChart.ts";
import { ChartFigure } from "../../chart/chartFigure.ts";

@customElement("annulus-slots-view")
export class SlotsView extends ChartFigure {
  protected readonly name = "slots";
  protected readonly label = "Slots of the notes at both gaps";
  protected readonly about =
    "A row a note. The solid bar is the lip frequencies at which this note is what begins, at the chosen gap; the dashed frame " +
    "the same at the reference. Its width is the hold. The circle is the pitch that sounds with the lips in the middle of the " +
    "bar: outward lips play above themselves. Pull is how far that pitch follows the lips, the slope of the short line: 0 locks " +
    "hard, 1 not at all. Margin is how much more pressure the next note would need.";

  protected caption() {
    return "Solid: lip frequencies that start the note at the chosen gap. Dashed: at the reference. Circle: what then sounds.";
  }

  protected answer() {
    return this.page.feel.parts.slots;
  }

  get #data(): SlotData | null {
    const { value } = this.page.feel.parts.slots;
    return value && { reference: value[0], chosen: value[1] };
  }

  protected heightFor(width: number) {
    const data = this.#data;
    return data ? slotHeight(data, width) : 360;
  }

  protected inputs() {
    return [this.page.feel.parts.slots.value];
  }

  protected draw(frame: Frame) {
    const data = this.#data;
    return data && slotChart(data, frame);
  }

  protected table() {
    const data = this.#data;
    return data && slotTable(data);
  }
}
