/** A running worker that compares and designs; started at the first question, never before. */
import { proxy } from "comlink";
import type { CompareWorker } from "../../../workers/compareProtocol.ts";
import type { Connection } from "./workerClient.ts";
import { connectionTo } from "./workerConnection.ts";

export const openCompareWorker = (): Connection<CompareWorker> =>
  connectionTo<CompareWorker>(
    new Worker(new URL("../../../workers/compare.worker.ts", import.meta.url), { type: "module" }),
    (remote) => ({
      load: (setup) => remote.load(setup),
      compare: (request, progress) => remote.compare(request, proxy(progress)),
      design: (request, progress) => remote.design(request, proxy(progress)),
      finish: () => remote.finish(),
      stations: (request) => remote.stations(request),
      bellTrust: (request, progress) => remote.bellTrust(request, proxy(progress)),
      overlay: (measured) => remote.overlay(measured),
      fitColumn: (request, progress) => remote.fitColumn(request, proxy(progress)),
      inventMeasurement: () => remote.inventMeasurement(),
      stop: (ticket) => remote.stop(ticket),
    }),
  );
