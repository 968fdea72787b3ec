/**
 * What the page may ask of the model's worker. Requests carry the setup's key, so that an answer for an instrument that has
 * since been changed is never shown. Lives beside the worker; imports types only.
 */
import type { Setup } from "../src/setup/setup.ts";
import type { Explored } from "../src/study/exploration.ts";
import type { GapSweep, GapSweepOptions } from "../src/study/gapSweep.ts";

/** An error as data: Comlink's own transfer of errors loses their kind. */
export interface Refusal {
  readonly refused: string;
}

export interface SweepRequest extends GapSweepOptions {
  /** A newer sweep's number stops an older one. */
  readonly ticket: number;
}

export interface ModelWorker {
  /** Builds the air column; later questions are about this setup. */
  load(setup: Setup): Promise<Refusal | { readonly ok: true }>;
  /** Everything that follows the chosen gap; arrays are transferred. */
  explore(gapMm: number, referenceGapMm: number, resonance: number): Promise<Refusal | Explored>;
  /** Gap by gap, telling progress, until done or a newer ticket comes; null when it was overtaken. */
  sweep(request: SweepRequest, progress: (done: number, of: number) => void): Promise<Refusal | GapSweep | null>;
}
