/**
 * What the page may ask of the worker that compares and designs, apart from the model's worker, so that the hand on the
 * shank is never slowed. A newer ticket ends older work. Types only.
 */
import type { Setup } from "../src/setup/setup.ts";
import type { ErrorPlace } from "../src/study/boreSensitivity.ts";
import type { Compared, CompareOptions, Variant } from "../src/study/compare.ts";
import type { VariantCurve } from "../src/study/compareCurve.ts";
import type { Design, DesignOptions, DesignProgress } from "../src/study/design.ts";
import type { MandrelStation, StationOptions } from "../src/study/designStations.ts";
import type { Refusal, StepProgress, Ticket } from "./modelProtocol.ts";

export interface CompareRequest extends Omit<CompareOptions, "goal">, Ticket {
  readonly variants: readonly Variant[];
}

/** Where an error of the diameter does most to a resonance, and what it does there a mm. */
export interface WorstPlace {
  readonly n: number;
  readonly place: ErrorPlace;
  readonly centsPerMm: number;
}

/** One variant with all that is shown of it. */
export interface ComparedVariant extends Compared {
  /** Retuned where that was asked for and possible. */
  readonly curve: VariantCurve;
  /** Of the leadpipe, one a resonance. */
  readonly worst: readonly WorstPlace[];
}

export interface DesignRequest extends DesignOptions, Ticket {}

/** What a search came to, as plain data. */
export interface Designed extends Omit<Design, "problem" | "variables"> {
  /** What the goal leaves open. */
  readonly freedom: string;
}

export interface StationsRequest extends StationOptions {
  readonly gapMm: number;
}

/** Long work answers null when it was overtaken. */
export interface CompareWorker {
  /** Later designs and stations are of this setup. */
  load(setup: Setup): Promise<Refusal | { readonly ok: true }>;
  /** Variant by variant. */
  compare(
    request: CompareRequest,
    progress: StepProgress,
  ): Promise<Refusal | readonly ComparedVariant[] | null>;
  /** A leadpipe for a goal, step by step. */
  design(
    request: DesignRequest,
    progress: (step: DesignProgress) => void,
  ): Promise<Refusal | Designed | null>;
  /** Ends the design under way with the best so far. */
  finish(): Promise<void>;
  /** The leadpipe as a mandrel is turned to it. */
  stations(request: StationsRequest): Promise<Refusal | readonly MandrelStation[]>;
  /** Stops the long work of this ticket and any older one. */
  stop(ticket: number): Promise<void>;
}
