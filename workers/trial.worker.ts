/** Entry of the worker for blind trials. */
import { expose } from "comlink";
import { holdLock } from "./holdLock.ts";
import type { WorkerLife } from "./modelProtocol.ts";
import { TrialStatistics } from "./trial.ts";
import type { TrialWorker } from "./trialProtocol.ts";

const statistics = new TrialStatistics();

const served: TrialWorker & WorkerLife = {
  load: () => statistics.load(),
  power: (request, progress) => statistics.power(request, progress),
  analyse: (request, progress) => statistics.analyse(request, progress),
  stop: (ticket) => statistics.stop(ticket),
  holdLock,
};

expose(served);
