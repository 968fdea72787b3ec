import { describe, expect, it } from "vitest";
import { errors } from "../../notebooks/how-the-gap-is-modelled/errors.ts";
import { junctionEffect } from "../../notebooks/how-the-gap-is-modelled/junctions.ts";
import {
  excessAt,
  finiteElements,
  oneStep,
  stepsAt,
  twoSteps,
} from "../../notebooks/how-the-gap-is-modelled/limits.ts";

describe("how the gap is modelled", () => {
  it("draws the finite elements of the table on the model's curve", () => {
    expect(finiteElements.length).toBe(8);
    // the region's 0.02 %, of which this is the smaller part
    for (const { gapMm, excess } of finiteElements) expect(excessAt(gapMm) / excess).toBeCloseTo(1, 2);
  });

  it("lies between one step and two, and reaches both", () => {
    for (const gapMm of [0.05, 0.5, 2.54, 6]) {
      expect(excessAt(gapMm)).toBeGreaterThan(oneStep);
      expect(excessAt(gapMm)).toBeLessThan(twoSteps * 1.001);
      expect(stepsAt(gapMm).mutual).toBeLessThan(0);
    }
    expect(excessAt(0.001) / oneStep).toBeCloseTo(1, 1);
    expect(excessAt(15) / twoSteps).toBeCloseTo(1, 2);
  });

  it("names every deviation by its gap", () => {
    expect(errors().length).toBeGreaterThan(0);
    for (const { gapsMm, samples } of errors()) {
      expect(gapsMm.length).toBeGreaterThan(0);
      expect(gapsMm.length).toBe(samples.length);
      for (const gapMm of gapsMm) expect(gapMm >= 0.05 && gapMm <= 12).toBe(true);
    }
  });

  it("finds that the evanescent fields shift no resonance as far as can be felt", () => {
    const { ofFields, withFields, withoutFields } = junctionEffect(2.54);
    expect(ofFields.length).toBeGreaterThan(0);
    for (const { shiftCents } of ofFields) expect(Math.abs(shiftCents)).toBeLessThan(0.5);
    expect(withFields.length).toBeGreaterThan(0);
    withFields.forEach(({ shiftCents }, i) => {
      // a closed gap has fields of its own
      expect(Math.abs(shiftCents - withoutFields[i].shiftCents)).toBeLessThan(0.5);
      expect(shiftCents).toBeLessThan(0);
    });
  });
});
