/** Lets the page that started this worker call the methods of one object, and learn of the worker's end. */
import { expose } from "comlink";

/** What a worker answers beside its object's methods. */
export interface WorkerLife {
  /** Takes the named lock until this worker ends, so that whoever waits for it learns of the end; false where there are no locks. */
  holdLock(name: string): Promise<boolean>;
}

export function serve(model: object): void {
  expose(Object.assign(model, { holdLock } satisfies WorkerLife));
}

function holdLock(name: string): Promise<boolean> {
  if (!("locks" in navigator)) return Promise.resolve(false);
  return new Promise((resolve) => {
    navigator.locks
      .request(name, () => {
        resolve(true);
        return new Promise<void>(() => {});
      })
      .catch(() => resolve(false));
  });
}
