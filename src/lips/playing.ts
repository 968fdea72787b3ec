/**
 * What is sounding in a stretch of an oscillation: its frequency, counted on the lips, which move nearly as a sine, by their
 * rising crossings of their mean; whether it sounds at all, by the cup's alternating pressure.
 */

/** Below this part of the mouth pressure, peak to peak, the lips do not speak. */
const SILENT = 0.01;

export interface Playing {
  /** null where nothing sounds. */
  readonly frequencyHz: number | null;
  /** Largest less smallest pressure in the cup, Pa. */
  readonly peakToPeak: number;
}

/**
 * What is sounding in a stretch of samples: its frequency, or that nothing sounds.
 * @param pressures in the cup, Pa, a few periods or more
 * @param openings of the same samples, m
 */
export function playingOf(
  pressures: Float64Array,
  openings: Float64Array,
  sampleRate: number,
  mouthPressure: number,
): Playing {
  let low = Infinity;
  let high = -Infinity;
  let sum = 0;
  for (let i = 0; i < pressures.length; i++) {
    low = Math.min(low, pressures[i]);
    high = Math.max(high, pressures[i]);
    sum += openings[i];
  }
  const mean = sum / openings.length;
  const peakToPeak = high - low;
  let first = 0;
  let last = 0;
  let periods = -1;
  for (let i = 1; i < openings.length; i++) {
    const before = openings[i - 1] - mean;
    const after = openings[i] - mean;
    if (!(before < 0 && after >= 0)) continue;
    last = i - after / (after - before);
    if (periods < 0) first = last;
    periods++;
  }
  const sounds = peakToPeak > SILENT * mouthPressure && periods > 0;
  return { frequencyHz: sounds ? (periods * sampleRate) / (last - first) : null, peakToPeak };
}
