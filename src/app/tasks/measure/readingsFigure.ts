/** The readings drawn about their means, with the one that stands apart. */
import { customElement, property } from "lit/decorators.js";
import type { GapMeasurement } from "../../../bench/measure/gap.ts";
import type { Frame } from "../../../charts/kit/drawing.ts";
import {
  type LengthReadings,
  readingsChart,
  readingsTable,
} from "../../../charts/plots/bench/readingsChart.ts";
import { ChartFigure } from "../../chart/chartFigure.ts";
import { type Measurement, measuredLength } from "../../state/bench/measurement.ts";
import type { LengthName } from "../../state/notes/measureNotes.ts";

@customElement("annulus-readings-figure")
export class ReadingsFigure extends ChartFigure {
  @property({ attribute: false }) measurement!: Measurement;
  protected readonly name = "readings";
  protected readonly label = "The readings about their means";
  protected readonly about =
    "Each dot is one reading, as far from the mean of its length as it was read; equal readings stand on one another. " +
    "Under them the interval that holds the mean with 95 % confidence, the tool's step and zero in it. A diamond is a " +
    "reading that stands apart from the others by Grubbs' test; it is counted like the rest.";

  protected caption() {
    return "Each dot is a reading; under them the 95 % interval of the mean.";
  }

  protected answer() {
    return null;
  }

  protected heightFor() {
    return 236;
  }

  protected inputs() {
    return [this.measurement];
  }

  protected draw(frame: Frame) {
    const { measured } = this.measurement;
    return measured ? readingsChart(lengthsOf(this.measurement, measured), frame) : null;
  }

  protected table() {
    const { measured, unit } = this.measurement;
    return measured ? readingsTable(lengthsOf(this.measurement, measured), unit) : null;
  }
}

const lengthsOf = (read: Measurement, measured: GapMeasurement): LengthReadings[] =>
  (
    [
      ["depth", "receiver depth"],
      ["insertion", "insertion"],
    ] as const satisfies readonly (readonly [LengthName, string])[]
  ).map(([length, name]) => ({
    name,
    readingsMm: read[length].flatMap(({ lengthMm }) => lengthMm ?? []),
    meanMm: measured[length].meanMm,
    expandedMm: measuredLength(measured, length).expandedMm,
    outlier: measured.outliers[length]?.index,
  }));
