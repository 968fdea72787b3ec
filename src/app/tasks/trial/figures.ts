/** The drawings of a trial: what was said of each item, whether it was said again, and the chance to find a difference. */
import { customElement, property } from "lit/decorators.js";
import type { Frame } from "../../../charts/kit/drawing.ts";
import {
  type AgreementData,
  agreementChart,
  agreementTable,
} from "../../../charts/plots/trial/agreementChart.ts";
import { type PowerData, powerChart, powerTable } from "../../../charts/plots/trial/powerChart.ts";
import { type RatingsData, ratingsChart, ratingsTable } from "../../../charts/plots/trial/ratingsChart.ts";
import { ChartFigure } from "../../chart/chartFigure.ts";

abstract class TrialFigure<Data> extends ChartFigure {
  @property({ attribute: false }) data!: Data;
  protected override readonly followsHand = false;

  protected answer() {
    return null;
  }

  protected heightFor(width: number) {
    return Math.min(380, Math.max(260, 0.6 * width));
  }

  protected inputs() {
    return [this.data];
  }
}

@customElement("annulus-trial-ratings")
export class RatingsFigure extends TrialFigure<RatingsData> {
  protected readonly name = "trial-ratings";
  protected readonly label = "What was said of each";
  protected readonly about =
    "Rings: the ratings, from left to right by repeat. The thick line is their mean, the thin one its 95 % interval. The curve " +
    "is the parabola that fits best, its band 95 % at each gap, the bar above it where the preferred gap lies with 95 % " +
    "confidence; it is drawn only where preference was told apart.";

  protected caption() {
    return "Each ring is one turn, the thick line the mean of all repeats.";
  }

  protected draw(frame: Frame) {
    return ratingsChart(this.data, frame);
  }

  protected table() {
    return ratingsTable(this.data, this.page.store.parts.view.unit);
  }
}

@customElement("annulus-trial-agreement")
export class AgreementFigure extends TrialFigure<AgreementData> {
  protected readonly name = "trial-agreement";
  protected readonly label = "Ratings from repeat to repeat";
  protected readonly about =
    "A line is one item, from its first repeat to its last. Where the player says the same again the lines stay in their " +
    "order; all of them rising or falling together is a drift, which the tests leave out.";

  protected caption() {
    return "Lines that keep their order mean that the player says the same again.";
  }

  protected draw(frame: Frame) {
    return agreementChart(this.data, frame);
  }

  protected table() {
    return agreementTable(this.data);
  }
}

@customElement("annulus-trial-power")
export class PowerFigure extends TrialFigure<PowerData> {
  protected readonly name = "trial-power";
  protected readonly label = "Chance to find the difference";
  protected readonly about =
    "Simulated trials of a player whose ratings scatter as given: the share in which the difference is found. The best and the " +
    "worst lie that far apart and all others midway, which is the hardest case.";

  protected caption() {
    return "More repeats find smaller differences.";
  }

  protected override heightFor(width: number) {
    return Math.min(300, Math.max(220, 0.5 * width));
  }

  protected draw(frame: Frame) {
    return powerChart(this.data, frame);
  }

  protected table() {
    return powerTable(this.data);
  }
}
