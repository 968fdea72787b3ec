/** The model as the page's worker serves it: what follows a gap, sweeps over gaps, and instruments drawn at random. */
import { type CoverageFactor, NORMAL_COVERAGE } from "../../src/bench/measure/combinedUncertainty.ts";
import type { Setup } from "../../src/setup/setup.ts";
import type { BreathEffect } from "../../src/study/blown/breathEffect.ts";
import { type PicturedUnderBreath, UnderBreath } from "../../src/study/blown/underBreath.ts";
import type { AtGap, Judged } from "../../src/study/instrument/exploration.ts";
import { type GapSweepOptions, gapSweepSteps } from "../../src/study/instrument/gapSweep.ts";
import type { MonteCarloOptions } from "../../src/study/uncertainty/monteCarlo.ts";
import { type Refusal, Served, type StepProgress, type Ticket } from "../service/served.ts";

export interface SweepRequest extends GapSweepOptions, Ticket {
  /** The breath; still air if absent. */
  readonly litresPerMinute?: number;
}
export interface DrawRequest extends MonteCarloOptions, Ticket {}

/** As the study has it, without what is compared with where that is known. */
export type Picture = Omit<PicturedUnderBreath, "reference"> & { readonly reference: AtGap | null };

export class Model extends Served<UnderBreath> {
  protected async subjectOf(setup: Setup): Promise<UnderBreath> {
    return new UnderBreath(setup, await coverageFor(setup));
  }

  /**
   * What pictures of the chosen gap are drawn from: there before it is judged.
   * @param isReferenceKnown whether the page has what is compared with: it is not sent at every step of a hand then
   */
  picture(
    gapMm: number,
    referenceGapMm: number,
    resonance: number,
    litresPerMinute = 0,
    isReferenceKnown = false,
  ): Promise<Refusal | Picture> {
    return this.ask(async (subject) => {
      const pictured = await subject.picture(litresPerMinute, gapMm, referenceGapMm, resonance);
      return isReferenceKnown ? { ...pictured, reference: null } : pictured;
    });
  }

  /** What the trade's rules come to at the chosen gap, and how well that is known. */
  judge(
    gapMm: number,
    referenceGapMm: number,
    retune: number | null,
    litresPerMinute = 0,
  ): Promise<Refusal | Judged> {
    return this.ask((subject) => subject.judge(litresPerMinute, gapMm, referenceGapMm, retune));
  }

  /** What a breath, and the change of gap under it, do to the peaks, with their bounds. */
  breathEffect(
    ...question: [litresPerMinute: number, gapMm: number, referenceGapMm: number]
  ): Promise<Refusal | BreathEffect> {
    return this.ask((subject) => subject.effect(...question));
  }

  /** Every resonance, gap by gap. */
  sweep({ ticket, litresPerMinute = 0, ...options }: SweepRequest, progress: StepProgress) {
    return this.inSteps(
      ticket,
      async (subject) => gapSweepSteps((await subject.at(litresPerMinute)).instrument, options),
      ({ rows }) => progress(rows.length, options.gapsMm.length),
    );
  }

  /** The change between two gaps by drawing instruments; how that is done comes with the first time it is asked for. */
  draw({ ticket, ...options }: DrawRequest, progress: StepProgress) {
    return this.inSteps(
      ticket,
      async ({ setup }) => {
        const { monteCarloSteps } = await import("../../src/study/uncertainty/monteCarlo.ts");
        return monteCarloSteps(setup, options);
      },
      (done) => progress(done, options.trials),
    );
  }
}

/** Student's t only for who needs it: its tables are as heavy as the model. */
async function coverageFor({ uncertainties }: Setup): Promise<CoverageFactor> {
  const isExact = Object.values(uncertainties).every(({ degreesOfFreedom }) => degreesOfFreedom === Infinity);
  return isExact ? NORMAL_COVERAGE : (await import("../../src/bench/measure/coverage.ts")).coverageFactor;
}
