import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { KeptSweep } from "../../../src/response/keptSweep.ts";
import { readSetupText } from "../../../src/setup/file/readSetup.ts";
import { Exploration } from "../../../src/study/instrument/exploration.ts";
import { besideModel, octaveChanges } from "../../../src/study/swept/besideModel.ts";
import { sweptChange } from "../../../src/study/swept/sweptChange.ts";
import { octaveWords, sweptHeadline } from "../../../src/words/swept/sweptWords.ts";
import { AFTER_MM, BEFORE_MM, takesOf, type World } from "./takes.ts";

const setup = readSetupText(readFileSync("shared/demo.setup.json", "utf8"));
const exploration = new Exploration(setup);
exploration.explore(AFTER_MM, BEFORE_MM, 1);
// the second answer has its uncertainties
const explored = exploration.explore(AFTER_MM, BEFORE_MM, 1);
const modes = explored.reference.modes.slice(1, 10);
const modelled = explored.changes.slice(1, 10).map(({ shiftCents }) => shiftCents);

/** The model's own resonances, some way off as a whole, in place of those of the takes. */
function swept(world: World, offCents = -37) {
  const takes = takesOf({ ...world, shifts: world.shifts ?? modelled }).map((take): KeptSweep => {
    const own = takesOf({ ...world, shifts: modes.map(() => 0) })[0];
    return {
      ...take,
      resonances: take.resonances.map((one, k) => ({
        ...one,
        hz: (one.hz / own.resonances[k].hz) * modes[k].frequencyHz * 2 ** (offCents / 1200),
      })),
    };
  });
  return sweptChange(takes)!;
}

describe("what was measured, beside the model", () => {
  it("has the model's numbers, whatever the whole stands off by, and agrees where the model is right", () => {
    const found = swept({ order: "ABABAB" });
    const beside = besideModel(found, explored);
    expect(beside.resonances.map(({ n }) => n)).toEqual([2, 3, 4, 5, 6, 7, 8, 9, 10]);
    expect(Math.abs(beside.aboveModelCents! + 37)).toBeLessThan(6);
    expect(beside.counts.agrees).toBeGreaterThan(0);
    expect(beside.counts.disagrees).toBe(0);
    expect(beside.resonances.every(({ model }) => model!.expanded! >= 0)).toBe(true);
    expect(sweptHeadline(found, beside, "mm")).toMatch(
      /^From 2\.50 mm to 5\.00 mm: \d of 9 resonances moved, by −\d\.\d to [−+]\d\.\d cents\. Of the 9 that the model knows as well, it agrees on /,
    );
  });

  it("disagrees where it moved by three cents more than the model says", () => {
    const beside = besideModel(swept({ order: "ABABAB", shifts: modelled.map((one) => one - 3) }), explored);
    expect(beside.counts).toMatchObject({ disagrees: 9, agrees: 0 });
  });

  it("cannot tell where nothing moved beyond its interval, or nothing was repeated", () => {
    const loose = besideModel(swept({ order: "ABAB", scatter: 3 }), explored);
    expect(loose.counts["cannot-tell"]).toBeGreaterThan(6);
    const once = swept({ order: "AB" });
    const beside = besideModel(once, explored);
    expect(beside.counts).toMatchObject({ "cannot-tell": 9, agrees: 0, disagrees: 0 });
    expect(sweptHeadline(once, beside, "mm")).toMatch(/one sweep each tells too little/);
  });

  it("cannot tell by takes that drifted one after the other", () => {
    const drifted = swept({
      order: "AAABBB",
      trueC: (take) => 20 + 0.3 * take,
      readC: () => 20,
    });
    const { counts } = besideModel(drifted, explored);
    expect(counts).toMatchObject({ agrees: 0, disagrees: 0, "cannot-tell": 9 });
  });

  it("is held against no answer about other gaps, and against none where the gap is the same", () => {
    const found = swept({ order: "ABAB" });
    const other = exploration.explore(3, BEFORE_MM, 1);
    for (const answer of [null, other]) expect(besideModel(found, answer).counts["no-model"]).toBe(9);
    const same = sweptChange(takesOf({ order: "ABAB", change: { gapMm: BEFORE_MM } }))!;
    const beside = besideModel(same, exploration.explore(BEFORE_MM, BEFORE_MM, 1));
    expect(beside.counts["no-model"]).toBe(9);
    expect(sweptHeadline(same, beside, "mm")).toMatch(/The model says nothing of this change/);
  });

  it("tells how octaves changed, beside what is noticed", () => {
    const found = swept({ order: "ABABAB" });
    const octaves = octaveChanges(found, besideModel(found, explored).resonances);
    expect(octaves.map(({ low, high }) => [low, high])).toEqual([
      [2, 4],
      [3, 6],
      [4, 8],
      [5, 10],
    ]);
    expect(octaveWords(octaves[0], 3.5, "b-flat-trumpet")).toMatch(
      /^low C \(2\) to C in the staff \(4\): [−+]\d\.\d+ ± \d\.\d+ cents wider, too small to notice$/,
    );
    expect(octaveChanges(swept({ order: "AB" }), [])).toEqual([]);
  });
});
