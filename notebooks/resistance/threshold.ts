/** The other meaning of resistance: the pressure in the mouth below which modelled lips do not start. */
import { equilibriumOf } from "../../src/lips/equilibrium.ts";
import { DEFAULT_LIPS } from "../../src/lips/lips.ts";
import { breathOf } from "../../src/study/blown/breath.ts";
import { flowOf, resistance } from "../../src/study/blown/resistance.ts";
import { PLAYED } from "../../src/study/change/verdicts.ts";
import { MODAL_COUNT } from "../../src/study/feel/modalColumn.ts";
import { blownAt, valveIn } from "../../src/study/feel/slots.ts";
import { Instrument } from "../../src/study/instrument/instrument.ts";
import { KeptAnswers } from "../../src/study/keptAnswers.ts";
import { demo } from "../paper/demo.ts";

const still = new Instrument(demo, { modes: MODAL_COUNT });
const valve = valveIn(still, DEFAULT_LIPS);

/** The demo under a breath; the one asked for last is kept. */
const underBreath = (litresPerMinute: number): Instrument =>
  litresPerMinute === 0
    ? still
    : blown.to(
        still,
        [litresPerMinute],
        () => new Instrument(demo, { like: still, breath: breathOf(demo, litresPerMinute) }),
      );
const blown = new KeptAnswers<Instrument, Instrument>(1);

export interface NoteThreshold {
  readonly n: number;
  /** Lowest pressure in the mouth that starts the note, Pa. */
  readonly mouthPa: number;
  /** What the lips, open at rest under it, let through, L/min. */
  readonly litresPerMinute: number;
  /** What the whole bore takes of that pressure as a steady stream, Pa. */
  readonly borePa: number;
}

/**
 * Notes 2 to 10 at one gap, as many as can be started.
 *
 * @param breath L/min that the column is taken under; 0 is still air
 */
export function thresholdsAt(gapMm: number, breath = 0): readonly NoteThreshold[] {
  const { thresholds, stability } = blownAt(underBreath(breath), gapMm, valve);
  const [low, high] = PLAYED;
  return Array.from({ length: high - low + 1 }, (_, i) => low + i).flatMap((n) => {
    const onset = thresholds.lowest(n);
    if (!onset) return [];
    const { flow } = equilibriumOf(valve, stability.resistance, onset.lipHz, onset.mouthPressure);
    const litresPerMinute = flow / flowOf(1);
    return [
      {
        n,
        mouthPa: onset.mouthPressure,
        litresPerMinute,
        borePa: resistance(demo, { gapMm, litresPerMinute }).dropPa.estimate,
      },
    ];
  });
}

export interface ThresholdChange {
  readonly n: number;
  readonly percent: number;
}

/** Each note's change from one set of thresholds to another, %. */
export const changesPercent = (
  from: readonly NoteThreshold[],
  to: readonly NoteThreshold[],
): readonly ThresholdChange[] =>
  to.flatMap(({ n, mouthPa }) => {
    const before = from.find((note) => note.n === n);
    return before ? [{ n, percent: 100 * (mouthPa / before.mouthPa - 1) }] : [];
  });

/** The one that changes most, either way; null of none. */
export const largestChange = (changes: readonly ThresholdChange[]): ThresholdChange | null =>
  changes.reduce<ThresholdChange | null>(
    (most, one) => (most === null || Math.abs(one.percent) > Math.abs(most.percent) ? one : most),
    null,
  );
