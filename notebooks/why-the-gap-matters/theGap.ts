/** What the gap does to the demo: every resonance against the reference, and what the slide takes back. */

import { type ChangedMode, modeChanges } from "../../src/study/change/modeChanges.ts";
import { PLAYED } from "../../src/study/change/verdicts.ts";
import { type GapSweep, gapSweep } from "../../src/study/instrument/gapSweep.ts";
import { Instrument } from "../../src/study/instrument/instrument.ts";
import { inContext } from "../../src/study/instrument/modeTable.ts";
import { demo, mostGapMm, referenceGapMm } from "../paper/demo.ts";

/** The resonance a player tunes to. */
const tuned = 4;

export const instrument = new Instrument(demo);
const reference = inContext(instrument.modes(referenceGapMm));

const gapsMm = Array.from({ length: 17 }, (_, i) => (i * mostGapMm) / 16);

/** Every resonance at all gaps: with the slide where it is, or after it has brought the tuned resonance back. */
export const sweepOf = (slide: "at rest" | "retuned"): GapSweep =>
  gapSweep(instrument, { gapsMm, referenceGapMm, ...(slide === "retuned" && { retune: tuned }) });

export interface GapEffect {
  readonly modes: readonly ChangedMode[];
  /** Largest change of any resonance that is played, with its sign. */
  readonly shiftCents: number;
  readonly heightDb: number;
  /** Slide drawn to bring resonance 4 back, mm; negative is pushed in. */
  readonly slideMm: number;
  /** Largest shift that remains after that. */
  readonly remainingCents: number;
}

/** What a gap does against the reference. */
export function effectOf(gapMm: number): GapEffect {
  const modes = modeChanges(instrument.modes(gapMm), reference);
  const slideMm = instrument.drawFor(tuned, reference[tuned - 1].frequencyHz, gapMm);
  const after = modeChanges(instrument.modes(gapMm, slideMm), reference);
  return {
    modes,
    shiftCents: largest(modes, ({ shiftCents }) => shiftCents),
    heightDb: largest(modes, ({ heightDb }) => heightDb ?? 0),
    slideMm,
    remainingCents: largest(after, ({ shiftCents }) => shiftCents),
  };
}

function largest(modes: readonly ChangedMode[], of: (mode: ChangedMode) => number): number {
  const [low, high] = PLAYED;
  return modes
    .filter(({ n }) => n >= low && n <= high)
    .map(of)
    .reduce((most, value) => (Math.abs(value) > Math.abs(most) ? value : most), 0);
}
