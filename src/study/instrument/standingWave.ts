/**
 * The standing wave of one resonance along the bore, at its peak's frequency: where the gap sits on it is why one note
 * hears the gap and another does not. A cavity at a pressure antinode works by its volume, at a flow antinode by its mass.
 */
import { OutOfRange } from "../../units/outOfRange.ts";
import type { Instrument, Mode } from "./instrument.ts";

export interface StandingWave {
  readonly n: number;
  readonly frequencyHz: number;
  /** Distance from the rim, mm, rising. */
  readonly xMm: Float64Array;
  /** Inner diameter there, mm. */
  readonly diameterMm: Float64Array;
  /** |p| relative to its largest value along the bore. */
  readonly pressure: Float64Array;
  /** |U| relative to its largest value along the bore. */
  readonly flow: Float64Array;
  /** Where the gap begins (shank's end) and ends (leadpipe's start), mm from the rim. */
  readonly gapMm: readonly [fromMm: number, toMm: number];
  /** |p| and |U| at the middle of the gap, on the same scales. */
  readonly atGap: { readonly pressure: number; readonly flow: number };
}

/** Longest stretch between two stations, mm. */
const FINEST_MM = 4;

/**
 * @param modes the modes at this gap, where they are known already
 * @throws OutOfRange where there is no such resonance
 */
export function standingWave(
  instrument: Instrument,
  n: number,
  gapMm: number,
  modes: readonly Mode[] = instrument.modes(gapMm),
): StandingWave {
  const mode = modes[n - 1];
  if (!mode) throw new OutOfRange(`resonance ${n} does not exist here: choose one from 1 to ${modes.length}`);
  const frequencyHz = mode.peakHz ?? mode.frequencyHz;
  const { line } = instrument.column;
  const gap = instrument.gap(gapMm);
  const stations: { fromBell: number; radius: number; p: number; u: number }[] = [];
  line.trace(
    gap,
    0,
    2 * Math.PI * frequencyHz,
    (fromBell, radius, [pRe, pIm, uRe, uIm]) => {
      stations.push({ fromBell, radius, p: Math.hypot(pRe, pIm), u: Math.hypot(uRe, uIm) });
    },
    FINEST_MM / 1000,
  );
  stations.reverse();
  const length = stations[0].fromBell;
  const largestP = Math.max(...stations.map(({ p }) => p));
  const largestU = Math.max(...stations.map(({ u }) => u));
  const mouthpieceMm = 1000 * line.bore.mouthpiece.reduce((sum, piece) => sum + piece.length, 0);
  const xMm = Float64Array.from(stations, ({ fromBell }) => 1000 * (length - fromBell));
  const pressure = Float64Array.from(stations, ({ p }) => p / largestP);
  const flow = Float64Array.from(stations, ({ u }) => u / largestU);
  const gapTo = mouthpieceMm + gapMm;
  const at = (values: Float64Array): number => {
    const x = (mouthpieceMm + gapTo) / 2;
    let i = 1;
    while (i < xMm.length - 1 && xMm[i] < x) i++;
    const t = xMm[i] === xMm[i - 1] ? 0 : (x - xMm[i - 1]) / (xMm[i] - xMm[i - 1]);
    return values[i - 1] + t * (values[i] - values[i - 1]);
  };
  return {
    n,
    frequencyHz,
    xMm,
    diameterMm: Float64Array.from(stations, ({ radius }) => 2000 * radius),
    pressure,
    flow,
    gapMm: [mouthpieceMm, gapTo],
    atGap: { pressure: at(pressure), flow: at(flow) },
  };
}
