/**
 * Everything the page shows of one setup at a chosen gap, beside a reference gap: curves, modes, verdicts, a standing wave.
 * What does not depend on the chosen gap is computed once.
 */
import type { Curve, Grid } from "../../acoustics/airColumn.ts";
import type { Breath } from "../../acoustics/duct/breath.ts";
import { type CoverageFactor, NORMAL_COVERAGE } from "../../bench/measure/combinedUncertainty.ts";
import { gapUncertainty } from "../../bench/measure/gapUncertainty.ts";
import { SetupError } from "../../setup/problem.ts";
import type { Setup } from "../../setup/setup.ts";
import { type ChangedMode, modeChanges } from "../change/modeChanges.ts";
import { type Verdict, verdicts } from "../change/verdicts.ts";
import { type ChangeUncertainty, changeUncertainty } from "../uncertainty/changeUncertainty.ts";
import { Contributions, type ModeContributions } from "../uncertainty/contributions.ts";
import { Instrument } from "./instrument.ts";
import { inContext, type ModeInContext } from "./modeTable.ts";
import { type StandingWave, standingWave } from "./standingWave.ts";

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

/** What a chosen gap does to the air column: all that pictures of it are drawn from. */
export interface Pictured {
  readonly referenceGapMm: number;
  readonly reference: AtGap;
  readonly chosen: AtGap;
  /** From reference to chosen. */
  readonly changes: readonly ChangedMode[];
  /** How well any gap of this setup is known once it is set and measured, ±mm at 95 %; null where the setup does not say. */
  readonly gapExpandedMm: number | null;
  readonly wave: StandingWave;
}

/** What the trade's rules come to by that, and how well the changes are known. */
export interface Judged {
  readonly verdicts: readonly Verdict[];
  /** Of the changes from reference to chosen; null in a setup's first answer, which does not wait for it: ask again. */
  readonly uncertainty: ChangeUncertainty | null;
}

export interface Explored extends Pictured, Judged {}

/** Points of a curve: two a pixel of a laptop's chart, evenly spaced in log f so that every octave is drawn as finely. */
const POINTS = 1600;
const SHOWN_HZ = [50, 1800] as const;

