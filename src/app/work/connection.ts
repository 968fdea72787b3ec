/** A running worker, reached through Comlink as the class it serves, and whether it still lives. */
import { expose, finalizer, proxy, type Remote, releaseProxy, transferHandlers, wrap } from "comlink";
import type { WorkerLife } from "../../../workers/service/serve.ts";

/** A served class as the page sees it: its public methods. */
export type Methods<Served> = Pick<Served, keyof Served>;

/** One worker, as long as it lives. */
export interface Connection<Served> {
  readonly model: Methods<Served>;
  /** Rejects when the worker is known to have died; never resolves. */
  readonly died: Promise<never>;
  terminate(): void;
}

let started = 0;

/** Where the answers to a callback that was sent to a worker come in; with the worker it ends, released or not. */
const portsOf = new WeakMap<object, Set<MessagePort>>();
transferHandlers.set("proxy", {
  ...transferHandlers.get("proxy")!,
  serialize(callback: object) {
    const { port1, port2 } = new MessageChannel();
    const ports = portsOf.get(callback);
    ports?.add(port1);
    expose(Object.assign(callback, { [finalizer]: () => ports?.delete(port1) }), port1);
    return [port2, [port2]];
  },
});

export function connectionTo<Served>(worker: Worker): Connection<Served> {
  const remote = wrap<WorkerLife>(worker);
  const watching = new AbortController();
  const ports = new Set<MessagePort>();
  const died = new Promise<never>((_, reject) => {
    const die = (event: Event) => reject(new Error(`the worker ended: ${event.type}`));
    worker.addEventListener("error", die);
    worker.addEventListener("messageerror", die);
    untilItsEnd(remote, watching.signal).then(reject, () => {});
  });
  let isEnded = false;
  // nobody may be waiting for an answer when it dies
  died.catch(() => {});
  return {
    model: withCallbacks(remote, ports) as Methods<Served>,
    died,
    terminate() {
      // each of several questions that it died over ends it
      if (isEnded) return;
      isEnded = true;
      // a reason of its own would remember who ended it, and keep that alive
      watching.abort("ended");
      remote[releaseProxy]();
      worker.terminate();
      for (const port of ports) port.close();
    },
  };
}

/** The same methods, with functions among the arguments made proxies: they cannot be sent as they are. */
function withCallbacks(remote: object, ports: Set<MessagePort>): object {
  const callback = (one: object) => {
    const proxied = proxy(one);
    portsOf.set(proxied, ports);
    return proxied;
  };
  return new Proxy(remote, {
    get(_, name) {
      // it is no promise, whoever asks
      if (name === "then") return undefined;
      const method: (...args: unknown[]) => unknown = Reflect.get(remote, name);
      return (...args: unknown[]) =>
        method(...args.map((one) => (typeof one === "function" ? callback(one) : one)));
    },
  });
}

/**
 * A worker that ends without a word (out of memory, closed from inside) fires no event; but a lock it holds is then free.
 * Rejects where the browser has no locks: the client's patience is left to notice.
 */
async function untilItsEnd(remote: Remote<WorkerLife>, signal: AbortSignal): Promise<Error> {
  const name = `annulus-worker-${started++}-${Math.random()}`;
  if (!("locks" in navigator) || !(await remote.holdLock(name))) throw new Error("no locks here");
  await navigator.locks.request(name, { signal }, () => {});
  return new Error("the worker ended without a word");
}
