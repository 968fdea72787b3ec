import { beforeAll, describe, expect, test } from "vitest";
import { planCut } from "../../../src/bench/cut/cut.ts";
import { cutQuestion } from "../../../src/bench/cut/cutSetup.ts";
import type { CutWayName } from "../../../src/bench/cut/cutWay.ts";
import { coverageFactor } from "../../../src/bench/measure/coverage.ts";
import type { Evidence } from "../../../src/study/change/verdicts.ts";
import { Exploration, type Explored } from "../../../src/study/instrument/exploration.ts";
import { type GapSweep, gapSweep } from "../../../src/study/instrument/gapSweep.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import { fingerprint } from "../../../src/study/report/fingerprint.ts";
import { recommendation, trialOnGap } from "../../../src/study/report/recommendation.ts";
import { CLASSROOM_CHARTS, PARAGRAPHS, type Paragraph } from "../../../src/study/report/sheetParagraphs.ts";
import { recordFingerprint, type SheetRecord, toldGap } from "../../../src/study/report/sheetRecord.ts";
import type { TrialFinding } from "../../../src/trial/finding.ts";
import { classQuestions } from "../../../src/words/report/classQuestions.ts";
import { sheetFigures } from "../../../src/words/report/sheetFigures.ts";
import { proposals } from "../../../src/words/report/sheetProposals.ts";
import { type Filled, filled } from "../../../src/words/report/sheetWords.ts";
import { FINDING } from "../../../src/words/verdicts/findings.ts";
import { demo } from "../../acoustics/setups.ts";

const setup = demo();
let explored: Explored;
let retuned: GapSweep;

beforeAll(() => {
  const exploration = new Exploration(setup, coverageFactor);
  exploration.explore(2, 2.5, 4, 4);
  explored = exploration.explore(2, 2.5, 4, 4);
  retuned = gapSweep(new Instrument(setup), { gapsMm: [1.9, 2, 2.1], referenceGapMm: 2.5, retune: 4 });
});

const HOLD =
  "Slot width +0.1 cents, +0.1 on average (+0.1 over the lips tried; just noticeable: 20 cents). Pull 0.000.";
const evidence = (finding: Evidence["finding"]): Evidence => ({
  finding,
  basis: {
    kind: "lips",
    byModel: [],
    meanCents: 0.1,
    meanRangeCents: [0.1, 0.1],
    firmer: [],
    looser: [],
    pull: [0, 0],
    margin: null,
  },
  tests: [
    {
      quantity: "hold",
      of: "note",
      changes: [{ n: 2, change: 0.1, expanded: null }],
      together: { n: 0, change: 0.1, expanded: null },
      doubt: "tried",
      unit: "cents",
      threshold: 20,
      asked: 1,
      finding,
    },
  ],
});

const OTHERS = {
  tooWide: evidence("too-small"),
  tooNarrow: evidence("too-small"),
  attack: evidence("too-small"),
};

function record(part: Partial<SheetRecord> = {}): SheetRecord {
  return {
    unit: "mm",
    setup,
    version: "9.9.9",
    present: { gapMm: 2.5, expandedMm: 0.0707, readings: { depth: 3, insertion: 4 } },
    told: { kind: "planned", gapMm: 2 },
    recommendation: { kind: "planned", gapMm: 2, trial: "not-played" },
    referenceGapMm: 2.5,
    doubts: [],
    isWorking: false,
    explored,
    retuned,
    felt: {
      slots: evidence("too-small"),
      resistance: evidence("too-small"),
      ...OTHERS,
      change: null,
    },
    closed: evidence("too-small"),
    plan: null,
    way: null,
    trial: null,
    measuredTrial: null,
    listened: [],
    swept: null,
    ...part,
  };
}

function planned(name: CutWayName, targetMm: number): Partial<SheetRecord> {
  const plan = planCut(cutQuestion(setup, { targetMm }));
  return { plan, way: plan.ways.find((way) => way.name === name)!, ...advised(targetMm, null) };
}

