/** Repeat readings of one length, and what they say about it (JCGM 100:2008, 4.2). */
import { InputError } from "../../units/inputError.ts";

/** Readings that cannot be used; the message is one line. */
export class ReadingError extends InputError {
  override name = "ReadingError";
}

export interface ReadingsSummary {
  readonly count: number;
  readonly meanMm: number;
  /** Experimental standard deviation of one reading, mm; undefined for a single reading, which shows no spread. */
  readonly standardDeviationMm: number | undefined;
  /** Standard uncertainty of the mean, s/√n, mm; undefined for a single reading. */
  readonly standardUncertaintyMm: number | undefined;
}

/**
 * Mean, spread and type A standard uncertainty of readings in mm.
 *
 * @param what names the readings in messages, such as "depth".
 * @throws {ReadingError} when there are none, or one is not a finite length of at least 0.
 */
export function summariseReadings(readingsMm: readonly number[], what: string): ReadingsSummary {
  const count = readingsMm.length;
  if (count === 0) throw new ReadingError(`no ${what} reading; give one or more, such as 24.54 mm`);
  const bad = readingsMm.findIndex((readingMm) => !(readingMm >= 0 && readingMm < 1e6));
  if (bad >= 0)
    throw new ReadingError(
      `${what} reading ${bad + 1} is not a length of 0 mm or more; give one such as 24.54 mm`,
    );

  const meanMm = readingsMm.reduce((sum, readingMm) => sum + readingMm, 0) / count;
  if (count === 1) return { count, meanMm, standardDeviationMm: undefined, standardUncertaintyMm: undefined };
  const squares = readingsMm.reduce((sum, readingMm) => sum + (readingMm - meanMm) ** 2, 0);
  const standardDeviationMm = Math.sqrt(squares / (count - 1));
  return {
    count,
    meanMm,
    standardDeviationMm,
    standardUncertaintyMm: standardDeviationMm / Math.sqrt(count),
  };
}
