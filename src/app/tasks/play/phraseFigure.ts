/** What sounded while a phrase was played at both gaps. */
import { customElement, property } from "lit/decorators.js";
import type { Frame } from "../../../charts/kit/drawing.ts";
import {
  type PlayedPhrase,
  phraseChart,
  phraseFinding,
  phraseTable,
} from "../../../charts/plots/phraseChart.ts";
import { ChartFigure } from "../../chart/chartFigure.ts";

@customElement("annulus-phrase-figure")
export class PhraseFigure extends ChartFigure {
  @property({ attribute: false }) phrase!: PlayedPhrase;
  protected readonly name = "phrase";
  protected readonly label = "One phrase at two gaps";
  protected readonly about =
    "The modelled lips move along the thin line, in the same way at both gaps, blown with 1.6 times each note's threshold at the " +
    "reference gap. What sounds is counted on the lips every 0.04 s, so that moments are known to that. Lips move their aim in " +
    "0.05 s to 0.12 s and never miss; a person's do not.";

  protected caption() {
    return phraseFinding(this.phrase);
  }

  protected answer() {
    return null;
  }

  protected heightFor(width: number) {
    return Math.min(420, Math.max(320, 0.6 * width));
  }

  protected inputs() {
    return [this.phrase];
  }

  protected draw(frame: Frame) {
    return phraseChart(this.phrase, frame);
  }

  protected table() {
    return phraseTable(this.phrase);
  }
}