/** A plan to this gap, and what a trial says of it. */
function advised(plannedGapMm: number | null, found: TrialFinding | null): Partial<SheetRecord> {
  return {
    trial: found,
    told: toldGap(plannedGapMm, found, 3.3),
    recommendation: recommendation({
      measuredGapMm: 2.5,
      plannedGapMm,
      trial: found,
      isMeasured: false,
      isTooSmall: true,
    }),
  };
}

const trial = (part: Partial<TrialFinding> = {}): TrialFinding => ({
  said: { kind: "undecided" },
  isDecided: false,
  p: 0.41,
  preferredGapMm: null,
  intervalMm: null,
  items: [],
  repeats: 4,
  player: "K.",
  remarks: [],
  opened: "complete",
  ...part,
});

const plainText = ({ lines }: Filled): string =>
  lines
    .map((line) => line.map((piece) => (typeof piece === "string" ? piece : piece.text)).join(""))
    .join("\n");

/** As it would be read. */
const said = (of: SheetRecord, name: Paragraph): string =>
  plainText(filled(proposals(of, "height")[name], sheetFigures(of)));

describe("figures of a sheet", () => {
  test("are the record's, rounded to what is known, in both units", () => {
    const figures = sheetFigures(record());
    const text = (name: string) => figures.get(name)!.text;
    expect(text("gap")).toBe("2.50 mm");
    expect(text("gapUncertainty")).toBe("0.07 mm");
    expect(text("gapOther")).toBe("0.0984 in");
    expect(text("recommended")).toBe("2.00 mm");
    expect(text("change")).toBe("0.50 mm less");
    expect(figures.get("change")!.value).toBeCloseTo(-0.5, 12);
    expect(text("insertionAfter")).toBe("22.50 mm");
    const four = explored.changes.find(({ n }) => n === 4)!;
    expect(figures.get("shift4")!.value).toBe(four.shiftCents);
    expect(text("shift4")).toBe(`+${four.shiftCents.toFixed(1)} cents`);
    expect(figures.get("height4")!.value).toBe(four.heightDb);
    const left = retuned.rows[1].modes.find(({ n }) => n === 7)!;
    expect(figures.get("retuned7")!.value).toBeCloseTo(left.shiftCents, 12);
    expect(text("retuned4")).toBe("0.0 cents");
    const known = Math.max(
      ...explored
        .uncertainty!.modes.filter(({ n }) => n > 1 && n < 11)
        .map(({ shiftCents }) => shiftCents.expanded),
    );
    expect(figures.get("shiftUncertainty")!.value).toBe(known);
    expect(text("version")).toBe("9.9.9");
  });

  test("in inches are in inches, with mm beside", () => {
    const figures = sheetFigures(record({ unit: "in", ...planned("turn-down", 2) }));
    expect(figures.get("gap")!.text).toBe("0.0984 in");
    expect(figures.get("gapOther")!.text).toBe("2.50 mm");
    expect(figures.get("waySize")!.text).toMatch(/^0\.0010 in off the diameter \(0\.025 mm\)$/);
    expect(figures.get("limits")!.text).toMatch(/^0\.0\d+ in to 0\.0\d+ in$/);
  });

  test("that are not known are words, and those to come are waited for", () => {
    const bare = {
      explored: null,
      retuned: null,
      felt: null,
      closed: null,
      present: { gapMm: 2.5, expandedMm: undefined, readings: null },
    };
    const refused = sheetFigures(record(bare));
    expect(refused.get("gapUncertainty")!.text).toBe("not measured");
    expect(refused.get("shift4")).toMatchObject({ text: "not worked out", value: null, isWaiting: false });
    const working = sheetFigures(record({ ...bare, isWorking: true }));
    expect(working.get("shift4")).toMatchObject({ text: "being worked out", isWaiting: true });
    expect(working.get("slotsFinding")!.isWaiting).toBe(true);
    expect(working.get("gap")!.isWaiting).toBe(false);
    for (const of of [refused, working])
      for (const { text } of of.values()) expect(text).not.toMatch(/NaN|Infinity|undefined|null/);
  });
});

