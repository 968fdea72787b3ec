import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { planCut } from "../../../src/bench/cut/cut.ts";
import type { CutQuestion } from "../../../src/bench/cut/cutQuestion.ts";
import { cutQuestion } from "../../../src/bench/cut/cutSetup.ts";
import { throatAtMm } from "../../../src/bench/cut/cutShorten.ts";
import { stagedSteps } from "../../../src/bench/cut/cutStages.ts";
import type { CutDimension, CutWayName } from "../../../src/bench/cut/cutWay.ts";
import { fitOf } from "../../../src/bench/fit/fit.ts";
import { boreDiameterMm } from "../../../src/setup/bore/boreDiameter.ts";
import { readSetup } from "../../../src/setup/file/readSetup.ts";
import { planWords } from "../../../src/words/bench/cut.ts";
import { cutCard } from "../../../src/words/bench/cutCard.ts";
import { exampleFile } from "../../setup/example.ts";
import { anyNumber, notNumbers } from "../fit/anyFit.ts";
import { question, wayOf } from "./question.ts";

const effect = (asked: CutQuestion, name: CutWayName, what: CutDimension) =>
  wayOf(asked, name).sideEffects.find((one) => one.what === what);

describe("less gap", () => {
  it("0.020 in takes 0.001 in off the diameter (common practice, no source)", () => {
    const way = wayOf({ ...question, targetMm: 2.5 - 0.508 }, "turn-down");
    expect(way.size! / 25.4).toBeCloseTo(0.001, 9);
    expect(way).toMatchObject({ isPossible: true, isReversible: false });
    expect(way.columnChangeMm).toBeCloseTo(-0.508, 9);
  });

  it("is what the fit of the turned shank gives", () => {
    for (const shankTaper of [0.05, 0.055, 0.045]) {
      const dimensions = {
        shankEndDiameterMm: 9.7,
        shankTaper,
        mouthDiameterMm: 10.8,
        receiverTaper: 0.05,
        depthMm: 24.5,
      };
      const gapMm = fitOf(dimensions).gapMm!;
      const asked = {
        ...question,
        gapMm,
        targetMm: gapMm - 0.8,
        shank: { ...question.shank, taper: shankTaper },
      };
      const { size } = wayOf(asked, "turn-down");
      expect(fitOf({ ...dimensions, shankEndDiameterMm: 9.7 - size! }).gapMm).toBeCloseTo(gapMm - 0.8, 9);
    }
  });

  it("checks the wall left at the end", () => {
    const wall = effect(question, "turn-down", "wall")!;
    expect(wall.beforeMm).toBeCloseTo((9.7 - 8.5) / 2, 9);
    expect(wall.afterMm).toBeCloseTo((9.7 - 0.025 - 8.5) / 2, 9);
    const thin = wayOf({ ...question, minimumWallMm: 0.595 }, "turn-down");
    expect(thin).toMatchObject({ isPossible: false, stages: [] });
    expect(thin.findings).toHaveLength(1);
    const [finding] = thin.findings;
    if (finding.kind !== "turned-too-thin") throw new Error(finding.kind);
    expect(finding.minimumWallMm).toBe(0.595);
    expect(finding.wallMm).toBeCloseTo(0.5875, 9);
    expect(finding.mostMm).toBeCloseTo(0.2, 9);
    const unknown = wayOf({ ...question, shank: { boreMm: question.shank.boreMm } }, "turn-down");
    expect(unknown.findings).toEqual([{ kind: "end-diameter-unknown" }]);
  });

  it("offers no way to more", () => {
    expect(planCut(question).ways.map(({ name }) => name)).toEqual(["stop", "exchange", "turn-down"]);
  });
});

