import { describe, expect, test } from "vitest";
import { type TrialNotes, trialForm, withTurn } from "../../../../src/app/state/notes/trial.ts";
import { documentOf } from "../../../../src/app/state/store.ts";
import { readPlan } from "../../../../src/app/tasks/trial/plan/planReading.ts";
import { scatterOf } from "../../../../src/app/tasks/trial/plan/playerScatter.ts";
import { spreadGaps } from "../../../../src/app/tasks/trial/plan/proposals.ts";
import { trialTable } from "../../../../src/app/tasks/trial/result/trialTable.ts";
import { haveSeen, rememberSeen } from "../../../../src/app/tasks/trial/session/codesSeen.ts";
import { gapMm } from "../../../../src/setup/setup.ts";
import { repeatability } from "../../../../src/trial/repeatability.ts";
import { sealTrial } from "../../../../src/trial/seal.ts";
import { ratingBlocks } from "../../../../src/trial/trial.ts";
import { gapItems } from "../../../trial/players.ts";
import { someSetup } from "../../someSetup.ts";

const setup = someSetup();
const notes = (part: Partial<TrialNotes>): TrialNotes => ({ ...trialForm.empty, ...part });
const sealed = sealTrial(
  { id: "t", player: "", items: gapItems(1, 2, 3), repeats: 2, passages: "", difference: 20 },
  1,
);

describe("a plan as typed", () => {
  test("is a plan when every text can be read; empty numbers are the usual ones", () => {
    const { plan, missing } = readPlan(
      notes({ gaps: ["1,5", "0.1 in", "", "1/8 in"], player: " Ada " }),
      setup,
    );
    expect(missing).toBe("");
    expect(plan).toMatchObject({ player: "Ada", repeats: 4, difference: 20 });
    expect(plan!.items.map((item) => item.gapMm)).toEqual([1.5, 2.54, 3.175]);
  });

  test("says beside the field what is wrong, and does not seal", () => {
    const { itemProblems, problems, plan, missing, numbers } = readPlan(
      notes({ gaps: ["wide", "99", "2", "2.001", "-1"], repeats: "2.5", difference: "0", scatter: "much" }),
      setup,
    );
    expect(itemProblems[0]).toMatch(/"wide" is not a length/);
    expect(itemProblems[1]).toMatch(/takes gaps from 0\.00 mm to/);
    expect(itemProblems[2]).toBe("");
    expect(itemProblems[3]).toMatch(/there already/);
    expect(itemProblems[4]).not.toBe("");
    expect(problems).toEqual({
      repeats: expect.stringContaining("from 2 to 14"),
      difference: expect.stringContaining("from 1 to 100"),
      scatter: expect.stringContaining("from 1 to 100"),
    });
    expect({ plan, numbers }).toEqual({ plan: null, numbers: null });
    expect(missing).toMatch(/^Correct the marked fields/);
  });

  test("counts what is missing; names are told apart whatever their case", () => {
    expect(readPlan(notes({ gaps: ["2"] }), setup).missing).toMatch(/^2 more gaps to go/);
    const named = readPlan(notes({ kind: "names", names: ["old shank", "Old Shank ", "new shank"] }), setup);
    expect(named.itemProblems).toEqual(["", "This name is there already.", ""]);
    const three = readPlan(notes({ kind: "names", names: ["a", "b", "c"] }), setup);
    expect(three.plan!.items[2]).toEqual({ name: "c", gapMm: null });
  });
});

describe("what the open job says of its player", () => {
  const gaps = ["1", "2", "3"];
  const fromJob = { player: "Heron", scatter: 7 };

  test("stands where nothing is typed, and gives way to what is", () => {
    const empty = readPlan(notes({ gaps }), setup, fromJob);
    expect([empty.plan!.player, empty.numbers!.scatter]).toEqual(["Heron", 7]);
    const typed = readPlan(notes({ gaps, player: "Ada", scatter: "12" }), setup, fromJob);
    expect([typed.plan!.player, typed.numbers!.scatter]).toEqual(["Ada", 12]);
    expect(readPlan(notes({ gaps }), setup).numbers!.scatter).toBe(10);
  });

  test("is the scatter of the last finished trial, unless somebody else played it", () => {
    const long = sealTrial(
      { id: "l", player: "Heron", items: gapItems(1, 2, 3), repeats: 4, passages: "", difference: 20 },
      1,
    );
    const turns = long.turns.map((turn, i) => ({
      ...turn,
      ratings: { hold: 50, ease: 50, evenness: 50, preference: 50 + (i % 2 === 0 ? 6 : -6) },
    }));
    const played = { ...long, turns, opened: "complete" as const };
    const blocks = ratingBlocks(played, "preference");
    expect(scatterOf(played, "Heron")).toBe(Math.round(repeatability(blocks).standardDeviation));
    expect(scatterOf(played, "Ada")).toBeNull();
    expect(scatterOf(null, "Heron")).toBeNull();
    expect(scatterOf(long, "Heron")).toBeNull();
  });

  test("goes with a trial that is played alone only where that is chosen", () => {
    expect(readPlan(notes({ gaps, mounting: "alone" }), setup).plan).toMatchObject({ alone: true });
    expect(readPlan(notes({ gaps }), setup).plan).not.toHaveProperty("alone");
  });
});

