/**
 * What the page may ask of the model's worker. Questions are about the setup loaded last; the messages keep their order,
 * so an answer is never about another instrument than the one its question followed. Lives beside the worker; imports
 * types only.
 */
import type { Setup } from "../src/setup/setup.ts";
import type { Explored } from "../src/study/instrument/exploration.ts";
import type { GapSweep, GapSweepOptions } from "../src/study/instrument/gapSweep.ts";
import type { MonteCarlo, MonteCarloOptions } from "../src/study/uncertainty/monteCarlo.ts";

/** An error as data: Comlink's own transfer of errors loses their kind. */
export interface Refusal {
  readonly refused: string;
}

/** Long work: a newer one's number stops an older one. */
export interface Ticket {
  readonly ticket: number;
}

export interface SweepRequest extends GapSweepOptions, Ticket {}
export interface DrawRequest extends MonteCarloOptions, Ticket {}

export type StepProgress = (done: number, of: number) => void;

export interface ModelWorker {
  /** Builds the air column; later questions are about this setup. Long work on the one before stops. */
  load(setup: Setup): Promise<Refusal | { readonly ok: true }>;
  /** Everything that follows the chosen gap; arrays are transferred. */
  explore(
    gapMm: number,
    referenceGapMm: number,
    resonance: number,
    retune: number | null,
  ): Promise<Refusal | Explored>;
  /** Gap by gap, telling progress, until done or a newer ticket comes; null when it was overtaken. */
  sweep(request: SweepRequest, progress: StepProgress): Promise<Refusal | GapSweep | null>;
  /** The change between two gaps by drawing instruments, in the same way. */
  draw(request: DrawRequest, progress: StepProgress): Promise<Refusal | MonteCarlo | null>;
  /** Stops the long work of this ticket and any older one. */
  stop(ticket: number): Promise<void>;
}

/** What the worker answers beside the model: signs of life. */
export interface WorkerLife {
  /** Takes the named lock for as long as the worker lives; whoever waits for that lock learns of its end. */
  holdLock(name: string): Promise<boolean>;
}
