/** A leadpipe searched for three targets from five starts, each until it settles; one core. */
import { design } from "../../src/study/design/design.ts";
import { DESIGN_DEFAULTS, usualLimits } from "../../src/study/design/designDefaults.ts";
import { parseDesignGoal } from "../../src/study/design/designGoal.ts";
import { demo } from "../acoustics/setups.ts";
import { best, type Row } from "./bench.ts";

export function designRows(): Row[] {
  const setup = demo();
  const { smallestMm, largestMm } = usualLimits(setup);
  const search = () => {
    const { starts } = design(setup, {
      goal: parseDesignGoal("cents2=0, cents5=0, height4=32"),
      limits: { ...DESIGN_DEFAULTS, smallestMm, largestMm, gapMm: null },
      restarts: 5,
      stepsEach: DESIGN_DEFAULTS.stepsEach,
      seed: DESIGN_DEFAULTS.seed,
    });
    if (starts.length !== 5) throw new Error("five starts were expected");
  };
  return [
    {
      name: "a leadpipe design of three targets, five starts",
      value: best(2, search),
      goal: 3,
      unit: "s",
      better: "less",
    },
  ];
}
