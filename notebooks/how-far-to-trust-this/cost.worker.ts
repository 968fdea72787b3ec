/** Times the work away from the page, a size at a time. */
import { expose } from "comlink";
import { KINDS, timed } from "./cost.ts";

const served = {
  /** Seconds of a kind of work at one of its sizes. */
  seconds: (kind: number, size: number): number => timed(KINDS[kind].work(KINDS[kind].sizes[size])),
};

export type CostWorker = typeof served;

expose(served);
