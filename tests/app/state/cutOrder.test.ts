import { describe, expect, test } from "vitest";
import { chosenWay, orderOf } from "../../../src/app/state/bench/order.ts";
import { type CutNotes, cutForm } from "../../../src/app/state/notes/cut.ts";
import { type Contradiction, contradictionsKey } from "../../../src/bench/fit/contradiction.ts";
import { demo } from "../../acoustics/setups.ts";

const order = (typed: Partial<CutNotes>) => orderOf(demo(), { ...cutForm.empty, ...typed });

describe("what is typed for a cut", () => {
  test("is a plan of the setup's own gap and uncertainty, empty fields taking their usual values", () => {
    const { plan, problems } = order({ target: "2,0" });
    expect(problems).toEqual({});
    expect(plan).toMatchObject({ outcome: "plan", targetMm: 2 });
    expect(plan!.expandedUncertaintyMm).toBeCloseTo(1.96 * Math.hypot(0.02, 0.03), 4);
    const coarse = order({ target: "2", tolerance: "0.1", minimumWall: "0.65", stopPerMark: "1/64 in" })
      .plan!;
    expect(coarse.limitsMm).toEqual([1.9, 2.1]);
    expect(coarse.ways.map(({ isPossible }) => isPossible)).toEqual([true, true, false]);
    expect(coarse.ways[0].size).toBeCloseTo(0.5 / (25.4 / 64), 9);
  });

  test("is no plan without a target, nor with a text that cannot be read, which is told at its field", () => {
    expect(order({ tolerance: "0.1" })).toMatchObject({ plan: null, problems: {} });
    const bad = order({ target: "two", tolerance: "0.1 kg" });
    expect(bad.plan).toBeNull();
    expect(bad.problems.target).toMatch(/"two" is not a length/);
    expect(bad.problems.tolerance).toMatch(/"kg" is no unit/);
  });

  test.each([
    [{ target: "30" }, "target", /The planned gap is 30\.000 mm/],
    [{ target: "2", tolerance: "0" }, "tolerance", /The tolerance is 0\.000 mm/],
    [{ target: "2", minimumWall: "-1" }, "minimumWall", /The minimum wall is -1\.000 mm/],
    [{ target: "2", stopPerMark: "0" }, "stopPerMark", /A mark of the stop is 0\.000 mm/],
  ] as const)("%j is refused at its field", (typed, field, words) => {
    const { plan, problems } = order(typed);
    expect(plan!.outcome).toBe("refused");
    expect(Object.keys(problems)).toEqual([field]);
    expect(problems[field]).toMatch(words);
  });

  test("keeps its meaning under another unit, and speaks that unit", () => {
    const notes = cutForm.shownIn({ ...cutForm.empty, target: "2", tolerance: "0.002 in" }, "in");
    expect(notes).toMatchObject({ unit: "in", target: "2 mm", tolerance: "0.002 in" });
    const { plan } = orderOf(demo(), notes);
    expect(plan).toMatchObject({ unit: "in", targetMm: 2 });
    expect(orderOf(demo(), { ...notes, target: "0.08" }).plan!.targetMm).toBeCloseTo(2.032, 9);
  });

  test("is read again as it was written, whatever else is there", () => {
    const notes: CutNotes = { ...cutForm.empty, unit: "in", target: "0.08", way: "turn-down" };
    expect(cutForm.ofJson(JSON.parse(JSON.stringify({ ...notes, confirmed: true })))).toEqual(notes);
    expect(cutForm.ofJson("nothing")).toEqual(cutForm.empty);
  });

  test("waits with its choice until a contradiction is acknowledged, and again when it is another", () => {
    const doubt: Contradiction = { kind: "foresees-other-gap", foreseenMm: 3.5, gapMm: 2.5, givenBy: "file" };
    const typed: CutNotes = { ...cutForm.empty, target: "2", way: "turn-down" };
    const known = { ...typed, acknowledged: contradictionsKey([doubt]) };
    const way = (notes: CutNotes, ...doubts: readonly Contradiction[]) => {
      const asked = orderOf(demo(), notes, doubts);
      return [asked.isWaiting, chosenWay(asked, notes)?.name];
    };
    expect(way(typed)).toEqual([false, "turn-down"]);
    expect(way(typed, doubt)).toEqual([true, undefined]);
    expect(way(known, doubt)).toEqual([false, "turn-down"]);
    expect(way(cutForm.ofJson(JSON.parse(JSON.stringify(known))), doubt)).toEqual([false, "turn-down"]);
    expect(way(cutForm.shownIn(known, "in"), doubt)).toEqual([false, "turn-down"]);
    expect(way(known, { ...doubt, gapMm: 2.6 })).toEqual([true, undefined]);
    expect(way(known, { ...doubt, givenBy: "readings" })).toEqual([true, undefined]);
  });
});
