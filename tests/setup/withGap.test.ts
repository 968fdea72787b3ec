import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readSetup } from "../../src/setup/file/readSetup.ts";
import { gapMm } from "../../src/setup/setup.ts";
import { withGap } from "../../src/setup/withGap.ts";
import { exampleFile } from "./example.ts";
import { refusal } from "./refusal.ts";

const setup = readSetup(exampleFile());

describe("withGap", () => {
  it("moves the shank and nothing else", () => {
    const { mouthpiece, ...rest } = withGap(setup, 3.175);
    expect(mouthpiece).toEqual({ ...setup.mouthpiece, insertionMm: 21.365 });
    expect({ ...rest, mouthpiece: setup.mouthpiece }).toEqual(setup);
    expect(Object.isFrozen(mouthpiece)).toBe(true);
    expect(setup.mouthpiece.insertionMm).toBe(22);
  });
  it("gives the gap that was asked for", () =>
    fc.assert(
      fc.property(fc.double({ min: 0, max: 24.54, noNaN: true }), (askedMm) => {
        expect(gapMm(withGap(setup, askedMm))).toBeCloseTo(askedMm, 9);
      }),
    ));
  it("goes from contact to a shank at the receiver's face", () => {
    expect(gapMm(withGap(setup, 0))).toBe(0);
    expect(withGap(setup, 24.54).mouthpiece.insertionMm).toBe(0);
  });
  it.each([-0.01, 24.55, Number.NaN, Number.POSITIVE_INFINITY])("refuses %d mm", (askedMm) => {
    const problems = refusal(() => withGap(setup, askedMm));
    expect(problems).toMatchObject([{ path: "gap", value: askedMm }]);
    expect(problems[0].message).toContain("give 0 mm to its depth, 24.540 mm");
  });
  it("speaks the setup's own unit", () => {
    const inches = { ...setup, units: "in" as const };
    expect(refusal(() => withGap(inches, 25.4))[0].message).toBe(
      "1.0000 in is no gap of this receiver; give 0 in to its depth, 0.9661 in",
    );
  });
  it("refuses a gap at which the receiver is narrower than the shank's bore", () => {
    const tight = readSetup({
      ...exampleFile(),
      receiver: { mouthDiameter: 10.8, taper: 0.1, depth: 24.54 },
    });
    expect(gapMm(withGap(tight, 2.54))).toBeCloseTo(2.54, 9);
    expect(refusal(() => withGap(tight, 0.5))).toMatchObject([{ path: "gap", value: 0.5 }]);
  });
});