describe("words with figures", () => {
  const fill = (template: string) => filled(template, sheetFigures(record()));

  test("have the figures in their places, each line a point", () => {
    const read = fill("It is {gap}.\n\n  Known to ±{ gapUncertainty }. ");
    expect(plainText(read)).toBe("It is 2.50 mm.\nKnown to ±0.07 mm.");
    expect(read.problem).toBe("");
    expect(fill("").lines).toEqual([]);
  });

  test.each([
    ["{Gap} wide", "There is no figure {Gap}: did you mean {gap}?"],
    ["{shift44} wide", "There is no figure {shift44}: did you mean {shift4}?"],
    ["{length}", "There is no figure {length}: take one from the list."],
    ["{} wide", "There is nothing between { and }: write a figure's name, such as {gap}."],
    ["the {gap", "There is a { without its partner: a figure is written {gap}."],
    ["the gap}", "There is a } without its partner: a figure is written {gap}."],
    ["{toString}", "There is no figure {toString}: take one from the list."],
  ])("%j is told in words and stays as written", (template, problem) => {
    const read = fill(template);
    expect(read.problem).toBe(problem);
    expect(plainText(read)).toBe(template);
  });
});

describe("proposals", () => {
  test("name no figure that there is not, whatever the record holds", () => {
    const records = [
      record(),
      record({ explored: null, retuned: null, felt: null, closed: null, isWorking: true }),
      record({ present: { gapMm: 2, expandedMm: undefined, readings: null } }),
      record(planned("turn-down", 2)),
      record({ ...planned("sleeve", 3), trial: trial() }),
      record({
        ...planned("exchange", 3),
        trial: trial({ isDecided: true, preferredGapMm: 3, intervalMm: [2, 4] }),
      }),
      record(advised(null, null)),
      record(advised(2.5, trial())),
      record(advised(2, trial())),
    ];
    for (const one of records)
      for (const chart of ["height", "spacing", "curves"] as const) {
        const figures = sheetFigures(one);
        for (const name of PARAGRAPHS) {
          const read = filled(proposals(one, chart)[name], figures);
          expect(read.problem).toBe("");
          expect(plainText(read)).not.toMatch(/NaN|Infinity|undefined|null|[{}]/);
        }
      }
  });

  test("tell what was measured on the player beside the model, and nothing where nothing was", () => {
    const at = (gapMm: number, value: number) =>
      ({ gapMm, takes: 3, repeats: 9, value, interval: [value - 12, value + 12] }) as const;
    const [from, to] = [at(2.5, 175), at(3, 182)];
    const change = { from, to, value: 7, interval: [-10, 24], isFound: false, detectable: 29.2 } as const;
    const note = { test: "slot", partial: 4, toPartial: null, gaps: [from, to] } as const;
    const heard = record({ listened: [{ ...note, basis: "takes", change, scatter: null }] });
    expect(said(heard, "slots")).toContain(
      "This player, measured: Slot of C in the staff (4): 182 ± 12 cents at 3.00 mm, 175 ± 12 cents at 2.50 mm: no difference found; one of 30 cents would have been.",
    );
    expect(said(record(), "slots")).not.toContain("measured");
  });

  test("without a measurement say so, and what the number is then", () => {
    const text = said(record({ present: { gapMm: 2.5, expandedMm: undefined, readings: null } }), "measured");
    expect(text).toMatch(/by the setup file: 2\.50 mm\. No readings are noted\./);
    expect(text).toMatch(/has not been measured\.$/);
    expect(said(record(), "origins")).toMatch(/^Assumed, from a stand-in: .*shoulder gap/);
    expect(said(record(), "measured")).toMatch(
      /3 and 4 readings: 2\.50 mm\. It is known to ±0\.07 mm \(95 %\)/,
    );
  });

  test("of a cut that cannot be undone say so plainly, with its cautions and the wear's own numbers", () => {
    const cut = record(planned("turn-down", 2));
    expect(said(cut, "recommendation")).toMatch(
      /^Bring the gap from 2\.50 mm to 2\.00 mm \(0\.079 in\): 0\.50 mm less\. That is the gap planned; no blind trial was played\. The way: turn the shank's taper down, 0\.025 mm off the diameter/,
    );
    expect(said(cut, "reverse")).toMatch(/^This cannot be undone\. .*qualified repairer.*stays off/);
    expect(said(cut, "cautions").split("\n").length).toBeGreaterThanOrEqual(6);
    expect(said(cut, "cautions")).toMatch(/every 0\.01 mm .* takes 0\.20 mm \(0\.008 in\) off the gap/);
    expect(proposals(cut, "height").cautions).toMatch(/\{seatWear\}$/);
  });

  test.each([
    ["sleeve", 3, /^This can be undone\. Take the layer off/],
    ["exchange", 3, /^This can be undone\. Keep the old shank/],
    ["shorten", 3, /^This cannot be undone\..*too wide/],
  ] as const)("by %s to %d mm: %s", (name, targetMm, words) => {
    expect(said(record(planned(name, targetMm)), "reverse")).toMatch(words);
  });

  test("without a plan or a preference recommend no change, say what to look at, and ask for nothing to reverse", () => {
    const nothing = record(advised(null, null));
    expect(said(nothing, "recommendation")).toMatch(
      /^No change recommended: the gap is 2\.50 mm \(0\.0984 in\); no other gap is planned, and no blind trial.*seat, leaks, dirt/,
    );
    expect(said(nothing, "reverse")).toMatch(/Nothing is changed/);
    expect(said(nothing, "found")).toMatch(/^From 2\.50 mm to 3\.30 mm \(what if\)/);
    const same = record(advised(2.502, null));
    expect(said(same, "recommendation")).toMatch(/^No change recommended: .* as it should be\./);
    expect(said(record({ told: { kind: "what-if", gapMm: 2.5 } }), "found")).toMatch(/no change to model/);
  });

  test("where player and model find no difference recommend no change, whatever is planned", () => {
    const undecided = record(advised(2, trial()));
    expect(said(undecided, "recommendation")).toMatch(
      /^No change recommended: the player, blind, could not tell/,
    );
    // the model finds something: the plan stands, and says that the trial did not decide
    const found = recommendation({
      measuredGapMm: 2.5,
      plannedGapMm: 2,
      trial: trial(),
      isMeasured: false,
      isTooSmall: false,
    });
    expect(found).toEqual({ kind: "planned", gapMm: 2, trial: "undecided" });
  });

  test("of an undecided trial speak against nothing and for no cut; of a decided one say whether it agrees", () => {
    const undecided = record({
      ...planned("turn-down", 2),
      trial: trial(),
      recommendation: { kind: "planned", gapMm: 2, trial: "undecided" },
    });
    expect(said(undecided, "trial")).toMatch(/4 times each: Cannot tell.*not decided.*41 % of trials/);
    expect(said(undecided, "recommendation")).toMatch(
      /Nothing in the trial asks for work that cannot be undone\.$/,
    );
    const found = { isDecided: true, p: 0.01 };
    const agreeing = trial({ ...found, preferredGapMm: 2.1, intervalMm: [1.8, 2.4] });
    expect(said(record(advised(2, agreeing)), "recommendation")).toMatch(
      /preferred about 2\.1 mm, which agrees\./,
    );
    // a player without scatter: a preference is not told more finely than to a tenth
    const sure = trial({ ...found, preferredGapMm: 2.48, intervalMm: [2.46, 2.48] });
    expect(trialOnGap(sure, 2.52)).toBe("agrees");
    expect(said(record(advised(null, agreeing)), "recommendation")).toMatch(
      /^Bring the gap from 2\.50 mm to 2\.10 mm .* That is the gap the player preferred, blind\. How that is to be done/,
    );
    expect(
      recommendation({
        measuredGapMm: 2.45,
        plannedGapMm: null,
        trial: sure,
        isMeasured: false,
        isTooSmall: null,
      }),
    ).toEqual({
      kind: "none",
      because: "as-it-is",
    });
    const other = trial({ ...found, preferredGapMm: 3.1, intervalMm: [2.8, 3.4], opened: "early" });
    expect(said(record(advised(2, other)), "recommendation")).toMatch(
      /about 3\.1 mm: another gap than this\./,
    );
    expect(said(record({ trial: other }), "trial")).toMatch(/opened before all was rated/);
    expect(said(record(), "trial")).toMatch(/No blind trial/);
  });

  test("of a trial that takes decide tell its plan, its test and what it could have found, rated or not", () => {
    const measuredTrial: SheetRecord["measuredTrial"] = {
      decidedBy: "slot",
      items: [2, 2.5, 3].map((gapMm) => ({ name: "", gapMm })),
      repeats: 4,
      isEarly: false,
      found: [
        {
          test: "slot",
          partial: 4,
          toPartial: null,
          repeats: 4,
          permutation: { p: 0.3, isExact: true, orders: 216, standardError: 0 } as never,
          correctedP: 0.3,
          isDecided: false,
          detectable: 21.4,
          items: [3, 2.5, 2].map((gapMm) => ({ name: "", gapMm, value: 160 + gapMm })),
        },
      ],
    };
    const words = said(record({ measuredTrial }), "trial");
    expect(words).toMatch(
      /^Planned beforehand: 3 gaps, 4 times each, blind, decided by slot width, measured\. By slot of C in the staff \(4\), 4 repeats: not told apart \(p = 0\.30, exact\)\./,
    );
    expect(words).toMatch(/a difference of 22 cents is found four times in five\.$/);
    expect(said(record({ measuredTrial, trial: trial() }), "trial")).toContain("As rated besides:");
    const advice = recommendation({
      measuredGapMm: 2.5,
      plannedGapMm: 2,
      trial: null,
      isMeasured: true,
      isTooSmall: null,
    });
    expect(said(record({ measuredTrial, recommendation: advice }), "recommendation")).toContain(
      "decided by what was measured",
    );
  });

  test("where lips and peaks disagree, both are told; where they agree, once", () => {
    const peaks = explored.verdicts.find(({ claim }) => claim === "slots")!.finding!;
    const felt = { slots: evidence("disagrees"), resistance: evidence("agrees"), ...OTHERS, change: null };
    expect(said(record({ felt }), "slots")).toBe(
      `The model: disagrees. ${HOLD} By the peaks alone: ${FINDING[peaks]}.`,
    );
    expect(FINDING[peaks]).toBe("too small to notice");
    expect(said(record(), "slots")).toBe(
      `The model: too small to notice. ${HOLD} Whether this player notices it, only a blind trial can tell.`,
    );
  });
});

