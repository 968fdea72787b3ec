/** A running worker, reached through Comlink, and whether it still lives. */
import { type Remote, wrap } from "comlink";
import type { WorkerLife } from "../../../workers/modelProtocol.ts";
import type { Connection, Loadable } from "./workerClient.ts";

let started = 0;

/** @param served the worker's answers: what Comlink cannot pass on as it is, callbacks, is made a proxy there */
export function connectionTo<Served extends Loadable>(
  worker: Worker,
  served: (remote: Remote<Served>) => Served,
): Connection<Served> {
  const remote = wrap<Served & WorkerLife>(worker);
  const watching = new AbortController();
  const died = new Promise<never>((_, reject) => {
    const die = (event: Event) => reject(new Error(`the model's worker ended: ${event.type}`));
    worker.addEventListener("error", die);
    worker.addEventListener("messageerror", die);
    untilItsEnd(remote as unknown as Remote<WorkerLife>, watching.signal).then(reject, () => {});
  });
  // nobody may be waiting for an answer when it dies
  died.catch(() => {});
  return {
    model: served(remote as unknown as Remote<Served>),
    died,
    terminate() {
      watching.abort();
      worker.terminate();
    },
  };
}

/**
 * A worker that ends without a word (out of memory, closed from inside) fires no event; but a lock it holds is then free.
 * Rejects where the browser has no locks: the client's patience is left to notice.
 */
async function untilItsEnd(remote: Remote<WorkerLife>, signal: AbortSignal): Promise<Error> {
  const name = `annulus-model-${started++}-${Math.random()}`;
  if (!("locks" in navigator) || !(await remote.holdLock(name))) throw new Error("no locks here");
  await navigator.locks.request(name, { signal }, () => {});
  return new Error("the model's worker ended without a word");
}
