/** The model as the page's worker serves it: a setup at a time, sweeps in steps so that a newer question gets its turn. */
import { transfer } from "comlink";
import { type CoverageFactor, NORMAL_COVERAGE } from "../src/bench/measure/combinedUncertainty.ts";
import type { Setup } from "../src/setup/setup.ts";
import { Exploration, type Explored } from "../src/study/instrument/exploration.ts";
import { type GapSweep, gapSweepSteps } from "../src/study/instrument/gapSweep.ts";
import { type MonteCarlo, monteCarloSteps } from "../src/study/uncertainty/monteCarlo.ts";
import { answered, isRefusal, LongWork } from "./longWork.ts";
import type { DrawRequest, ModelWorker, Refusal, StepProgress, SweepRequest } from "./modelProtocol.ts";

export class Model implements ModelWorker {
  /** Messages keep their order, so a question awaits the setup it followed. */
  #exploration: Promise<Exploration | Refusal> = Promise.resolve({ refused: "no setup is loaded" });
  readonly #work = new LongWork<Exploration>();

  async load(setup: Setup): Promise<Refusal | { readonly ok: true }> {
    this.#work.stopAll();
    this.#exploration = explorationOf(setup);
    const exploration = await this.#exploration;
    return isRefusal(exploration) ? exploration : { ok: true };
  }

  async explore(
    gapMm: number,
    referenceGapMm: number,
    resonance: number,
    retune: number | null,
  ): Promise<Refusal | Explored> {
    const exploration = await this.#exploration;
    if (isRefusal(exploration)) return exploration;
    const explored = answered(() => exploration.explore(gapMm, referenceGapMm, resonance, retune));
    return isRefusal(explored) ? explored : transfer(explored, ownBuffers(explored));
  }

  sweep(request: SweepRequest, progress: StepProgress): Promise<Refusal | GapSweep | null> {
    const { ticket, ...options } = request;
    return this.#work.run(
      ticket,
      this.#exploration,
      ({ instrument }) => gapSweepSteps(instrument, options),
      ({ rows }) => progress(rows.length, options.gapsMm.length),
    );
  }

  draw(request: DrawRequest, progress: StepProgress): Promise<Refusal | MonteCarlo | null> {
    const { ticket, ...options } = request;
    return this.#work.run(
      ticket,
      this.#exploration,
      ({ setup }) => monteCarloSteps(setup, options),
      (done) => progress(done, options.trials),
    );
  }

  async stop(ticket: number): Promise<void> {
    this.#work.stop(ticket);
  }
}

async function explorationOf(setup: Setup): Promise<Exploration | Refusal> {
  const coverage = await coverageFor(setup);
  return answered(() => new Exploration(setup, coverage));
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
