/** A search for a leadpipe: every step it took, and what it came to. Each has a worker of its own, which ends with it. */
import type { Compare, Designed, DesignQuestion } from "../../../workers/instrument/compare.ts";
import type { Setup } from "../../setup/setup.ts";
import type { DesignProgress } from "../../study/design/design.ts";
import type { Connection } from "./connection.ts";
import { openCompareWorker } from "./openWorkers.ts";
import { Work } from "./work.ts";
import { inOwnWorker } from "./workerClient.ts";

export interface DesignTask {
  readonly setup: Setup;
  readonly question: DesignQuestion;
}

export class DesignSearch extends Work<DesignTask, Designed, readonly DesignProgress[]> {
  /** Ends with the best so far. */
  finish = (): void => {};

  constructor(connect: () => Connection<Compare> = openCompareWorker) {
    super({
      ask: ({ setup, question }, tell, signal) =>
        inOwnWorker({ connect }, (client) => {
          this.finish = () => void client.ask(setup, (worker) => worker.finish());
          const steps: DesignProgress[] = [];
          const told = (step: DesignProgress) => {
            steps.push(step);
            tell(0, [...steps]);
          };
          return client.run("design", setup, question, told, signal);
        }),
      forgets: true,
    });
  }
}
