/** A running worker for feel; started at the first question, never before. */
import { proxy } from "comlink";
import type { FeelWorker } from "../../../workers/feelProtocol.ts";
import type { Connection } from "./workerClient.ts";
import { connectionTo } from "./workerConnection.ts";

export const openFeelWorker = (): Connection<FeelWorker> =>
  connectionTo<FeelWorker>(
    new Worker(new URL("../../../workers/feel.worker.ts", import.meta.url), { type: "module" }),
    (remote) => ({
      load: (setup) => remote.load(setup),
      stream: (question) => remote.stream(question),
      felt: (request, progress) => remote.felt(request, proxy(progress)),
      closed: (request, progress) => remote.closed(request, proxy(progress)),
      slots: (request, progress) => remote.slots(request, proxy(progress)),
      levels: (request, progress) => remote.levels(request, proxy(progress)),
      leaps: (request, progress) => remote.leaps(request, proxy(progress)),
      stop: (ticket) => remote.stop(ticket),
    }),
  );
