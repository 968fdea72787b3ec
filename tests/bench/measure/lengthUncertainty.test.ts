import fc from "fast-check";
import { expect, it } from "vitest";
import { uncertaintyBudget } from "../../../src/bench/measure/budget.ts";
import { gapFromReadings } from "../../../src/bench/measure/gap.ts";
import { expandedUncertainty, lengthUncertainty } from "../../../src/bench/measure/lengthUncertainty.ts";

const tool = { resolutionMm: 0.01, zeroMm: 0.02, zeroUncertaintyMm: 0.005 };

it("is that of the length's own readings, step and zero", () => {
  const { budget } = gapFromReadings({
    depthMm: [24.53, 24.54, 24.55],
    insertionMm: [22, 22.04],
    depthTool: tool,
  });
  const depth = lengthUncertainty(budget, "depth")!;
  const repeats = 0.01 / Math.sqrt(3);
  const whole = Math.hypot(repeats, 0.01 / Math.sqrt(12), 0.005);
  expect(depth.standard).toBeCloseTo(whole, 12);
  // Welch–Satterthwaite with the repeats' two degrees of freedom alone
  expect(depth.degreesOfFreedom).toBeCloseTo((whole / repeats) ** 4 * 2, 9);
  expect(lengthUncertainty(budget, "insertion")!.standard).toBeCloseTo(0.02, 12);
  expect(lengthUncertainty(budget, "insertion")!.degreesOfFreedom).toBeCloseTo(1, 9);
});

it("is unknown for a length read once, or always the same by a tool of no known step", () => {
  const { budget } = gapFromReadings({ depthMm: [24.5], insertionMm: [22, 22] });
  expect(lengthUncertainty(budget, "depth")).toBeUndefined();
  expect(lengthUncertainty(budget, "insertion")).toBeUndefined();
});

it("gives the gap's uncertainty again, put together, also where one zero drops out", () => {
  const readings = fc.array(fc.integer({ min: 0, max: 40 }), { minLength: 2, maxLength: 8 });
  fc.assert(
    fc.property(readings, readings, fc.boolean(), (a, b, sameTool) => {
      const measured = gapFromReadings({
        depthMm: a.map((hundredths) => 24 + hundredths / 100),
        insertionMm: b.map((hundredths) => 20 + hundredths / 100),
        depthTool: tool,
        ...(sameTool ? { sameTool } : { insertionTool: tool }),
      });
      const parts = (["depth", "insertion"] as const).map((length) => ({
        component: length,
        standardUncertainty: lengthUncertainty(measured.budget, length)!.standard,
        degreesOfFreedom: lengthUncertainty(measured.budget, length)!.degreesOfFreedom,
      }));
      const whole = uncertaintyBudget(parts);
      expect(whole.standardUncertainty).toBeCloseTo(measured.standardUncertaintyMm!, 12);
      const relative = whole.degreesOfFreedom! / measured.degreesOfFreedom!;
      if (Number.isFinite(relative)) expect(relative).toBeCloseTo(1, 4);
      else expect(measured.degreesOfFreedom).toBeGreaterThan(1e5);
    }),
  );
});

it("keeps to degrees of freedom that a setup file takes", () => {
  const { budget } = gapFromReadings({
    depthMm: [24.5, 24.5, 24.5001],
    insertionMm: [22, 22.01],
    depthTool: { resolutionMm: 0.5 },
  });
  expect(lengthUncertainty(budget, "depth")!.degreesOfFreedom).toBe(Infinity);
});

it("is expanded by Student's t (tabulated: 4.303 for two degrees of freedom, 1.960 for infinitely many)", () => {
  expect(expandedUncertainty({ standard: 0.01, degreesOfFreedom: 2 })).toBeCloseTo(0.04303, 5);
  expect(expandedUncertainty({ standard: 2, degreesOfFreedom: Infinity })).toBeCloseTo(3.92, 3);
});
