import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { planCut } from "../../../src/bench/cut/cut.ts";
import { cutQuestion } from "../../../src/bench/cut/cutSetup.ts";
import type { CutWayName } from "../../../src/bench/cut/cutWay.ts";
import { setupAfterCut } from "../../../src/bench/cut/setupAfterCut.ts";
import { fitOf } from "../../../src/bench/fit/fit.ts";
import { readSetup } from "../../../src/setup/file/readSetup.ts";
import { writeSetup } from "../../../src/setup/file/writeSetup.ts";
import { gapMm } from "../../../src/setup/setup.ts";
import { refusedWords } from "../../../src/words/bench/cut.ts";
import { exampleFile } from "../../setup/example.ts";

const file = exampleFile();
const setup = readSetup({
  ...file,
  mouthpiece: { ...file.mouthpiece, insertion: 22 },
  uncertainties: {
    "receiver.depth": 0.02,
    "mouthpiece.insertion": 0.03,
    "mouthpiece.profile[3][1]": 0.02,
    "mouthpiece.diameters": 0.01,
  },
});
const planTo = (targetMm: number, stopMmPerMark?: number) =>
  planCut(cutQuestion(setup, { targetMm, ...(stopMmPerMark !== undefined && { stopMmPerMark }) }));

function setupAfter(targetMm: number, way: CutWayName, stopMmPerMark?: number) {
  const answer = setupAfterCut(setup, planTo(targetMm, stopMmPerMark), way);
  if ("refused" in answer) throw new Error(refusedWords(answer.refused, "mm"));
  return answer.setup;
}

describe("the setup after a cut", () => {
  it("has the target for its gap, and seats there by its own dimensions", () => {
    for (const [targetMm, way] of [
      [2, "turn-down"],
      [3.5, "sleeve"],
      [3.5, "shorten"],
      [3.5, "exchange"],
      [2, "exchange"],
    ] as const) {
      const { mouthpiece, receiver, ...rest } = setupAfter(targetMm, way);
      expect(gapMm({ mouthpiece, receiver, ...rest })).toBeCloseTo(targetMm, 9);
      const fit = fitOf({
        shankEndDiameterMm: mouthpiece.shankEndDiameterMm!,
        shankTaper: mouthpiece.shankTaper!,
        mouthDiameterMm: receiver.mouthDiameterMm,
        receiverTaper: receiver.taper,
        depthMm: receiver.depthMm,
      });
      expect(fit.gapMm).toBeCloseTo(targetMm, 9);
    }
    expect(gapMm(setupAfter(2, "stop", 0.25))).toBeCloseTo(2, 9);
  });

  it("is shorter by what is cut off, the exit bore that of the backbore there", () => {
    const { profileMm } = setupAfter(3.54, "shorten").mouthpiece;
    expect(profileMm.at(-1)![0]).toBeCloseTo(78, 9);
    // the backbore opens 4.8 mm in 63 mm
    expect(profileMm.at(-1)![1]).toBeCloseTo(8.5 - 4.8 / 63, 9);
    expect(profileMm.slice(0, -1)).toEqual(setup.mouthpiece.profileMm.slice(0, -1));
  });

  it("keeps what the work does not touch, and claims no measurement of what it does", () => {
    const turned = setupAfter(2, "turn-down");
    expect(turned.mouthpiece.profileMm).toEqual(setup.mouthpiece.profileMm);
    expect({ ...turned, mouthpiece: null, uncertainties: null }).toEqual({
      ...setup,
      mouthpiece: null,
      uncertainties: null,
    });
    expect(Object.keys(turned.uncertainties)).toEqual(["receiver.depth", "mouthpiece.diameters"]);
  });

  it("or words: a way that is impossible, or none of the plan", () => {
    const refused = (targetMm: number, way: CutWayName) => {
      const answer = setupAfterCut(setup, planTo(targetMm), way);
      expect(Object.keys(answer)).toEqual(["refused"]);
      return "refused" in answer && [answer.refused.kind, refusedWords(answer.refused, "mm")];
    };
    const notInPlan = ["not-in-plan", expect.stringMatching(/is not in the plan/)];
    expect(refused(2, "stop")).toEqual(["not-possible", expect.stringMatching(/adjustable receiver/)]);
    expect(refused(2, "sleeve")).toEqual(notInPlan);
    expect(refused(99, "turn-down")).toEqual(notInPlan);
  });

  it("is always one that can be written and read again", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 24.5, noNaN: true }),
        fc.constantFrom<CutWayName>("turn-down", "shorten", "sleeve", "exchange", "stop"),
        fc.constantFrom("mm" as const, "in" as const),
        (targetMm, way, units) => {
          const answer = setupAfterCut({ ...setup, units }, planTo(targetMm, 0.25), way);
          if ("refused" in answer) {
            const words = refusedWords(answer.refused, units);
            expect(words).toMatch(/^[A-Z].*[.:]/);
            expect(words).not.toMatch(/NaN|undefined|Infinity/);
          } else {
            expect(answer.setup.units).toBe(units);
            const { mouthpiece } = readSetup(writeSetup(answer.setup));
            expect(mouthpiece.insertionMm).toBeCloseTo(answer.setup.mouthpiece.insertionMm, 8);
          }
        },
      ),
    );
  });
});
