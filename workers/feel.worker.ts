/** Entry of a worker for feel. */
import { expose } from "comlink";
import { Feel } from "./feel.ts";
import type { FeelWorker } from "./feelProtocol.ts";
import { holdLock } from "./holdLock.ts";
import type { WorkerLife } from "./modelProtocol.ts";

const feel = new Feel();

const served: FeelWorker & WorkerLife = {
  load: (setup) => feel.load(setup),
  stream: (question) => feel.stream(question),
  felt: (request, progress) => feel.felt(request, progress),
  closed: (request, progress) => feel.closed(request, progress),
  slots: (request, progress) => feel.slots(request, progress),
  levels: (request, progress) => feel.levels(request, progress),
  leaps: (request, progress) => feel.leaps(request, progress),
  stop: (ticket) => feel.stop(ticket),
  holdLock,
};

expose(served);
