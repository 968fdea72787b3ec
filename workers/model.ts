/** The model as the page's worker serves it: a setup at a time, sweeps in steps so that a newer question gets its turn. */
import { transfer } from "comlink";
import { type CoverageFactor, NORMAL_COVERAGE } from "../src/bench/combinedUncertainty.ts";
import { SetupError } from "../src/setup/problem.ts";
import type { Setup } from "../src/setup/setup.ts";
import { Exploration, type Explored } from "../src/study/exploration.ts";
import { type GapSweep, gapSweepSteps } from "../src/study/gapSweep.ts";
import { type MonteCarlo, monteCarloSteps } from "../src/study/monteCarlo.ts";
import type { DrawRequest, ModelWorker, Refusal, StepProgress, SweepRequest } from "./modelProtocol.ts";
import { Turns } from "./turns.ts";

export class Model implements ModelWorker {
  /** Messages keep their order, so a question awaits the setup it followed. */
  #exploration: Promise<Exploration | Refusal> = Promise.resolve({ refused: "no setup is loaded" });
  /** Sweeps up to this ticket are to stop. */
  #stopped = 0;
  #newest = 0;

  async load(setup: Setup): Promise<Refusal | { readonly ok: true }> {
    this.#stopped = this.#newest;
    this.#exploration = explorationOf(setup);
    const exploration = await this.#exploration;
    return "refused" in exploration ? exploration : { ok: true };
  }

  async explore(
    gapMm: number,
    referenceGapMm: number,
    resonance: number,
    retune: number | null,
  ): Promise<Refusal | Explored> {
    const exploration = await this.#exploration;
    if ("refused" in exploration) return exploration;
    const explored = answered(() => exploration.explore(gapMm, referenceGapMm, resonance, retune));
    return "refused" in explored ? explored : transfer(explored, ownBuffers(explored));
  }

  sweep(request: SweepRequest, progress: StepProgress): Promise<Refusal | GapSweep | null> {
    const { ticket, ...options } = request;
    return this.#inSteps(
      ticket,
      ({ instrument }) => gapSweepSteps(instrument, options),
      ({ rows }) => progress(rows.length, options.gapsMm.length),
    );
  }

  draw(request: DrawRequest, progress: StepProgress): Promise<Refusal | MonteCarlo | null> {
    const { ticket, ...options } = request;
    return this.#inSteps(
      ticket,
      ({ setup }) => monteCarloSteps(setup, options),
      (done) => progress(done, options.trials),
    );
  }

  /** Long work a step at a time, so that other questions have their turn; null when a newer ticket or a stop ended it. */
  async #inSteps<Step, Result>(
    ticket: number,
    begin: (exploration: Exploration) => Generator<Step, Result, void>,
    tell: (step: Step) => void,
  ): Promise<Refusal | Result | null> {
    this.#newest = Math.max(this.#newest, ticket);
    const exploration = await this.#exploration;
    if ("refused" in exploration) return exploration;
    const overtaken = () => ticket < this.#newest || ticket <= this.#stopped;
    const steps = begin(exploration);
    const turns = new Turns();
    try {
      for (;;) {
        await turns.next();
        if (overtaken()) return null;
        const step = answered(() => steps.next());
        if ("refused" in step) return step;
        if (step.done) return step.value;
        tell(step.value);
      }
    } finally {
      turns.end();
    }
  }

  async stop(ticket: number): Promise<void> {
    this.#stopped = Math.max(this.#stopped, ticket);
  }
}

async function explorationOf(setup: Setup): Promise<Exploration | Refusal> {
  const coverage = await coverageFor(setup);
  return answered(() => new Exploration(setup, coverage));
}

/** Student's t only for who needs it: its tables are as heavy as the model. */
async function coverageFor({ uncertainties }: Setup): Promise<CoverageFactor> {
  const isExact = Object.values(uncertainties).every(({ degreesOfFreedom }) => degreesOfFreedom === Infinity);
  return isExact ? NORMAL_COVERAGE : (await import("../src/bench/coverage.ts")).coverageFactor;
}

/** What was computed, or why it could not be, as data: refused in the study's words, or a fault of ours, named as one. */
function answered<T>(compute: () => T): T | Refusal {
  try {
    return compute();
  } catch (error) {
    if (error instanceof SetupError || error instanceof RangeError) return { refused: error.message };
    return { refused: `The model failed, which is a fault in this program: ${error}` };
  }
}

/** Buffers that nothing here keeps: the reference and the frequencies are cached and are copied by the message instead. */
function ownBuffers({ reference, chosen, wave }: Explored): Transferable[] {
  const curve = chosen === reference ? [] : [chosen.curve.magnitude, chosen.curve.phase];
  return [...curve, wave.xMm, wave.diameterMm, wave.pressure, wave.flow].map(
    ({ buffer }) => buffer as ArrayBuffer,
  );
}