/** One setup ready to be explored; keeps what does not depend on the chosen gap. */
export class Exploration {
  readonly instrument: Instrument;
  readonly #grid: Grid;
  #reference: AtGap | null = null;
  /** At the gap that was chosen last. */
  #chosen: AtGap | null = null;
  /** Modes without a gap; null where this receiver stops the shank before the leadpipe. */
  readonly #closed: readonly ModeInContext[] | null;
  readonly #contributions: Contributions;
  /** What the dimensions do at the reference gap, and to the change from there to a closed one; kept as these are. */
  #fixed: {
    readonly referenceGapMm: number;
    readonly retune: number | null;
    readonly reference: readonly ModeContributions[];
    readonly closed: ChangeUncertainty;
  } | null = null;
  #hasJudged = false;
  readonly #gapExpandedMm: number | null;

  /**
   * @param coverage of the uncertainties' degrees of freedom; the normal distribution's where they have none
   * @param breath the stream through it; still air without
   */
  constructor(
    readonly setup: Setup,
    readonly coverage: CoverageFactor = NORMAL_COVERAGE,
    breath: Breath | null = null,
  ) {
    this.instrument = new Instrument(setup, { curveHz: SHOWN_HZ, breath });
    this.#closed = closedModes(this.instrument);
    this.#contributions = new Contributions(this.instrument);
    this.#gapExpandedMm = gapUncertainty(setup, coverage).expandedMm ?? null;
    const [low, high] = SHOWN_HZ;
    this.#grid = this.instrument.column.grid(
      Float64Array.from({ length: POINTS }, (_, i) => low * (high / low) ** (i / (POINTS - 1))),
    );
  }

  /** Curve and resonances at a gap, mm. */
  atGap(gapMm: number): AtGap {
    const modes = inContext(this.instrument.modes(gapMm));
    return { gapMm, curve: this.curveAt(gapMm), modes };
  }

  /** The curve alone, as it is drawn. */
  curveAt(gapMm: number): ScreenCurve {
    const curve = this.instrument.column.curve(this.#grid, this.instrument.gap(gapMm));
    return onScreen(this.#grid.frequencies, curve);
  }

  /**
   * Everything of the two parts below.
   * @throws SetupError on a gap the receiver cannot have
   */
  explore(gapMm: number, referenceGapMm: number, resonance: number, retune: number | null = null): Explored {
    return {
      ...this.picture(gapMm, referenceGapMm, resonance),
      ...this.judge(gapMm, referenceGapMm, retune),
    };
  }

  /**
   * What pictures are drawn from: a fifth of the time that judging takes.
   * @param resonance number of the resonance whose standing wave is shown
   * @throws SetupError on a gap the receiver cannot have
   */
  picture(gapMm: number, referenceGapMm: number, resonance: number): Pictured {
    const { reference, chosen } = this.#pair(gapMm, referenceGapMm);
    return {
      referenceGapMm,
      reference,
      chosen,
      changes: modeChanges(chosen.modes, reference.modes),
      gapExpandedMm: this.#gapExpandedMm,
      wave: standingWave(this.instrument, Math.min(resonance, chosen.modes.length), gapMm, chosen.modes),
    };
  }

  /**
   * Verdicts by the peaks and the uncertainty they rest on.
   * @param retune number of the resonance that the slide brings back, for the uncertainty of what remains
   * @throws SetupError on a gap the receiver cannot have
   */
  judge(gapMm: number, referenceGapMm: number, retune: number | null = null): Judged {
    const { reference, chosen } = this.#pair(gapMm, referenceGapMm);
    const isQuick = this.#contributions.dimensions.length === 0;
    const known = isQuick || this.#hasJudged ? this.#uncertainty(gapMm, referenceGapMm, retune) : null;
    this.#hasJudged = true;
    return {
      verdicts: verdicts({
        referenceGapMm,
        chosenGapMm: gapMm,
        chosen: modeChanges(chosen.modes, reference.modes),
        closed: this.#closed && modeChanges(this.#closed, reference.modes),
        thresholds: this.setup.thresholds,
        uncertainty: known?.chosen ?? null,
        closedUncertainty: known?.closed ?? null,
      }),
      uncertainty: known?.chosen ?? null,
    };
  }

  /** Both gaps, each as it was where it was asked for last: what is judged is what was pictured. */
  #pair(gapMm: number, referenceGapMm: number): { readonly reference: AtGap; readonly chosen: AtGap } {
    if (this.#reference?.gapMm !== referenceGapMm) this.#reference = this.atGap(referenceGapMm);
    const reference = this.#reference;
    if (gapMm === referenceGapMm) return { reference, chosen: reference };
    if (this.#chosen?.gapMm !== gapMm) this.#chosen = this.atGap(gapMm);
    return { reference, chosen: this.#chosen };
  }

  #uncertainty(gapMm: number, referenceGapMm: number, retune: number | null) {
    const contributions = this.#contributions;
    const change = (from: readonly ModeContributions[], to: readonly ModeContributions[]) =>
      changeUncertainty(contributions.dimensions, from, to, this.coverage, retune);
    if (this.#fixed?.referenceGapMm !== referenceGapMm || this.#fixed.retune !== retune) {
      const reference = contributions.at(referenceGapMm);
      const closed = change(reference, this.#closed ? contributions.inContact() : []);
      this.#fixed = { referenceGapMm, retune, reference, closed };
    }
    const { reference, closed } = this.#fixed;
    const chosen = gapMm === referenceGapMm ? reference : contributions.at(gapMm);
    return { chosen: change(reference, chosen), closed };
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
