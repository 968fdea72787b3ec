/** What is said of a trial, and that nothing is said before it may be. */
import { expect, test } from "vitest";
import { analysisSteps, type TrialAnalysis } from "../../../src/trial/analysis.ts";
import { trialFinding } from "../../../src/trial/finding.ts";
import { SCALES, type Trial, UNRATED } from "../../../src/trial/trial.ts";
import { trialSentence } from "../../../src/words/trial/sentence.ts";
import { gapItems, guesses, namedItems, played, prefers } from "../../trial/players.ts";

const GAPS = gapItems(1, 1.75, 2.5, 3.25, 4);

function analysis(trial: Trial): TrialAnalysis {
  const steps = analysisSteps(trial);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

test("a gap between those tried, in either unit", () => {
  const trial = played(GAPS, 5, prefers(2.1, 6), 3);
  const found = trialFinding(trial)!;
  expect(trialSentence(found, "mm")).toMatch(/^Prefers about 2\.\d mm \(\d\.\d–\d\.\d mm\)\.$/);
  expect(found.preferredGapMm).toBeGreaterThan(found.intervalMm![0]);
  expect(Math.abs(found.preferredGapMm! - 2.1)).toBeLessThan(0.4);
  expect(trialSentence(found, "in")).toMatch(/^Prefers about 0\.0\d\d in \(0\.0\d\d–0\.\d\d\d in\)\.$/);
  expect(found).toMatchObject({ repeats: 5, opened: "complete", isDecided: true });
});

test("a player without scatter: no more finely than a tenth", () => {
  expect(trialSentence(trialFinding(played(GAPS, 3, prefers(2.1, 0), 1))!, "mm")).toBe(
    "Prefers about 2.1 mm.",
  );
});

test("the end of the range, and that the best may lie beyond", () => {
  const narrow = trialFinding(played(GAPS, 5, prefers(-1, 5, 1.5), 1))!;
  expect(trialSentence(narrow, "mm")).toMatch(
    /^Prefers the narrowest gap tried, 1\.0 mm .*may be narrower still\.$/,
  );
  const wide = trialFinding(played(GAPS, 5, prefers(6, 5, 1.5), 1))!;
  expect(trialSentence(wide, "mm")).toMatch(/^Prefers the widest gap tried, 4\.0 mm .*may be wider still\.$/);
  expect(wide.preferredGapMm).toBeCloseTo(4, 9);
});

test("both ends better than the middle: no gap is named best", () => {
  const found = trialFinding(played(GAPS, 5, prefers(2.5, 5, -8), 1))!;
  expect(trialSentence(found, "mm")).toMatch(/likes both ends better/);
  expect(found).toMatchObject({ isDecided: true, preferredGapMm: null, intervalMm: null });
});

test("named items: the best, the rivals of the best, and none", () => {
  const items = namedItems("brass shank", "steel shank", "nylon shank");
  const likes = (levels: number[]) => ({ likes: (_: unknown, place: number) => levels[place], scatter: 4 });
  expect(trialSentence(trialFinding(played(items, 5, likes([80, 40, 30]), 1))!, "mm")).toBe(
    "Prefers brass shank.",
  );
  expect(trialSentence(trialFinding(played(items, 5, likes([80, 79, 30]), 1))!, "mm")).toMatch(
    /^Prefers (brass|steel) shank or (brass|steel) shank to nylon shank; \w+ shank was rated highest\.$/,
  );
  expect(trialSentence(trialFinding(played(items, 5, guesses, 2))!, "mm")).toBe(
    "Cannot tell these apart by preference (brass shank, steel shank, nylon shank); choose for other reasons.",
  );
});

test("where the ratings follow no parabola, the gaps are compared one by one", () => {
  const likes = ({ gapMm }: { gapMm: number | null }) => (gapMm === 1.75 ? 90 : 30);
  const found = trialFinding(played(GAPS, 5, { likes, scatter: 4 }, 1))!;
  expect(trialSentence(found, "mm")).toBe("Prefers 1.8 mm.");
  expect(found).toMatchObject({ isDecided: true, preferredGapMm: null, intervalMm: null });
});

test("nothing before it is opened, nor of a single repeat; a repeat that was broken off does not count", () => {
  const trial = played(GAPS, 3, prefers(2, 5), 1);
  expect(trialFinding(null)).toBeNull();
  expect(trialFinding({ ...trial, opened: "sealed" })).toBeNull();
  const until = (rated: number): Trial => ({
    ...trial,
    opened: "early",
    turns: trial.turns.map((turn, i) =>
      i < rated ? { ...turn, remark: "so so" } : { ...turn, ratings: UNRATED },
    ),
  });
  expect(trialFinding(until(9))).toBeNull();
  expect(() => analysis(until(9))).toThrow(/1 whole repeat, and 2 are the fewest/);
  const broken = trialFinding(until(13))!;
  expect(broken).toMatchObject({ repeats: 2, opened: "early" });
  // all are rated by now, but the codes had been seen
  expect(trialFinding(until(trial.turns.length))).toMatchObject({ opened: "again" });
  expect(broken.remarks).toHaveLength(13);
  expect(analysis(until(13))).toMatchObject({ repeats: 2, leftOut: 1 });
});

test("every scale is analysed; those that do not decide are corrected for being three", () => {
  const { scales, power } = analysis(played(GAPS, 4, prefers(2, 25), 1));
  expect(scales.map(({ scale }) => scale)).toEqual(SCALES);
  const [hold, , , preference] = scales;
  expect(preference.correctedP).toBe(preference.test.p);
  expect(hold.correctedP).toBeGreaterThanOrEqual(hold.test.p);
  expect(
    Math.min(...scales.slice(0, 3).map(({ test, correctedP }) => correctedP / test.p)),
  ).toBeGreaterThanOrEqual(1);
  expect(Math.max(...scales.slice(0, 3).map(({ test, correctedP }) => correctedP / test.p))).toBeCloseTo(
    3,
    9,
  );
  expect(power.repeats).toBe(4);
});

test("ratings that are all the same, or without any scatter, are answered in numbers that are numbers", () => {
  for (const scatter of [0, 1e-9])
    for (const player of [{ likes: () => 50, scatter }, prefers(2, scatter)]) {
      const whole = analysis(played(GAPS, 2, player, 1));
      const numbers = JSON.stringify(whole, (_, value) =>
        Number.isNaN(value) || Math.abs(value) === Infinity ? "BAD" : value,
      );
      expect(numbers).not.toContain("BAD");
    }
});
