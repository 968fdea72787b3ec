/** A running worker for blind trials; started at the first question, never before. */
import { proxy } from "comlink";
import type { TrialWorker } from "../../../../workers/trialProtocol.ts";
import type { Connection } from "../../work/workerClient.ts";
import { connectionTo } from "../../work/workerConnection.ts";

export const openTrialWorker = (): Connection<TrialWorker> =>
  connectionTo<TrialWorker>(
    new Worker(new URL("../../../../workers/trial.worker.ts", import.meta.url), { type: "module" }),
    (remote) => ({
      load: () => remote.load(),
      power: (request, progress) => remote.power(request, proxy(progress)),
      analyse: (request, progress) => remote.analyse(request, proxy(progress)),
      stop: (ticket) => remote.stop(ticket),
    }),
  );
