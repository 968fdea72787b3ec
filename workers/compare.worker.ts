/** Entry of the worker that compares, designs and fits. */
import { expose } from "comlink";
import { Compare } from "./compare.ts";
import type { CompareWorker } from "./compareProtocol.ts";
import { holdLock } from "./holdLock.ts";
import type { WorkerLife } from "./modelProtocol.ts";

const compare = new Compare();

const served: CompareWorker & WorkerLife = {
  load: (setup) => compare.load(setup),
  compare: (request, progress) => compare.compare(request, progress),
  design: (request, progress) => compare.design(request, progress),
  finish: () => compare.finish(),
  stations: (request) => compare.stations(request),
  bellTrust: (request, progress) => compare.bellTrust(request, progress),
  overlay: (measured) => compare.overlay(measured),
  fitColumn: (request, progress) => compare.fitColumn(request, progress),
  inventMeasurement: () => compare.inventMeasurement(),
  stop: (ticket) => compare.stop(ticket),
  holdLock,
};

expose(served);
