/** Speed of hearing what an instrument answers to sweeps: a recording of one of 8 s, and a take of two. */
import { responseOf } from "../../src/response/response.ts";
import { exponentialSweep, USUAL_SWEEP } from "../../src/response/sweep.ts";
import { sweepTakeOf } from "../../src/response/sweepTake.ts";
import { recorded, TEN } from "../response/syntheticRig.ts";
import { best, type Row } from "./bench.ts";

const RATE = 48_000;

export function responseRows(): Row[] {
  const one = { samples: exponentialSweep({ ...USUAL_SWEEP, seconds: 8, rate: RATE }), rate: RATE };
  const two = new Float32Array(2 * one.samples.length + RATE / 2);
  two.set(one.samples);
  two.set(one.samples, one.samples.length);
  const rig = { ...TEN, delay: 0.1, noiseDb: 40, seed: 1 };
  const single = recorded(one, rig);
  const take = recorded({ samples: two, rate: RATE }, { ...rig, clock: 5e-5 });
  const seconds = (work: () => { readonly resonances: readonly unknown[] }) =>
    best(3, () => {
      if (work().resonances.length !== 10) throw new Error("ten resonances were expected");
    });
  return [
    {
      name: "resonances from the recording of an 8 s sweep",
      value: seconds(() => responseOf(one, single)),
      goal: 1,
      unit: "s",
      better: "less",
    },
    {
      name: "a take of two such sweeps: clock and resonances",
      value: seconds(() => sweepTakeOf(one, take)),
      goal: null,
      unit: "s",
      better: "less",
    },
  ];
}
