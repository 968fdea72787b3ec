/** The readings of both lengths as they are drawn, with the one that stands apart. */
import type { GapMeasurement } from "../../../bench/measure/gap.ts";
import type { LengthReadings } from "../../../charts/plots/bench/readingsChart.ts";
import { type Measurement, measuredLength } from "../../state/bench/measurement.ts";
import type { LengthName } from "../../state/notes/measure.ts";

const NAMES = [
  ["depth", "receiver depth"],
  ["insertion", "insertion"],
] as const satisfies readonly (readonly [LengthName, string])[];

export const lengthReadings = (read: Measurement, measured: GapMeasurement): LengthReadings[] =>
  NAMES.map(([length, name]) => ({
    name,
    readingsMm: read[length].flatMap(({ lengthMm }) => lengthMm ?? []),
    meanMm: measured[length].meanMm,
    expandedMm: measuredLength(measured, length).expandedMm,
    outlier: measured.outliers[length]?.index,
  }));