describe("a record's fingerprint", () => {
  // Fowler, Noll & Vo, FNV-1a 64 bits, test vectors of the authors' own source (from memory)
  test.each([
    ["", "cbf29ce484222325"],
    ["a", "af63dc4c8601ec8c"],
    ["foobar", "85944171f73967e8"],
  ])("of %j is %s", (text, hash) => expect(fingerprint(text)).toBe(hash));

  test("is another for another instrument or gap, the same under another name or unit", () => {
    const own = recordFingerprint(record());
    expect(own).toMatch(/^([0-9a-f]{4} ){3}[0-9a-f]{4}$/);
    expect(recordFingerprint(record({ setup: { ...setup, name: "Other", units: "in" }, unit: "in" }))).toBe(
      own,
    );
    expect(recordFingerprint(record({ told: { kind: "planned", gapMm: 2.01 } }))).not.toBe(own);
    const wider = { ...setup, receiver: { ...setup.receiver, mouthDiameterMm: 10.81 } };
    expect(recordFingerprint(record({ setup: wider }))).not.toBe(own);
  });
});

test.each(CLASSROOM_CHARTS)(
  "a class looking at %s is asked three questions, and each answer has its figures",
  (chart) => {
    const questions = classQuestions(chart);
    expect(questions).toHaveLength(3);
    const figures = sheetFigures(record());
    for (const { question, answer } of questions) {
      expect(question).toMatch(/\?$/);
      const { problem, isWaiting } = filled(answer, figures);
      expect({ problem, isWaiting }).toEqual({ problem: "", isWaiting: false });
    }
    expect(plainText(filled(questions[1].answer, figures))).toMatch(
      /[−+]\d.*assumed to notice (1 dB|3\.5 cents)/,
    );
    expect(plainText(filled(questions[2].answer, figures))).toMatch(
      /for this instrument: too small to notice/,
    );
  },
);
