/** Instruments like the demo, drawn anew each: what the change of gap does on them, and the verdicts with that doubt; one core. */
import { resistanceChangeLike } from "../../src/study/blown/resistanceLike.ts";
import { Exploration } from "../../src/study/instrument/exploration.ts";
import { monteCarloSteps } from "../../src/study/uncertainty/monteCarlo.ts";
import { demo } from "../acoustics/setups.ts";
import { best, type Row } from "./bench.ts";

const TRIALS = 400;
const GAPS = { gapMm: 5.04, referenceGapMm: 2.5 };

export function drawnRows(): Row[] {
  const setup = demo();
  const drawn = () => {
    const steps = monteCarloSteps(setup, { ...GAPS, trials: TRIALS });
    let step = steps.next();
    while (!step.done) step = steps.next();
    if (step.value.drawn < 0.9 * TRIALS) throw new Error("hardly an instrument was drawn");
    const exploration = new Exploration(setup);
    // the first answer comes without its doubt
    exploration.explore(GAPS.gapMm, GAPS.referenceGapMm, 4);
    const { uncertainty } = exploration.explore(GAPS.gapMm, GAPS.referenceGapMm, 4);
    if (!uncertainty) throw new Error("verdicts with their doubt were expected");
    resistanceChangeLike(setup, GAPS);
  };
  return [
    {
      name: `instruments like this one: ${TRIALS} drawn, shifts, heights and verdicts`,
      value: best(2, drawn),
      goal: 2,
      unit: "s",
      better: "less",
    },
  ];
}
