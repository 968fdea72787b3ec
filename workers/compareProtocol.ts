/**
 * What the page may ask of the worker that compares and designs, apart from the model's worker, so that the hand on the
 * shank is never slowed. A newer ticket ends older work. Types only.
 */

import type { Setup } from "../src/setup/setup.ts";
import type { BellTrust } from "../src/study/compare/bellTrust.ts";
import type { ErrorPlace } from "../src/study/compare/boreSensitivity.ts";
import type { Compared, CompareOptions, Variant } from "../src/study/compare/compare.ts";
import type { VariantCurve } from "../src/study/compare/compareCurve.ts";
import type { Design, DesignOptions, DesignProgress } from "../src/study/design/design.ts";
import type { Freedom } from "../src/study/design/designFreedom.ts";
import type { DesignGoal } from "../src/study/design/designGoal.ts";
import type { MandrelStation, StationOptions } from "../src/study/design/designStations.ts";
import type { FitStep } from "../src/study/measured/columnFit.ts";
import type { ColumnFit, Estimate } from "../src/study/measured/columnFitResult.ts";
import type { Unknown, UnknownName } from "../src/study/measured/columnUnknowns.ts";
import type { Measured, Overlay } from "../src/study/measured/measured.ts";
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

/** Another instrument whose resonances and heights are to be equalled. */
export type LikeVariant = Pick<Variant, "setup" | "gapMm">;

export interface DesignQuestion extends Omit<DesignOptions, "goal"> {
  readonly goal: DesignGoal | LikeVariant;
}

export interface DesignRequest extends DesignQuestion, Ticket {}

/** What a search came to, as plain data. */
export interface Designed extends Omit<Design, "problem" | "variables"> {
  /** What the goal leaves open. */
  readonly freedom: Freedom;
}

export interface StationsRequest extends StationOptions {
  readonly gapMm: number;
}

export interface BellTrustRequest extends Ticket {
  readonly fromGapMm: number;
  readonly toGapMm: number;
}

export interface ColumnFitRequest extends Ticket {
  readonly measured: Measured;
  readonly unknowns: readonly UnknownName[];
  /** Of the measurement, as a part of |Z|; null where it is not known. */
  readonly noise: number | null;
}

/** An estimate as plain data. */
export interface FittedEstimate extends Omit<Estimate, "unknown"> {
  readonly unknown: Omit<Unknown, "set">;
}

/** What a fit came to, as plain data, and the measurement beside the fitted model. */
export interface FittedColumn extends Omit<ColumnFit, "estimates"> {
  readonly estimates: readonly FittedEstimate[];
  readonly after: Overlay;
}

/** Long work answers null when it was overtaken. */
export interface CompareWorker {
  /** Later questions are about this setup, but for what is compared. */
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
  /** Plane waves in the bell beside curved fronts, at two gaps. */
  bellTrust(request: BellTrustRequest, progress: StepProgress): Promise<Refusal | BellTrust | null>;
  /** A measured impedance beside the model's. */
  overlay(measured: Measured): Promise<Refusal | Overlay>;
  /** A few unknowns fitted to it, step by step. */
  fitColumn(
    request: ColumnFitRequest,
    progress: (step: FitStep) => void,
  ): Promise<Refusal | FittedColumn | null>;
  /** The text of a measurement that nobody has made. */
  inventMeasurement(): Promise<Refusal | { readonly text: string }>;
  /** Stops the long work of this ticket and any older one. */
  stop(ticket: number): Promise<void>;
}
