/** The leadpipe that the notebook of three leadpipes has made, measured and fitted by what is suspected. */
import { drawings } from "../../notebooks/three-leadpipes/leadpipes.ts";
import { madeOf, SUSPECTS } from "../../notebooks/three-leadpipes/made.ts";
import { columnFitSteps } from "../../src/study/measured/columnFit.ts";
import type { ColumnFit } from "../../src/study/measured/columnFitResult.ts";

const made = madeOf(drawings[0]);

/** By its own confession. */
export const truthMm = Number(/gap of ([\d.]+) mm/.exec(made.confession)![1]);

export function fitted(suspect: string): ColumnFit {
  const steps = columnFitSteps(made.variant.setup, made.measured, SUSPECTS[suspect].unknowns);
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
  }
}
