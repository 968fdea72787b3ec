/** The statistics of blind trials as a worker serves them; they rest on no setup. */
import { analysisSteps } from "../../src/trial/analysis.ts";
import { type Power, type PowerQuestion, power } from "../../src/trial/power.ts";
import type { Trial } from "../../src/trial/trial.ts";
import { Served, type StepProgress, type Ticket } from "../service/served.ts";

export interface PowerRequest extends Omit<PowerQuestion, "repeats">, Ticket {
  /** Each by itself. */
  readonly repeats: readonly number[];
}

export interface AnalysisRequest extends Ticket {
  readonly trial: Trial;
}

export class TrialStatistics extends Served<object> {
  constructor() {
    super({});
  }

  protected subjectOf(): object {
    return {};
  }

  power({ ticket, ...question }: PowerRequest, progress: StepProgress) {
    const of = question.repeats.length;
    return this.inSteps(
      ticket,
      () => powers(question),
      (done) => progress(done, of),
    );
  }

  analyse({ ticket, trial }: AnalysisRequest, progress: StepProgress) {
    return this.inSteps(
      ticket,
      () => analysisSteps(trial),
      ({ done, of }) => progress(done, of),
    );
  }
}

function* powers({
  repeats,
  ...question
}: Omit<PowerRequest, "ticket">): Generator<number, readonly Power[], void> {
  const done: Power[] = [];
  for (const one of repeats) {
    done.push(power({ ...question, repeats: one }));
    yield done.length;
  }
  return done;
}
