/** A running model worker. */
import { proxy } from "comlink";
import type { ModelWorker } from "../../../workers/modelProtocol.ts";
import { takeWorker } from "./firstWorker.ts";
import type { ModelConnection } from "./modelClient.ts";
import { connectionTo } from "./workerConnection.ts";

export const openModelWorker = (): ModelConnection =>
  connectionTo<ModelWorker>(takeWorker(), (remote) => ({
    load: (setup) => remote.load(setup),
    explore: (...question) => remote.explore(...question),
    sweep: (request, progress) => remote.sweep(request, proxy(progress)),
    draw: (request, progress) => remote.draw(request, proxy(progress)),
    stop: (ticket) => remote.stop(ticket),
  }));
