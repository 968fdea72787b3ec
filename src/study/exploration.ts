/**
 * Everything the page shows of one setup at a chosen gap, beside a reference gap: curves, modes, verdicts, a standing wave.
 * What does not depend on the chosen gap is computed once.
 */
import type { Curve, Grid } from "../acoustics/airColumn.ts";
import { SetupError } from "../setup/problem.ts";
import type { Setup } from "../setup/setup.ts";
import { Instrument } from "./instrument.ts";
import { inContext, type ModeInContext } from "./modeTable.ts";
import { type StandingWave, standingWave } from "./standingWave.ts";
import { type Verdict, verdicts } from "./verdicts.ts";

/** Impedance at screen resolution, Pa·s/m³, over the explorer's frequencies. */
export interface ScreenCurve {
  readonly frequencies: Float64Array;
  readonly magnitude: Float64Array;
  /** Radians. */
  readonly phase: Float64Array;
}

export interface AtGap {
  readonly gapMm: number;
  readonly curve: ScreenCurve;
  readonly modes: readonly ModeInContext[];
}

export interface Explored {
  readonly referenceGapMm: number;
  readonly reference: AtGap;
  readonly chosen: AtGap;
  readonly verdicts: readonly Verdict[];
  readonly wave: StandingWave;
}

/** Points of a curve: two a pixel of a laptop's chart, evenly spaced in log f so that every octave is drawn as finely. */
const POINTS = 1600;
const SHOWN_HZ = [50, 1800] as const;

export class Exploration {
  readonly instrument: Instrument;
  readonly #grid: Grid;
  #reference: AtGap | null = null;
  /** Modes without a gap; null where this receiver stops the shank before the leadpipe. */
  readonly #closed: readonly ModeInContext[] | null;

  constructor(readonly setup: Setup) {
    this.instrument = new Instrument(setup, { curveHz: SHOWN_HZ });
    this.#closed = closedModes(this.instrument);
    const [low, high] = SHOWN_HZ;
    this.#grid = this.instrument.column.grid(
      Float64Array.from({ length: POINTS }, (_, i) => low * (high / low) ** (i / (POINTS - 1))),
    );
  }

  atGap(gapMm: number): AtGap {
    const modes = inContext(this.instrument.modes(gapMm));
    const curve = this.instrument.column.curve(this.#grid, this.instrument.gap(gapMm));
    return { gapMm, curve: onScreen(this.#grid.frequencies, curve), modes };
  }

  /**
   * @param resonance number of the resonance whose standing wave is shown
   * @throws SetupError on a gap the receiver cannot have
   */
  explore(gapMm: number, referenceGapMm: number, resonance: number): Explored {
    if (this.#reference?.gapMm !== referenceGapMm) this.#reference = this.atGap(referenceGapMm);
    const reference = this.#reference;
    const chosen = gapMm === referenceGapMm ? reference : this.atGap(gapMm);
    return {
      referenceGapMm,
      reference,
      chosen,
      verdicts: verdicts({
        referenceGapMm,
        chosenGapMm: gapMm,
        reference: reference.modes,
        chosen: chosen.modes,
        closed: this.#closed,
        thresholds: this.setup.thresholds,
      }),
      wave: standingWave(this.instrument, Math.min(resonance, chosen.modes.length), gapMm, chosen.modes),
    };
  }
}

function onScreen(frequencies: Float64Array, { re, im }: Curve): ScreenCurve {
  return {
    frequencies,
    magnitude: Float64Array.from(re, (x, i) => Math.hypot(x, im[i])),
    phase: Float64Array.from(re, (x, i) => Math.atan2(im[i], x)),
  };
}

function closedModes(instrument: Instrument): readonly ModeInContext[] | null {
  try {
    return inContext(instrument.modes(0));
  } catch (error) {
    if (error instanceof SetupError) return null;
    throw error;
  }
}
