import { describe, expect, it } from "vitest";
import { usualCautions } from "../../../src/bench/cut/cautions.ts";
import { planCut } from "../../../src/bench/cut/cut.ts";
import type { CutQuestion } from "../../../src/bench/cut/cutQuestion.ts";
import type { CutWayName } from "../../../src/bench/cut/cutWay.ts";
import { planWords, SIZE_UNIT, stageSize, wayWords } from "../../../src/words/bench/cut.ts";
import { cutCard } from "../../../src/words/bench/cutCard.ts";
import { CAUTION, CONFIRMATION, cautionWords, HELD_BACK } from "../../../src/words/bench/cutCautions.ts";
import { question, wayOf } from "../../bench/cut/question.ts";

const words = (asked: CutQuestion, name: CutWayName) => wayWords(wayOf(asked, name), asked.unit ?? "mm");
const more = { ...question, targetMm: 3.5 };

describe("a plan in sentences", () => {
  it("warns where the uncertainty is not known or the dimensions foresee another gap", () => {
    const { standardUncertaintyMm: _, ...unknown } = question;
    expect(planWords(planCut(unknown)).join(" ")).toMatch(/uncertainty is not known.*measure it/);
    expect(planWords(planCut({ ...question, gapMm: 3.5 })).join(" ")).toMatch(
      /predict a gap of 2\.50 mm, not 3\.50/,
    );
  });

  it("speaks inches where that is the unit", () => {
    expect(words({ ...question, minimumWallMm: 0.595, unit: "in" }, "turn-down")[0]).toMatch(
      /^Only 0\.0231 in of wall .* below the minimum of 0\.0234 in/,
    );
    expect(planWords(planCut({ ...question, targetMm: 30, unit: "in" }))[0]).toMatch(
      /1\.1811 in; give 0 to .*0\.9646 in/,
    );
    expect(cutCard(planCut({ ...question, unit: "in" }), "turn-down")!.title).toMatch(
      /0\.098 in to 0\.079 in$/,
    );
    expect(stageSize(0.025, "off-diameter", "in")).toBe("0.0010 in off the diameter (0.025 mm)");
    expect(stageSize(2, "marks-to-less", "in")).toBe("2.0 marks towards less gap");
  });

  it("has its cautions, the seat's wear with its own number where there is a taper", () => {
    const plan = planCut(question);
    expect(cautionWords(plan.cautions, plan).at(-1)).toMatch(/takes 0\.20 mm \(0\.008 in\) off the gap/);
    expect(cautionWords(usualCautions, plan)).toEqual(usualCautions.map((caution) => CAUTION[caution]));
  });
});

describe("a way in sentences", () => {
  it("says what stands against turning down, and that it cannot be undone", () => {
    expect(words({ ...question, minimumWallMm: 0.595 }, "turn-down")[0]).toBe(
      "Only 0.588 mm of wall would be left at the end, below the minimum of 0.595 mm (common practice, no source); at most 0.200 mm of gap can be taken off this way.",
    );
    const unknown = { ...question, shank: { boreMm: question.shank.boreMm } };
    expect(words(unknown, "turn-down")[0]).toMatch(/measure the shank's end diameter/);
    expect(CONFIRMATION).toMatch(/cannot be undone.*qualified repairer/);
    expect(HELD_BACK).toMatch(/cannot be undone.*measure receiver depth and insertion/);
  });

  it("says what stands against shortening and a sleeve", () => {
    const cylinder = { ...more, shank: { ...more.shank, taper: 0 } };
    expect(words(cylinder, "shorten")[0]).toMatch(/only goes in further/);
    const short: CutQuestion = {
      ...more,
      shank: {
        boreMm: [
          [0, 16],
          [10, 4],
          [10.5, 8],
        ],
      },
    };
    expect(words(short, "shorten")[0]).toMatch(/backbore is only 0\.500 mm long/);
    const wide = { ...more, shank: { ...more.shank, endDiameterMm: 10.78 } };
    expect(words(wide, "sleeve")[0]).toMatch(/too large to enter/);
  });

  it("counts a stop in marks", () => {
    expect(SIZE_UNIT[wayOf({ ...more, stopMmPerMark: 0.25 }, "stop").unit]).toBe("marks towards more gap");
  });
});

describe("the card", () => {
  it("has target, limits, stages with blank places, and the confirmation to give", () => {
    const card = cutCard(planCut(question), "turn-down")!;
    expect(card).toMatchObject({ targetMm: 2, needsConfirmation: true, confirmation: CONFIRMATION });
    expect(card.limitsMm[0]).toBeCloseTo(1.94, 9);
    expect(card.stages.length).toBe(2);
    expect(card.stages[0].doWhat).toMatch(/mm off the diameter \(.* in\), to insertion 22\.21 mm/);
    expect(card.stages[0].size).toMatch(/^0\.\d{3} mm off the diameter/);
    expect(card.stages[0].check!.afterMm).toBeCloseTo(22.21, 2);
    expect(card.notes.join()).toMatch(
      /Turn it for 23\.50 mm from the end.*The stages end 0\.17 mm of gap short/,
    );
    expect(card.stages[0].depthReadings.length).toBe(3);
    expect(card.cautions.join()).toMatch(/Lathe:.*Thin wall:.*Plating:/);
    expect(cutCard(planCut(question), "exchange")!.stages.length).toBe(1);
    expect(cutCard(planCut(question), "shorten")).toBeUndefined();
    expect(cutCard(planCut(question), "stop")).toBeUndefined();
  });
});
