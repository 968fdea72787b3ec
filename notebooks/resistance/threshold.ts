/** The other meaning of resistance: the pressure in the mouth below which modelled lips do not start. */
import { equilibriumOf } from "../../src/lips/equilibrium.ts";
import { DEFAULT_LIPS } from "../../src/lips/lips.ts";
import { flowOf, resistance } from "../../src/study/blown/resistance.ts";
import { PLAYED } from "../../src/study/change/verdicts.ts";
import { MODAL_COUNT } from "../../src/study/feel/modalColumn.ts";
import { blownAt, valveIn } from "../../src/study/feel/slots.ts";
import { Instrument } from "../../src/study/instrument/instrument.ts";
import { demo } from "../paper/demo.ts";

const instrument = new Instrument(demo, { modes: MODAL_COUNT });
const valve = valveIn(instrument, DEFAULT_LIPS);

export interface NoteThreshold {
  readonly n: number;
  /** Lowest pressure in the mouth that starts the note, Pa. */
  readonly mouthPa: number;
  /** What the lips, open at rest under it, let through, L/min. */
  readonly litresPerMinute: number;
  /** What the whole bore takes of that pressure as a steady stream, Pa. */
  readonly borePa: number;
}

/** Notes 2 to 10 at one gap, as many as can be started. */
export function thresholdsAt(gapMm: number): readonly NoteThreshold[] {
  const { thresholds, stability } = blownAt(instrument, gapMm, valve);
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

/** Each note's change of threshold between two gaps, %. */
export const changesPercent = (
  from: readonly NoteThreshold[],
  to: readonly NoteThreshold[],
): readonly { readonly n: number; readonly percent: number }[] =>
  to.flatMap(({ n, mouthPa }) => {
    const before = from.find((note) => note.n === n);
    return before ? [{ n, percent: 100 * (mouthPa / before.mouthPa - 1) }] : [];
  });
