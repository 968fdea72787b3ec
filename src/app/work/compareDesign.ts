/** A search for a leadpipe under way: every step it took, and what it came to. It has a worker of its own, which ends with it. */
import type { CompareWorker, Designed, DesignQuestion } from "../../../workers/compareProtocol.ts";
import type { Setup } from "../../setup/setup.ts";
import type { DesignProgress } from "../../study/design/design.ts";
import { Observable } from "../state/observable.ts";
import { CompareClient } from "./compareClient.ts";
import type { Connection } from "./workerClient.ts";

export interface DesignState {
  readonly isRunning: boolean;
  readonly steps: readonly DesignProgress[];
  readonly result: Designed | null;
  readonly refused: string | null;
}

const IDLE: DesignState = { isRunning: false, steps: [], result: null, refused: null };

export class DesignSearch extends Observable<DesignState> {
  readonly #connect: () => Connection<CompareWorker>;
  #work: AbortController | null = null;
  #finish = () => {};

  constructor(connect: () => Connection<CompareWorker>) {
    super(IDLE);
    this.#connect = connect;
  }

  /** What was found; null when it was stopped or refused. */
  async start(setup: Setup, question: DesignQuestion): Promise<Designed | null> {
    this.#work?.abort();
    const work = new AbortController();
    this.#work = work;
    this.change({ ...IDLE, isRunning: true });
    const client = new CompareClient(this.#connect);
    this.#finish = () => void client.finish(setup);
    try {
      const tell = (step: DesignProgress) =>
        this.change({ ...this.value, steps: [...this.value.steps, step] });
      const answer = await client.design(setup, question, tell, work.signal);
      if (work.signal.aborted || answer === null) return null;
      if ("refused" in answer) {
        this.change({ ...this.value, isRunning: false, refused: answer.refused });
        return null;
      }
      this.change({ ...this.value, isRunning: false, result: answer });
      return answer;
    } finally {
      client.close();
    }
  }

  /** Ends with the best so far. */
  finish(): void {
    this.#finish();
  }

  /** Ends without a result; the steps taken so far stay to be seen. */
  close(): void {
    this.#work?.abort();
    this.#work = null;
    if (this.value.isRunning) this.change({ ...this.value, isRunning: false });
  }
}