describe("more gap", () => {
  const more = { ...question, targetMm: 3.5 };

  it("shortens the shank by as much, and tells the exit bore then", () => {
    const way = wayOf(more, "shorten");
    expect(way.size).toBeCloseTo(1, 9);
    expect(way.isReversible).toBe(false);
    // the backbore opens 4.8 mm in 63 mm
    expect(effect(more, "shorten", "exit-bore")!.afterMm).toBeCloseTo(8.5 - 4.8 / 63, 9);
    expect(way.columnChangeMm).toBeCloseTo(0, 9);
  });

  it("is what the fit of the shortened shank gives, wherever it touches", () => {
    for (const shankTaper of [0.05, 0.06, 0.04, 0.01]) {
      const dimensions = {
        shankEndDiameterMm: 9.7,
        shankTaper,
        mouthDiameterMm: 10.8,
        receiverTaper: 0.05,
        depthMm: 24.5,
      };
      const gapMm = fitOf(dimensions).gapMm!;
      const asked = {
        ...question,
        gapMm,
        targetMm: gapMm + 0.7,
        shank: { ...question.shank, taper: shankTaper },
      };
      const { size } = wayOf(asked, "shorten");
      const shortened = { ...dimensions, shankEndDiameterMm: 9.7 + shankTaper * size! };
      expect(fitOf(shortened).gapMm).toBeCloseTo(gapMm + 0.7, 9);
    }
  });

  it("cannot shorten a cylinder that touches at its end, nor past the backbore", () => {
    const cylinder = { ...more, shank: { ...more.shank, taper: 0 } };
    expect(wayOf(cylinder, "shorten").findings).toEqual([{ kind: "only-goes-in-further" }]);
    const short = {
      ...more,
      shank: {
        boreMm: [
          [0, 16],
          [10, 4],
          [10.5, 8],
        ] as const,
      },
    };
    expect(wayOf(short, "shorten").findings).toMatchObject([
      { kind: "longer-than-backbore", backboreMm: 0.5 },
    ]);
  });

  it("sleeves by half of what the diameter needs, which can be undone", () => {
    expect(wayOf(more, "sleeve")).toMatchObject({ isReversible: true });
    expect(wayOf(more, "sleeve").size).toBeCloseTo(0.025, 9);
    const wide = { ...more, shank: { ...more.shank, endDiameterMm: 10.78 } };
    expect(wayOf(wide, "sleeve").findings).toMatchObject([{ kind: "too-wide-for-mouth" }]);
  });

  it("moves a stop by marks", () => {
    expect(wayOf(more, "stop").isPossible).toBe(false);
    const way = wayOf({ ...more, stopMmPerMark: 0.25 }, "stop");
    expect(way.size).toBeCloseTo(4, 9);
    expect(way.unit).toBe("marks-to-more");
  });
});

describe("stages", () => {
  const positive = fc.double({ min: 0.001, max: 50, noNaN: true });

  it("never take more than half of what remains, never overshoot by the uncertainty, and reach the limit", () =>
    fc.assert(
      fc.property(
        positive,
        fc.double({ min: 0, max: 20, noNaN: true }),
        positive,
        (remaining, u, tolerance) => {
          let left = remaining;
          for (const step of stagedSteps(remaining, u, tolerance)) {
            expect(step).toBeGreaterThan(0);
            expect(step).toBeLessThanOrEqual((left / 2) * (1 + 1e-5));
            left -= step;
            expect(left).toBeGreaterThanOrEqual(u * (1 - 1e-9));
          }
          expect(left).toBeLessThanOrEqual(Math.max(u, tolerance) * (1 + 1e-9));
        },
      ),
    ));

  it("of a plan go from the gap to its limit, and count up", () => {
    const { stages } = wayOf(question, "turn-down");
    expect(stages[0].gapBeforeMm).toBe(2.5);
    expect(stages.length).toBeGreaterThan(1);
    stages.slice(1).forEach((stage, i) => {
      expect(stage.gapBeforeMm).toBeCloseTo(stages[i].gapAfterMm, 12);
      expect(stage.total).toBeCloseTo(stages[i].total + stage.size, 12);
    });
  });

  it("of a stop go to the limit", () => {
    const { stages } = wayOf({ ...question, stopMmPerMark: 0.25 }, "stop");
    expect(stages.at(-1)!.gapAfterMm).toBeCloseTo(2.06, 9);
  });

  it("are checked by insertion: what comes off the diameter shows twenty times as large at 1:20", () => {
    for (const [asked, name] of [
      [question, "turn-down"],
      [{ ...question, targetMm: 3.5 }, "sleeve"],
    ] as const)
      for (const { check, gapAfterMm } of wayOf(asked, name).stages) {
        expect(check!.what).toBe("insertion");
        expect(check!.afterMm).toBeCloseTo(question.receiver.depthMm - gapAfterMm, 9);
      }
  });

  it("end where they would be finer than can be cut and checked, and say how far short", () => {
    const { stages, findings } = wayOf(question, "turn-down");
    for (const { size } of stages) expect(size).toBeGreaterThanOrEqual(0.005 * (1 - 1e-6));
    expect(findings).toContainEqual({
      kind: "stops-short",
      leftMm: expect.closeTo(stages.at(-1)!.gapAfterMm - question.targetMm, 9),
      finestMm: 0.005,
    });
    const fine = wayOf({ ...question, targetMm: 2.42, standardUncertaintyMm: 0.01 }, "turn-down");
    expect(fine).toMatchObject({ isPossible: false, stages: [] });
    expect(fine.findings).toMatchObject([{ kind: "finer-than-can-be-cut" }]);
    // a hundredth or two of length can be faced off
    expect(wayOf({ ...question, targetMm: 3.5 }, "shorten").findings).not.toContainEqual(
      expect.objectContaining({ kind: "stops-short" }),
    );
  });

  it("are turned past the face by more than what goes in further, and say what stays engaged", () => {
    // 22 mm in the receiver, half a millimetre more, and a millimetre past it
    expect(wayOf(question, "turn-down").findings).toContainEqual({
      kind: "turn-extent",
      lengthMm: expect.closeTo(23.5, 9),
      addedMm: expect.closeTo(0.5, 9),
    });
    expect(wayOf({ ...question, targetMm: 3.5 }, "shorten").findings).toContainEqual({
      kind: "engagement-left",
      lengthMm: expect.closeTo(21, 9),
    });
  });
});

