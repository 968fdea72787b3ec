/** The model as the page's worker serves it: a setup at a time, sweeps in steps so that a newer question gets its turn. */
import { transfer } from "comlink";
import { SetupError } from "../src/setup/problem.ts";
import type { Setup } from "../src/setup/setup.ts";
import { Exploration, type Explored } from "../src/study/exploration.ts";
import { type GapSweep, gapSweepSteps } from "../src/study/gapSweep.ts";
import type { ModelWorker, Refusal, SweepProgress, SweepRequest } from "./modelProtocol.ts";
import { Turns } from "./turns.ts";

export class Model implements ModelWorker {
  #exploration: Exploration | Refusal = { refused: "no setup is loaded" };
  /** Sweeps up to this ticket are to stop. */
  #stopped = 0;
  #newest = 0;

  async load(setup: Setup): Promise<Refusal | { readonly ok: true }> {
    this.#stopped = this.#newest;
    this.#exploration = answered(() => new Exploration(setup));
    return "refused" in this.#exploration ? this.#exploration : { ok: true };
  }

  async explore(gapMm: number, referenceGapMm: number, resonance: number): Promise<Refusal | Explored> {
    const exploration = this.#exploration;
    if ("refused" in exploration) return exploration;
    const explored = answered(() => exploration.explore(gapMm, referenceGapMm, resonance));
    return "refused" in explored ? explored : transfer(explored, ownBuffers(explored));
  }

  async sweep(request: SweepRequest, progress: SweepProgress): Promise<Refusal | GapSweep | null> {
    const exploration = this.#exploration;
    if ("refused" in exploration) return exploration;
    const { ticket, ...options } = request;
    this.#newest = Math.max(this.#newest, ticket);
    const overtaken = () => ticket < this.#newest || ticket <= this.#stopped;
    const steps = gapSweepSteps(exploration.instrument, options);
    const turns = new Turns();
    try {
      for (;;) {
        await turns.next();
        if (overtaken()) return null;
        const step = answered(() => steps.next());
        if ("refused" in step) return step;
        if (step.done) return step.value;
        progress(step.value.rows.length, options.gapsMm.length);
      }
    } finally {
      turns.end();
    }
  }

  async stop(ticket: number): Promise<void> {
    this.#stopped = Math.max(this.#stopped, ticket);
  }
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
