/** The model as the page's worker serves it: what follows a gap, sweeps over gaps, and instruments drawn at random. */
import { transfer } from "comlink";
import { type CoverageFactor, NORMAL_COVERAGE } from "../src/bench/measure/combinedUncertainty.ts";
import type { Setup } from "../src/setup/setup.ts";
import { Exploration, type Explored } from "../src/study/instrument/exploration.ts";
import { type GapSweepOptions, gapSweepSteps } from "../src/study/instrument/gapSweep.ts";
import { type MonteCarloOptions, monteCarloSteps } from "../src/study/uncertainty/monteCarlo.ts";
import { isRefusal, type Refusal, Served, type StepProgress, type Ticket } from "./served.ts";

export interface SweepRequest extends GapSweepOptions, Ticket {}
export interface DrawRequest extends MonteCarloOptions, Ticket {}

export class Model extends Served<Exploration> {
  protected async subjectOf(setup: Setup): Promise<Exploration> {
    return new Exploration(setup, await coverageFor(setup));
  }

  /** Everything that follows the chosen gap; arrays are transferred. */
  async explore(
    ...question: [gapMm: number, referenceGapMm: number, resonance: number, retune: number | null]
  ): Promise<Refusal | Explored> {
    const explored = await this.ask((exploration) => exploration.explore(...question));
    return isRefusal(explored) ? explored : transfer(explored, ownBuffers(explored));
  }

  /** Every resonance, gap by gap. */
  sweep({ ticket, ...options }: SweepRequest, progress: StepProgress) {
    return this.inSteps(
      ticket,
      ({ instrument }) => gapSweepSteps(instrument, options),
      ({ rows }) => progress(rows.length, options.gapsMm.length),
    );
  }

  /** The change between two gaps by drawing instruments. */
  draw({ ticket, ...options }: DrawRequest, progress: StepProgress) {
    return this.inSteps(
      ticket,
      ({ setup }) => monteCarloSteps(setup, options),
      (done) => progress(done, options.trials),
    );
  }
}

/** Student's t only for who needs it: its tables are as heavy as the model. */
async function coverageFor({ uncertainties }: Setup): Promise<CoverageFactor> {
  const isExact = Object.values(uncertainties).every(({ degreesOfFreedom }) => degreesOfFreedom === Infinity);
  return isExact ? NORMAL_COVERAGE : (await import("../src/bench/measure/coverage.ts")).coverageFactor;
}

/** Buffers that nothing here keeps: the reference and the frequencies are cached and are copied by the message instead. */
function ownBuffers({ reference, chosen, wave }: Explored): Transferable[] {
  const curve = chosen === reference ? [] : [chosen.curve.magnitude, chosen.curve.phase];
  return [...curve, wave.xMm, wave.diameterMm, wave.pressure, wave.flow].map(
    ({ buffer }) => buffer as ArrayBuffer,
  );
}
