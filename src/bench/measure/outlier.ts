/**
 * A reading that stands apart from the others, by Grubbs' two-sided test at 5 % (Grubbs 1969, Technometrics 11:1;
 * ISO 5725-2, 7.3.4): with n readings, mean x̄ and standard deviation s,
 *
 *   G = max |xᵢ − x̄| / s   against   (n − 1)/√n · √(t² / (n − 2 + t²)),   t = t_{1 − 0.05/(2n)} with n − 2 degrees of freedom.
 *
 * Normal spread, one outlier: two of them can hide each other. With three readings hardly anything stands apart, since G
 * cannot pass 2/√3. Such a reading is pointed out, never dropped.
 */
import { tQuantile } from "../../statistics/distributions.ts";
import { summariseReadings } from "./readings.ts";

export interface OutlyingReading {
  /** Its place among the readings, from 0. */
  readonly index: number;
  readonly readingMm: number;
  /** Grubbs' G, and the value that it is above. */
  readonly statistic: number;
  readonly criticalValue: number;
}

const significance = 0.05;
/** Taken for the tool's step where none is given: that of an ordinary digital caliper. */
const usualStepMm = 0.01;

/** Critical value of Grubbs' two-sided test for n ≥ 3 readings. */
export function grubbsCriticalValue(n: number, alpha = significance): number {
  const t = tQuantile(1 - alpha / (2 * n), n - 2);
  return ((n - 1) / Math.sqrt(n)) * Math.sqrt(t ** 2 / (n - 2 + t ** 2));
}

/**
 * The reading that the test points at; undefined when there is none, or fewer than three readings. The test knows
 * nothing of rounding: 24.54, 24.54, 24.55 would stand apart in it. So a reading within one step of its neighbour never does.
 */
export function outlyingReading(readingsMm: readonly number[], stepMm = 0): OutlyingReading | undefined {
  const { count, meanMm, standardDeviationMm } = summariseReadings(readingsMm, "length");
  if (count < 3 || !(standardDeviationMm! > 0)) return undefined;
  const distances = readingsMm.map((readingMm) => Math.abs(readingMm - meanMm));
  const index = distances.indexOf(Math.max(...distances));
  const statistic = distances[index] / standardDeviationMm!;
  const criticalValue = grubbsCriticalValue(count);
  const readingMm = readingsMm[index];
  const others = readingsMm.filter((_, i) => i !== index);
  const toNeighbourMm = Math.min(...others.map((otherMm) => Math.abs(otherMm - readingMm)));
  const isWithinStep = toNeighbourMm <= 1.000001 * (stepMm || usualStepMm);
  return statistic > criticalValue && !isWithinStep
    ? { index, readingMm, statistic, criticalValue }
    : undefined;
}
