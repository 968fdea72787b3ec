/** The newest comparison that was asked for. */
import type { ComparedVariant, CompareWorker } from "../../../workers/compareProtocol.ts";
import type { Refusal, StepProgress } from "../../../workers/modelProtocol.ts";
import { CompareClient, type CompareQuestion } from "./compareClient.ts";
import { NewestWork, type WorkState } from "./newestWork.ts";
import { sameToModel } from "./sameToModel.ts";
import type { Connection } from "./workerClient.ts";

export type CompareState = WorkState<CompareQuestion, readonly ComparedVariant[]>;

export class CompareResults extends NewestWork<CompareQuestion, readonly ComparedVariant[]> {
  readonly #client: CompareClient;

  constructor(connect: () => Connection<CompareWorker>) {
    super();
    this.#client = new CompareClient(connect);
  }

  /** A new name is no new instrument. */
  protected override isSame(a: CompareQuestion, b: CompareQuestion): boolean {
    const { variants: ofA, ...optionsA } = a;
    const { variants: ofB, ...optionsB } = b;
    return (
      ofA.length === ofB.length &&
      ofA.every(({ setup, gapMm }, i) => gapMm === ofB[i].gapMm && sameToModel(setup, ofB[i].setup)) &&
      JSON.stringify(optionsA) === JSON.stringify(optionsB)
    );
  }

  protected override run(
    question: CompareQuestion,
    progress: StepProgress,
    signal: AbortSignal,
  ): Promise<readonly ComparedVariant[] | Refusal | null> {
    return this.#client.compare(question, progress, signal);
  }

  protected override release(): void {
    this.#client.close();
  }
}
