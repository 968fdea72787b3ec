/** Entry of the model's worker. */
import { expose } from "comlink";
import { holdLock } from "./holdLock.ts";
import { Model } from "./model.ts";
import type { ModelWorker, WorkerLife } from "./modelProtocol.ts";

const model = new Model();

const served: ModelWorker & WorkerLife = {
  load: (setup) => model.load(setup),
  explore: (...question) => model.explore(...question),
  sweep: (request, progress) => model.sweep(request, progress),
  draw: (request, progress) => model.draw(request, progress),
  stop: (ticket) => model.stop(ticket),
  holdLock,
};

expose(served);