describe("no plan", () => {
  it.each<[Partial<CutQuestion>, string, RegExp]>([
    [{ standardUncertaintyMm: 0.3 }, "refused", /known to ±0\.60 mm only, more than the 0\.50 mm asked for/],
    [{ targetMm: 2.48 }, "nothing-to-do", /within 0\.05 mm of the planned gap/],
    [
      { targetMm: -1 },
      "refused",
      /the planned gap is -1\.000 mm; give 0 to the receiver's depth, 24\.500 mm/,
    ],
    [{ targetMm: 30 }, "refused", /the planned gap is 30\.000 mm/],
    [{ gapMm: Number.NaN }, "refused", /the gap is not a number/],
    [{ toleranceMm: 0 }, "refused", /tolerance is 0\.000 mm/],
    [{ minimumWallMm: -1 }, "refused", /minimum wall/],
    [{ stopMmPerMark: 0 }, "refused", /mark of the stop/],
    [{ shank: { ...question.shank, endDiameterMm: 8 } }, "refused", /no wall around the bore/],
    [{ shank: { boreMm: [] } }, "refused", /bore is no profile/],
    [{ receiver: { ...question.receiver, taper: 0.5 } }, "refused", /taper to nothing/],
  ])("%j: %s", (change, outcome, words) => {
    const plan = planCut({ ...question, ...change });
    expect(plan.outcome).toBe(outcome);
    expect(planWords(plan).join(" ")).toMatch(words);
    expect(plan.ways).toEqual([]);
  });

  it("but a warning, where the uncertainty is not known or the dimensions foresee another gap", () => {
    const { standardUncertaintyMm: _, ...unknown } = question;
    expect(planCut(unknown).findings).toContainEqual({ kind: "unknown-uncertainty" });
    expect(planCut({ ...question, gapMm: 3.5 }).findings).toContainEqual({
      kind: "foresees-other-gap",
      foreseenMm: expect.closeTo(2.5, 9),
      gapMm: 3.5,
      givenBy: "question",
    });
  });

  it("and nothing that cannot be undone, where the uncertainty is not known: no stages, no card", () => {
    const { standardUncertaintyMm: _, ...unknown } = question;
    for (const [asked, irreversible, reversible] of [
      [unknown, "turn-down", "exchange"],
      [{ ...unknown, targetMm: 3.5 }, "shorten", "sleeve"],
    ] as const) {
      const plan = planCut(asked);
      const way = plan.ways.find(({ name }) => name === irreversible)!;
      expect(way).toMatchObject({ isPossible: true, isHeldBack: true, stages: [] });
      expect(cutCard(plan, irreversible)).toBeUndefined();
      expect(cutCard(plan, reversible)!.stages.length).toBeGreaterThan(0);
      const known = planCut({ ...asked, standardUncertaintyMm: 0.03 });
      expect(known.ways.every(({ isHeldBack }) => !isHeldBack)).toBe(true);
      expect(cutCard(known, irreversible)).toBeDefined();
    }
  });

  it("says which part of the question is at fault", () => {
    expect(planCut({ ...question, targetMm: 30 }).flaw?.of).toBe("targetMm");
    expect(planCut({ ...question, toleranceMm: 0 }).flaw?.of).toBe("toleranceMm");
    expect(planCut({ ...question, receiver: { ...question.receiver, taper: 0.5 } }).flaw?.of).toBe(
      "receiver",
    );
    expect(planCut(question).flaw).toBeUndefined();
  });

  it("and never a number that is none, whatever is asked", () => {
    const some = fc.option(anyNumber, { nil: undefined });
    const sane = (low: number, high: number) =>
      fc.oneof({ weight: 4, arbitrary: fc.double({ min: low, max: high, noNaN: true }) }, anyNumber);
    fc.assert(
      fc.property(
        fc.record(
          {
            gapMm: sane(0, 5),
            targetMm: sane(0, 5),
            standardUncertaintyMm: sane(0, 0.5),
            toleranceMm: sane(0.001, 1),
            minimumWallMm: sane(0, 1),
            stopMmPerMark: sane(0.01, 1),
          },
          { requiredKeys: ["gapMm", "targetMm"] },
        ),
        fc.record({ endDiameterMm: some, taper: some }),
        fc.record({ mouthDiameterMm: some, taper: sane(0, 0.1), depthMm: sane(6, 30) }),
        sane(0.05, 0.05),
        (asked, shank, receiver, taper) => {
          const defined = (record: object) =>
            Object.fromEntries(Object.entries(record).filter(([, value]) => value !== undefined));
          for (const tapers of [shank, { ...shank, taper, endDiameterMm: 9.7 }]) {
            const plan = planCut({
              ...asked,
              shank: { ...defined(tapers), boreMm: question.shank.boreMm },
              receiver: defined(receiver),
            } as CutQuestion);
            expect(notNumbers(plan)).toEqual([]);
            expect(plan.outcome === "plan" || plan.findings.length > 0).toBe(true);
            for (const { name } of plan.ways) expect(notNumbers(cutCard(plan, name))).toEqual([]);
          }
        },
      ),
    );
  });
});

