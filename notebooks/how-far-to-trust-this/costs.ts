import { wrap } from "comlink";
import { type Cost, KINDS } from "./cost.ts";
import type { CostWorker } from "./cost.worker.ts";

export interface Timing {
  readonly costs: readonly Cost[];
  readonly done: number;
  readonly of: number;
}

/** All kinds of work timed now, in a worker, once `whenCalm` is over; what there is so far after each size. */
export async function* costs(whenCalm: Promise<unknown>): AsyncGenerator<Timing> {
  const of = KINDS.reduce((sum, { sizes }) => sum + sizes.length, 0);
  const made: Cost[] = [];
  yield { costs: made, done: 0, of };
  await whenCalm;
  const worker = new Worker(new URL("./cost.worker.ts", import.meta.url), { type: "module" });
  try {
    const remote = wrap<CostWorker>(worker);
    let done = 0;
    for (const [k, { name, of: unit, sizes }] of KINDS.entries()) {
      const seconds: number[] = [];
      for (const i of sizes.keys()) {
        seconds.push(await remote.seconds(k, i));
        made[k] = { name, of: unit, sizes: sizes.slice(0, i + 1), seconds: [...seconds] };
        done++;
        yield { costs: [...made], done, of };
      }
    }
  } finally {
    worker.terminate();
  }
}
