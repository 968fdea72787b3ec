/** Makes the checks away from the page: all of them take seconds. */
import { expose } from "comlink";
import { type Outcome, outcomeOf } from "./check.ts";
import { CHECKS } from "./checks.ts";

const served = {
  count: (): number => CHECKS.length,
  outcome: (i: number): Outcome => outcomeOf(CHECKS[i]),
};

export type ChecksWorker = typeof served;

expose(served);
