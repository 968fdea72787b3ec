import { describe, expect, it } from "vitest";
import { problemText } from "../../../../src/app/form/setup/edits.ts";
import { comparedWithSetup, setInWords, withMeasuredGap } from "../../../../src/app/tasks/measure/useGap.ts";
import { gapFromReadings } from "../../../../src/bench/measure/gap.ts";
import { lengthUncertainty } from "../../../../src/bench/measure/lengthUncertainty.ts";
import { provenanceOf } from "../../../../src/setup/dimension/provenance.ts";
import { readSetup } from "../../../../src/setup/file/readSetup.ts";
import { writeSetup } from "../../../../src/setup/file/writeSetup.ts";
import { gapMm, type Setup, type Uncertainty } from "../../../../src/setup/setup.ts";
import { someSetup } from "../../someSetup.ts";

const before: Setup = {
  ...someSetup(),
  uncertainties: {
    "receiver.depth": { standard: 0.2, degreesOfFreedom: Infinity },
    "receiver.taper": { standard: 0.001, degreesOfFreedom: 4 },
  },
};
const measured = gapFromReadings({
  depthMm: [24.63, 24.64, 24.65],
  insertionMm: [22.01, 22.03],
  depthTool: { resolutionMm: 0.01, zeroMm: 0.02 },
});

function used(setup: Setup, from = measured): Setup {
  const outcome = withMeasuredGap(setup, from);
  if ("problems" in outcome) throw new Error(problemText(outcome.problems, ""));
  return outcome.setup;
}

/** A file's lengths are free of the last digits of a double. */
const near = ({ standard, degreesOfFreedom }: Uncertainty) => ({
  standard: expect.closeTo(standard, 12),
  degreesOfFreedom,
});

describe("the setup with the measured gap", () => {
  it.each(["mm", "in"] as const)(
    "has depth, insertion and what is known of them; written in %s and read again",
    (units) => {
      const setup = used({ ...before, units });
      expect(setup.receiver.depthMm).toBe(24.62);
      expect(setup.mouthpiece.insertionMm).toBe(22.02);
      expect(setup.uncertainties).toEqual({
        "receiver.taper": before.uncertainties["receiver.taper"],
        "receiver.depth": near(lengthUncertainty(measured.budget, "depth")!),
        "mouthpiece.insertion": near(lengthUncertainty(measured.budget, "insertion")!),
      });
      expect(setup.units).toBe(units);
      const again = readSetup(writeSetup(setup));
      expect(gapMm(again)).toBeCloseTo(measured.gapMm, 9);
      expect(again.uncertainties["receiver.depth"].standard).toBeCloseTo(
        setup.uncertainties["receiver.depth"].standard,
        9,
      );
    },
  );

  it("is measured in depth and insertion, and assumed in what was assumed before", () => {
    const setup = used({ ...before, provenance: { receiver: "assumed", mouthpiece: "assumed" } });
    expect(provenanceOf(setup, "receiver.depth")).toBe("measured");
    expect(provenanceOf(setup, "mouthpiece.insertion")).toBe("measured");
    expect(provenanceOf(setup, "receiver.taper")).toBe("assumed");
    expect(provenanceOf(setup, "mouthpiece.profile")).toBe("assumed");
  });

  it("keeps every other part as it is", () => {
    const setup = used(before);
    expect(setup.leadpipe).toBe(before.leadpipe);
    expect(setup.body).toBe(before.body);
    expect(setup.mouthpiece.profileMm).toBe(before.mouthpiece.profileMm);
  });

  it("does not keep the uncertainty of an older measurement where this one has none, and says so", () => {
    const single = gapFromReadings({ depthMm: [24.6], insertionMm: [22, 22.02] });
    expect(Object.keys(used(before, single).uncertainties)).toEqual([
      "receiver.taper",
      "mouthpiece.insertion",
    ]);
    expect(setInWords(single, "mm")).toMatch(/How well depth is known the readings cannot tell/);
    expect(setInWords(measured, "mm")).not.toMatch(/cannot tell/);
  });

  it.each([
    [{ depthMm: [20], insertionMm: [22] }, /gap would be -2\.000 mm: the shank would be past the start/],
    [{ depthMm: [300], insertionMm: [22] }, /receiver would taper/],
    [{ depthMm: [205], insertionMm: [200] }, /bore at the shank's end/],
  ])("is refused in words for %j", (readings, words) => {
    const outcome = withMeasuredGap(before, gapFromReadings(readings));
    if ("setup" in outcome) throw new Error("not refused");
    expect(problemText(outcome.problems, "")).toMatch(words);
  });
});

describe("compared with the open setup", () => {
  const at = (depth: number) => someSetup({ depth });
  it("says which way, how far, and whether the uncertainty is larger", () => {
    expect(comparedWithSetup(measured, at(22 + 0.54), "mm")).toMatch(
      /has a gap of 0\.5\d* mm · 0\.02\d* in; the measured one is 2\.\d+ mm · 0\.08\d* in wider, more than the uncertainty\.$/,
    );
    expect(comparedWithSetup(measured, at(24.61), "in")).toMatch(/narrower, no more than the uncertainty\.$/);
    expect(comparedWithSetup(measured, used(before), "mm")).toMatch(/: the measured one\.$/);
  });
  it("claims nothing of an uncertainty that is unknown", () => {
    const single = gapFromReadings({ depthMm: [24.6], insertionMm: [22] });
    expect(comparedWithSetup(single, at(24), "mm")).toMatch(/0\.60 mm · 0\.024 in wider\.$/);
  });
});
