/** The whole fit of gap and walls to a measurement, as the page asks for it. */
import { expect, test } from "vitest";
import { readMeasured } from "../../../src/study/measured/measuredCsv.ts";
import { Compare } from "../../../workers/instrument/compare.ts";
import { demo } from "../../acoustics/setups.ts";

test("the worker that compares finds the gap and the walls that a measurement was made with", async () => {
  const worker = new Compare();
  await worker.load(demo());
  const made = await worker.inventMeasurement();
  if ("refused" in made) throw new Error("a measurement is expected");
  const { frequencies, re, im, reading } = readMeasured(made.text);
  const measured = { frequencies, re, im, reading };
  const told: number[] = [];
  const unknowns = ["gap", "wall-loss"] as const;
  const fit = await worker.fitColumn({ measured, unknowns, noise: null, ticket: 1 }, ({ iteration }) =>
    told.push(iteration),
  );
  if (!fit || "refused" in fit) throw new Error("a fit is expected");
  expect(told[0]).toBe(1);
  expect(structuredClone(fit)).toEqual(fit);
  expect(fit.judgement).toBe("sound");
  const [gap, loss] = fit.estimates;
  // by the text's own head; 4 standard uncertainties leave out one noise in ten thousand
  expect(Math.abs(gap.value - 3.1)).toBeLessThan(4 * gap.standard!);
  expect(Math.abs(loss.value - 1.1)).toBeLessThan(4 * loss.standard!);
  expect(fit.after.peaks).toHaveLength(7);
  for (const { cents } of fit.after.peaks) expect(Math.abs(cents!)).toBeLessThan(2);
});
