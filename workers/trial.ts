/** The statistics of blind trials as a worker serves them: step by step, plain data out. */
import { analysisSteps } from "../src/trial/analysis.ts";
import { type Power, power } from "../src/trial/power.ts";
import { LongWork } from "./longWork.ts";
import type { StepProgress } from "./modelProtocol.ts";
import type { AnalysisRequest, PowerRequest, TrialWorker } from "./trialProtocol.ts";

const NO_SUBJECT = Promise.resolve({});

export class TrialStatistics implements TrialWorker {
  readonly #work = new LongWork<object>();

  async load(): Promise<{ readonly ok: true }> {
    return { ok: true };
  }

  power({ ticket, ...question }: PowerRequest, progress: StepProgress) {
    const of = question.repeats.length;
    return this.#work.run(
      ticket,
      NO_SUBJECT,
      () => powers(question),
      (done) => progress(done, of),
    );
  }

  analyse({ ticket, trial }: AnalysisRequest, progress: StepProgress) {
    return this.#work.run(
      ticket,
      NO_SUBJECT,
      () => analysisSteps(trial),
      ({ done, of }) => progress(done, of),
    );
  }

  async stop(ticket: number): Promise<void> {
    this.#work.stop(ticket);
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
