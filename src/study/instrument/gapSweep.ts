/**
 * What the gap does: every resonance at every gap against a reference gap, as the instrument is and, if asked, after the
 * player has pulled or pushed the tuning slide to bring one chosen resonance back to where it was.
 */

import { OutOfRange } from "../../units/outOfRange.ts";
import { type ChangedMode, modeChanges } from "../change/modeChanges.ts";
import type { Instrument } from "./instrument.ts";
import { inContext, type ModeInContext } from "./modeTable.ts";

export interface GapSweepOptions {
  /** Gaps in mm. */
  readonly gapsMm: readonly number[];
  /** What shifts and height changes are measured from; the setup's own gap if absent. */
  readonly referenceGapMm?: number;
  /** Number of the resonance the slide brings back. */
  readonly retune?: number;
}

export interface GapRow {
  readonly gapMm: number;
  /** Slide drawn, mm; negative is pushed in; 0 when not retuned. */
  readonly slideMm: number;
  readonly modes: readonly ChangedMode[];
}

export interface GapSweep {
  readonly referenceGapMm: number;
  readonly retune: number | null;
  readonly reference: readonly ModeInContext[];
  readonly rows: readonly GapRow[];
}

/** Called after every gap; a false answer stops the sweep with the rows so far. */
export type Progress = (done: number, of: number) => boolean | undefined;

/** @throws SetupError on a gap the receiver cannot have, RangeError where the slide cannot retune it */
export function gapSweep(instrument: Instrument, options: GapSweepOptions, progress?: Progress): GapSweep {
  const steps = gapSweepSteps(instrument, options);
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
    if (progress?.(value.rows.length, options.gapsMm.length) === false) return value;
  }
}

/** The same gap by gap, for whoever has other things to do in between: the sweep so far after each. */
export function* gapSweepSteps(
  instrument: Instrument,
  options: GapSweepOptions,
): Generator<GapSweep, GapSweep, void> {
  const { gapsMm, referenceGapMm = instrument.gapMm, retune } = options;
  const reference = inContext(instrument.modes(referenceGapMm));
  const target = retune === undefined ? undefined : reference[retune - 1];
  if (retune !== undefined && !target)
    throw new OutOfRange(`resonance ${retune} does not exist here: choose one from 1 to ${reference.length}`);
  const rows: GapRow[] = [];
  const sweep = { referenceGapMm, retune: retune ?? null, reference, rows };
  for (const gapMm of gapsMm) {
    const slideMm = target ? instrument.drawFor(target.n, target.frequencyHz, gapMm) : 0;
    const modes = modeChanges(instrument.modes(gapMm, slideMm), reference);
    rows.push({ gapMm, slideMm, modes });
    yield sweep;
  }
  return sweep;
}
