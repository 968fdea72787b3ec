/** The first model worker, started by main.ts before the page's code is there: it is ready when the page has its first question. */
const start = () =>
  new Worker(new URL("../../../workers/instrument/model.worker.ts", import.meta.url), { type: "module" });

let waiting: Worker | null = start();

/** The worker that waits, or where it is taken, another. */
export function takeWorker(): Worker {
  const worker = waiting ?? start();
  waiting = null;
  return worker;
}
