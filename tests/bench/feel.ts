/** What the page asks of lips, on one core: all felt verdicts of a new gap, and slurs. */
import { closedSteps, feltSteps } from "../../src/study/feel/felt.ts";
import { leapSteps } from "../../src/study/feel/leaps.ts";
import { MODAL_COUNT } from "../../src/study/feel/modalColumn.ts";
import { Instrument } from "../../src/study/instrument/instrument.ts";
import { demo } from "../acoustics/setups.ts";
import { best, type Row } from "./bench.ts";

const SLURS = 100;

function last<Step, Result>(steps: Generator<Step, Result, void>): Result {
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
  }
}

export function feelRows(): Row[] {
  const instrument = new Instrument(demo(), { modes: MODAL_COUNT });
  const question = { referenceGapMm: 2.5, litresPerMinute: 20 };
  // from the own gap to none is the same at every gap that is looked at
  last(closedSteps(instrument, question));
  let gapMm = 3;
  const felt = () => {
    gapMm += 0.3;
    if (!last(feltSteps(instrument, { ...question, gapMm })).change) throw new Error("a change was expected");
  };
  felt();
  const slurs = () => {
    for (const gap of [2.5, 5.04]) {
      const options = { gapMm: gap, referenceGapMm: 2.5, from: 3, to: 4, aimCents: 40, runs: SLURS };
      if ([...leapSteps(instrument, options)].length !== SLURS) throw new Error("a hundred were expected");
    }
  };
  return [
    {
      name: "all felt verdicts of a new gap, both lip models",
      value: best(3, felt),
      goal: 0.7,
      unit: "s",
      better: "less",
    },
    {
      name: `${SLURS} slurs at each of two gaps`,
      value: best(2, slurs),
      goal: 6,
      unit: "s",
      better: "less",
    },
  ];
}
