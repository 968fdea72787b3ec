/** What the page may ask of the worker for blind trials. A newer ticket ends older work. Types only. */
import type { TrialAnalysis } from "../src/trial/analysis.ts";
import type { Power, PowerQuestion } from "../src/trial/power.ts";
import type { Trial } from "../src/trial/trial.ts";
import type { Refusal, StepProgress, Ticket } from "./modelProtocol.ts";

export interface PowerRequest extends Omit<PowerQuestion, "repeats">, Ticket {
  /** Each by itself. */
  readonly repeats: readonly number[];
}

export interface AnalysisRequest extends Ticket {
  readonly trial: Trial;
}

/** Long work answers null when it was overtaken. */
export interface TrialWorker {
  /** There is nothing to load: a trial needs no model. */
  load(): Promise<{ readonly ok: true }>;
  power(request: PowerRequest, progress: StepProgress): Promise<Refusal | readonly Power[] | null>;
  analyse(request: AnalysisRequest, progress: StepProgress): Promise<Refusal | TrialAnalysis | null>;
  /** Stops the long work of this ticket and any older one. */
  stop(ticket: number): Promise<void>;
}
