/**
 * The gap from measurements: how deep the receiver is, less how far the shank goes in, with what repeat readings say
 * about its uncertainty. The shoulder gap seen from outside has no part in it.
 */
import { formatLength } from "../units/formatLength.ts";
import {
  combinedUncertainty,
  coverageFactor,
  effectiveDegreesOfFreedom,
  type UncertaintyComponent,
} from "./coverage.ts";
import { ReadingError, type ReadingsSummary, summariseReadings } from "./readings.ts";

export interface GapReadings {
  /** Receiver's face to the start of the leadpipe, mm, one entry a reading. */
  readonly depthMm: readonly number[];
  /** How far the shank goes in, mm, one entry a reading. */
  readonly insertionMm: readonly number[];
  /** Smallest step the measuring tool shows, mm. Left out, it counts for nothing. */
  readonly resolutionMm?: number;
}

export interface GapMeasurement {
  readonly gapMm: number;
  readonly depth: ReadingsSummary;
  readonly insertion: ReadingsSummary;
  /** Standard uncertainty of the gap, mm; undefined when the readings cannot tell. */
  readonly standardUncertaintyMm: number | undefined;
  /** Welch–Satterthwaite; Infinity when the tool's resolution is all there is. */
  readonly degreesOfFreedom: number | undefined;
  readonly coverageFactor: number | undefined;
  /** Where the gap lies with `confidence`, mm. It may reach below 0, where no gap can be. */
  readonly intervalMm: readonly [lowMm: number, highMm: number] | undefined;
  readonly confidence: number;
  /** The readings say that the shank is past the start of the leadpipe: some of them are wrong. */
  readonly isNegative: boolean;
  /** What the person should know or do, a sentence each; empty when all is well. */
  readonly advice: readonly string[];
}

const confidence = 0.95;

/**
 * Gap = mean depth − mean insertion, with its standard uncertainty and 95 % interval.
 *
 * @throws {ReadingError} when a kind of reading is missing, or one is not a length of 0 mm or more.
 */
export function gapFromReadings({ depthMm, insertionMm, resolutionMm = 0 }: GapReadings): GapMeasurement {
  const depth = summariseReadings(depthMm, "depth");
  const insertion = summariseReadings(insertionMm, "insertion");
  if (!(resolutionMm >= 0 && resolutionMm < 1e6))
    throw new ReadingError("the resolution is not a length of 0 mm or more; give one such as 0.01 mm");

  const gapMm = depth.meanMm - insertion.meanMm;
  const isNegative = gapMm < 0;
  const advice: string[] = [];
  if (isNegative) advice.push(negativeGapAdvice(gapMm, depthMm, insertionMm));
  const components = uncertaintyComponents(depth, insertion, resolutionMm, advice);
  if (components === undefined)
    return {
      gapMm,
      depth,
      insertion,
      standardUncertaintyMm: undefined,
      degreesOfFreedom: undefined,
      coverageFactor: undefined,
      intervalMm: undefined,
      confidence,
      isNegative,
      advice,
    };

  const standardUncertaintyMm = combinedUncertainty(components);
  const degreesOfFreedom = effectiveDegreesOfFreedom(components);
  const factor = coverageFactor(degreesOfFreedom, confidence);
  const reachMm = factor * standardUncertaintyMm;
  return {
    gapMm,
    depth,
    insertion,
    standardUncertaintyMm,
    degreesOfFreedom,
    coverageFactor: factor,
    intervalMm: [gapMm - reachMm, gapMm + reachMm],
    confidence,
    isNegative,
    advice,
  };
}

/** What the gap's uncertainty is made of; undefined, with advice, when the readings cannot tell. */
function uncertaintyComponents(
  depth: ReadingsSummary,
  insertion: ReadingsSummary,
  resolutionMm: number,
  advice: string[],
): UncertaintyComponent[] | undefined {
  const single = [
    ...(depth.count === 1 ? ["depth"] : []),
    ...(insertion.count === 1 ? ["insertion"] : []),
  ].join(" and the ");
  if (single !== "") {
    advice.push(`The uncertainty is unknown: repeat the ${single} reading, taking the tool off each time.`);
    return undefined;
  }
  const repeats = [depth, insertion].map(({ count, standardUncertaintyMm }) => ({
    standardUncertainty: standardUncertaintyMm!,
    degreesOfFreedom: count - 1,
  }));
  // A reading is anywhere within one step of the tool: a rectangle, u = step/√12 (JCGM 100:2008, F.2.2.1). Repeats do
  // not average it away, so it counts once for each of the two lengths.
  const resolution = { standardUncertainty: resolutionMm / Math.sqrt(12), degreesOfFreedom: Infinity };
  const components = [...repeats, resolution, resolution];
  if (combinedUncertainty(components) > 0) return components;
  advice.push(
    "The uncertainty is unknown: all readings agree, so give the smallest step that the tool shows.",
  );
  return undefined;
}

function negativeGapAdvice(
  gapMm: number,
  depthMm: readonly number[],
  insertionMm: readonly number[],
): string {
  return (
    `The gap comes out at ${formatLength(gapMm, "mm")}, which cannot be: repeat ` +
    `${whichToRepeat(depthMm, "depth")} and ${whichToRepeat(insertionMm, "insertion")}.`
  );
}

/** With three readings or more, the one farthest from the middle is the first to doubt. */
function whichToRepeat(readingsMm: readonly number[], what: string): string {
  const all = `the ${what} ${readingsMm.length === 1 ? "reading" : "readings"}`;
  if (readingsMm.length < 3) return all;
  const median = [...readingsMm].sort((a, b) => a - b)[Math.floor(readingsMm.length / 2)];
  const distances = readingsMm.map((readingMm) => Math.abs(readingMm - median));
  const farthest = distances.indexOf(Math.max(...distances));
  if (distances[farthest] === 0) return all;
  return `${all} (first number ${farthest + 1}, ${formatLength(readingsMm[farthest], "mm")})`;
}