describe("from a setup", () => {
  it("takes its gap, shank and receiver, or a gap that was measured", () => {
    const setup = readSetup(exampleFile());
    expect(cutQuestion(setup, { targetMm: 2 })).toMatchObject({
      targetMm: 2,
      shank: { endDiameterMm: 9.7, taper: 0.05 },
      receiver: { depthMm: 24.54 },
    });
    expect(cutQuestion(setup, { targetMm: 2 }).gapMm).toBeCloseTo(2.54, 9);
    expect(cutQuestion(setup, { targetMm: 2, gapMm: 2.6 }).gapMm).toBe(2.6);
  });

  it("takes its uncertainty with its gap, and not with another", () => {
    const setup = readSetup({
      ...exampleFile(),
      uncertainties: { "receiver.depth": 0.03, "mouthpiece.insertion": 0.04 },
    });
    const own = cutQuestion(setup, { targetMm: 2 });
    expect(own.standardUncertaintyMm).toBeCloseTo(0.05, 12);
    expect(own.coverageFactor).toBeCloseTo(1.96, 3);
    expect(cutQuestion(setup, { targetMm: 2, gapMm: 2.6 }).standardUncertaintyMm).toBeUndefined();
    const given = cutQuestion(setup, { targetMm: 2, standardUncertaintyMm: 0.01 });
    expect(given).toMatchObject({ standardUncertaintyMm: 0.01 });
    expect(given.coverageFactor).toBeUndefined();
  });
});

describe("the backbore", () => {
  it("is linear between points, and at a step what it was before", () => {
    const bore = [
      [0, 10],
      [5, 4],
      [8, 4],
      [10, 6],
      [10, 7],
      [20, 9],
    ] as const;
    expect(boreDiameterMm(bore, 9, "before")).toBeCloseTo(5, 12);
    expect(boreDiameterMm(bore, 10, "before")).toBe(6);
    expect(boreDiameterMm(bore, 15, "before")).toBeCloseTo(8, 12);
    expect(boreDiameterMm(bore, 99, "before")).toBe(9);
    expect(boreDiameterMm(bore, -1, "before")).toBe(10);
    expect(throatAtMm(bore)).toBe(8);
  });
});
