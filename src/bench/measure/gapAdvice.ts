/** What a person should know or do about a measured gap. */
import type { OutlyingReading } from "./outlier.ts";

/** Readings of one length to take again: how many there are, and the first one to doubt where there is one. */
export interface ToRepeat {
  readonly count: number;
  readonly first?: { readonly number: number; readonly readingMm: number };
}

export type GapAdvice =
  /** No gap is below 0. */
  | {
      readonly kind: "negative";
      readonly gapMm: number;
      readonly depth: ToRepeat;
      readonly insertion: ToRepeat;
    }
  /** A negative gap of unknown uncertainty, one whose interval reaches 0, and one whose does not. */
  | { readonly kind: "contact-or-mistake" }
  | { readonly kind: "contact" }
  | { readonly kind: "mistake" }
  /** A gap whose interval reaches 0. */
  | { readonly kind: "maybe-contact" }
  /** `repeat`: lengths of which there is one reading. */
  | { readonly kind: "unknown-uncertainty"; readonly repeat: readonly ("depth" | "insertion")[] }
  /** Pointed out and kept. */
  | { readonly kind: "outlier"; readonly of: "depth" | "insertion"; readonly reading: OutlyingReading }
  /** One tool's zero error drops out. */
  | { readonly kind: "same-tool" };

/** A negative gap is contact at the leadpipe or a mistake: which readings to take again, and which of the two it can be. */
export const negativeGapAdvice = (
  gapMm: number,
  highMm: number | undefined,
  depthMm: readonly number[],
  insertionMm: readonly number[],
): GapAdvice[] => [
  { kind: "negative", gapMm, depth: toRepeat(depthMm), insertion: toRepeat(insertionMm) },
  { kind: highMm === undefined ? "contact-or-mistake" : highMm >= 0 ? "contact" : "mistake" },
];

/** With three readings or more, the one farthest from the middle is the first to doubt. */
function toRepeat(readingsMm: readonly number[]): ToRepeat {
  const count = readingsMm.length;
  if (count < 3) return { count };
  const median = [...readingsMm].sort((a, b) => a - b)[Math.floor(count / 2)];
  const distances = readingsMm.map((readingMm) => Math.abs(readingMm - median));
  const farthest = distances.indexOf(Math.max(...distances));
  if (distances[farthest] === 0) return { count };
  return { count, first: { number: farthest + 1, readingMm: readingsMm[farthest] } };
}
