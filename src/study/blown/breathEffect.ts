/** What a breath does to the height of the peaks, and what another gap does to it in still air and under that breath. */
import { reynoldsNumber } from "../../flow/friction.ts";
import type { Bounded } from "../../flow/gapLoss.ts";
import type { Setup } from "../../setup/setup.ts";
import { Instrument, type Mode } from "../instrument/instrument.ts";
import { decibels } from "../instrument/pitch.ts";
import { breathOf } from "./breath.ts";
import { flowPath, gapShape } from "./flowPath.ts";
import { flowOf } from "./resistance.ts";

/** One peak, dB; of the breath's figures the least loss first, which need not be the least change. */
export interface PeakUnderBreath {
  readonly n: number;
  /** From still air to the breath, at the chosen gap. */
  readonly breathDb: Bounded;
  /** From the reference gap to the chosen one, in still air. */
  readonly gapStillDb: number;
  /** The same, blown at both. */
  readonly gapBlownDb: Bounded;
}

export interface BreathEffect {
  readonly litresPerMinute: number;
  readonly gapMm: number;
  readonly referenceGapMm: number;
  /** Of the stream as it leaves the shank. */
  readonly reynolds: number;
  /** Of every resonance that has a peak everywhere. */
  readonly peaks: readonly PeakUnderBreath[];
}

/** The same instrument in still air and under one breath, by every figure of it. */
export type BlownInstruments = Readonly<Record<"still" | keyof Bounded, Instrument>>;

/** @throws OutOfRange on a breath that cannot be computed */
export function blownInstruments(
  still: Instrument,
  estimate: Instrument,
  litresPerMinute: number,
): BlownInstruments {
  const like = (figure: keyof Bounded) =>
    new Instrument(still.setup, { like: estimate, breath: breathOf(still.setup, litresPerMinute, figure) });
  return { still, lower: like("lower"), estimate, upper: like("upper") };
}

/** @throws SetupError on a gap the receiver cannot have */
export function breathEffect(
  instruments: BlownInstruments,
  litresPerMinute: number,
  gapMm: number,
  referenceGapMm: number,
): BreathEffect {
  const at = (instrument: Instrument) => ({
    reference: instrument.modes(referenceGapMm),
    chosen: instrument.modes(gapMm),
  });
  const { setup } = instruments.still;
  const [still, lower, estimate, upper] = [
    at(instruments.still),
    at(instruments.lower),
    at(instruments.estimate),
    at(instruments.upper),
  ];
  const bounded = (of: (blown: typeof still) => number | null): Bounded | null => {
    const [least, middle, most] = [of(lower), of(estimate), of(upper)];
    return least === null || middle === null || most === null
      ? null
      : { lower: least, estimate: middle, upper: most };
  };
  return {
    litresPerMinute,
    gapMm,
    referenceGapMm,
    reynolds: reynoldsAtShankEnd(setup, litresPerMinute),
    peaks: still.chosen.flatMap(({ n }): PeakUnderBreath[] => {
      const gapStillDb = heightDb(still.chosen, still.reference, n);
      const breathDb = bounded(({ chosen }) => heightDb(chosen, still.chosen, n));
      const gapBlownDb = bounded(({ chosen, reference }) => heightDb(chosen, reference, n));
      return gapStillDb === null || breathDb === null || gapBlownDb === null
        ? []
        : [{ n, breathDb, gapStillDb, gapBlownDb }];
    }),
  };
}

function reynoldsAtShankEnd(setup: Setup, litresPerMinute: number): number {
  const { viscosity, density } = flowPath(setup).air;
  return reynoldsNumber(flowOf(litresPerMinute), gapShape(setup, 0).shankExit, viscosity / density);
}

/** Of peak `n`; null where either has none. */
function heightDb(modes: readonly Mode[], reference: readonly Mode[], n: number): number | null {
  const [peak, before] = [modes[n - 1]?.peakImpedance, reference[n - 1]?.peakImpedance];
  return peak == null || before == null ? null : decibels(peak, before);
}
