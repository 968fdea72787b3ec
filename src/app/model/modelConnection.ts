/** A running model worker, reached through Comlink, and whether it still lives. */
import { proxy, type Remote, wrap } from "comlink";
import type { ModelWorker, WorkerLife } from "../../../workers/modelProtocol.ts";
import { takeWorker } from "./firstWorker.ts";
import type { ModelConnection } from "./modelClient.ts";

let started = 0;

export function openModelWorker(): ModelConnection {
  const worker = takeWorker();
  const remote = wrap<ModelWorker & WorkerLife>(worker);
  const watching = new AbortController();
  const died = new Promise<never>((_, reject) => {
    const die = (event: Event) => reject(new Error(`the model's worker ended: ${event.type}`));
    worker.addEventListener("error", die);
    worker.addEventListener("messageerror", die);
    untilItsEnd(remote, watching.signal).then(reject, () => {});
  });
  // nobody may be waiting for an answer when it dies
  died.catch(() => {});
  return {
    model: {
      load: (setup) => remote.load(setup),
      explore: (...question) => remote.explore(...question),
      sweep: (request, progress) => remote.sweep(request, proxy(progress)),
      draw: (request, progress) => remote.draw(request, proxy(progress)),
      stop: (ticket) => remote.stop(ticket),
    },
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