test("proposed gaps are those a receiver can have, in order, about the chosen and the reference gap", () => {
  for (const unit of ["mm", "in"] as const)
    for (const chosenMm of [0, 2.3, gapMm(setup)]) {
      const document = { ...documentOf(setup), gapMm: chosenMm };
      const gaps = spreadGaps(document, unit);
      const read = readPlan(notes({ unit, gaps }), setup);
      expect(read.itemProblems.join("")).toBe("");
      const items = read.plan!.items.map((item) => item.gapMm!);
      expect(items).toHaveLength(5);
      expect([...items].sort((a, b) => a - b)).toEqual(items);
      expect(items[4]).toBeGreaterThan(Math.max(chosenMm, document.referenceGapMm));
    }
});

describe("what is kept", () => {
  test("comes back as it was, also half rated", () => {
    const ratings = { hold: 3, ease: null, evenness: 100, preference: 0 };
    const kept = withTurn(
      notes({ gaps: ["1", "2 mm"], passages: "long note", trials: [sealed], shown: sealed.id }),
      4,
      {
        ratings,
        remark: "dull",
      },
    );
    expect(trialForm.ofJson(JSON.parse(JSON.stringify(kept)))).toEqual(kept);
    expect(kept.trials[0].turns[4]).toMatchObject({ ratings, remark: "dull", code: sealed.turns[4].code });
    expect(kept.trials[0].turns[3]).toBe(sealed.turns[3]);
  });

  test.each([
    ["an item that does not exist", { turns: sealed.turns.map((turn) => ({ ...turn, item: 3 })) }],
    [
      "a repeat without one item",
      { turns: sealed.turns.map((turn, i) => (i === 0 ? sealed.turns[1] : turn)) },
    ],
    ["two items", { items: sealed.items.slice(1) }],
    ["a gap that is none", { items: [...sealed.items.slice(1), { name: "", gapMm: "2" }] }],
    ["no turns", { turns: [] }],
  ])("a key with %s is no trial", (_, part) => {
    const json = JSON.parse(
      JSON.stringify(notes({ player: "Ada", trials: [{ ...sealed, ...part }] as never })),
    );
    expect(trialForm.ofJson(json)).toMatchObject({ player: "Ada", trials: [] });
  });

  test("bare gaps keep their meaning under another unit, and what is sealed stays in mm", () => {
    const inches = trialForm.shownIn(notes({ gaps: ["2.5", "0.1 in"], trials: [sealed] }), "in");
    expect(inches.gaps).toEqual(["2.5 mm", "0.1 in"]);
    expect(inches.trials[0]).toBe(sealed);
  });
});

test("the table for a spreadsheet says of every turn what it was", () => {
  const { columns, rows } = trialTable(sealed);
  expect(rows).toHaveLength(6);
  expect(rows[5][columns.indexOf("repeat")]).toBe(2);
  expect(rows.map((row) => row[columns.indexOf("gap_mm")])).toEqual(sealed.turns.map(({ item }) => item + 1));
});

test("what was seen stays seen, on a shelf that works, and nothing fails on one that does not", () => {
  const kept = new Map<string, string>();
  const shelf = {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => void kept.set(key, value),
    removeItem: (key: string) => void kept.delete(key),
  };
  expect(haveSeen("a", shelf)).toBe(false);
  rememberSeen("a", shelf);
  rememberSeen("b", shelf);
  expect([haveSeen("a", shelf), haveSeen("b", shelf), haveSeen("c", shelf)]).toEqual([true, true, false]);
  kept.set("annulus-trials-opened", "{");
  expect(haveSeen("a", shelf)).toBe(false);
  const full = {
    ...shelf,
    setItem: () => {
      throw new Error("full");
    },
  };
  expect(() => rememberSeen("d", full)).not.toThrow();
  expect(haveSeen("a", null)).toBe(false);
});
