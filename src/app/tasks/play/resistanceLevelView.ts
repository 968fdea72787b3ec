/** How much lower the peaks get from soft to loud. */
import { customElement } from "lit/decorators.js";
import type { Frame } from "../../../charts/kit/drawing.ts";
import { type LevelData, levelChart, levelTable } from "../../../charts/plots/levelChart.ts";
import { ChartFigure } from "../../chart/chartFigure.ts";

@customElement("annulus-resistance-level")
export class ResistanceLevelView extends ChartFigure {
  protected readonly name = "height-against-level";
  protected readonly label = "Height of each peak from soft to loud";
  protected readonly about =
    "The air that swings through the throat and over the gap's edges loses energy as the square of its speed, so that a peak " +
    "is lower when loud. Solid: the chosen gap, a line a resonance; dashed: the reference. The table also has what the gap's " +
    "edges alone do, by their three figures. Left out: steepening of loud waves, and the steady stream beside the swinging one.";

  protected caption() {
    return "Solid: the chosen gap. Dashed: the reference. Where they cover each other, loudness makes no difference between them.";
  }

  protected answer() {
    return this.page.feel.parts.levels;
  }

  get #data(): LevelData | null {
    const { value } = this.page.feel.parts.levels;
    return (
      value && { reference: value[0], chosen: value.at(-1)!, highlight: this.page.store.parts.view.resonance }
    );
  }

  protected heightFor(width: number) {
    return Math.min(420, Math.max(300, 0.62 * width));
  }

  protected inputs() {
    return [this.page.feel.parts.levels.value, this.page.store.parts.view.resonance];
  }

  protected draw(frame: Frame) {
    const data = this.#data;
    return data && levelChart(data, frame);
  }

  protected table() {
    const data = this.#data;
    return data && levelTable(data);
  }
}
