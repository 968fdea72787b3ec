import { wrap } from "comlink";
import type { Outcome } from "./check.ts";
import type { ChecksWorker } from "./checks.worker.ts";

export interface Progress {
  readonly outcomes: readonly Outcome[];
  readonly of: number;
}

/**
 * All checks, made now in a worker; what is there so far after each.
 * @param whenMade told once all are there
 */
export async function* outcomes(whenMade: () => void): AsyncGenerator<Progress> {
  const worker = new Worker(new URL("./checks.worker.ts", import.meta.url), { type: "module" });
  try {
    const remote = wrap<ChecksWorker>(worker);
    const of = await remote.count();
    const made: Outcome[] = [];
    for (let i = 0; i < of; i++) {
      made.push(await remote.outcome(i));
      if (made.length === of) whenMade();
      yield { outcomes: [...made], of };
    }
  } finally {
    worker.terminate();
  }
}
