/** A blind trial decided by what was measured at its turns. */
import { describe, expect, it } from "vitest";
import type { KeptTake, Measured } from "../../../src/listen/keptTake.ts";
import { listenedNotes } from "../../../src/study/listened/measuredGaps.ts";
import { isTurnDone, measuredOutcome, measuredTrials } from "../../../src/study/listened/measuredTrial.ts";
import { differenceFound, power } from "../../../src/trial/power.ts";
import { readTrials } from "../../../src/trial/readTrial.ts";
import { sealTrial } from "../../../src/trial/seal.ts";
import { SCALES, type Trial } from "../../../src/trial/trial.ts";
import {
  measuredOutcomeWords,
  measuredTrialWords,
  planWords,
} from "../../../src/words/trial/measuredTrial.ts";

const gapsMm = [2, 2.5, 3];
const plan = {
  id: "t1",
  player: "Heron",
  items: gapsMm.map((gapMm) => ({ name: "", gapMm })),
  repeats: 4,
  passages: "",
  difference: 20,
  decidedBy: "slot",
} as const;
const sealed = sealTrial(plan, 3);
const opened: Trial = { ...sealed, opened: "complete", openedAt: "2026-03-01T10:00:00.000Z" };

const slot = (width: number): Measured => ({
  test: "slot",
  restHz: 466,
  lowCents: [-width / 2, -width / 2],
  highCents: [width / 2, width / 2],
  broke: 4,
});

/** A take at every turn, whose width is told by its gap and turn. */
const takes = (widthOf: (item: number, turn: number) => number): KeptTake[] =>
  sealed.turns.map(({ code, item }, i) => ({
    id: `take ${i}`,
    at: "2026-03-01T09:00:00.000Z",
    partial: 4,
    toPartial: null,
    gapMm: null,
    blind: { trial: "t1", code },
    measured: slot(widthOf(item, i)),
    warnings: [],
    hasSound: false,
  }));
const noteHz = () => 466;

describe("a trial decided by measured slots", () => {
  it("tells gaps apart whose slots differ, by the exact test", () => {
    const [found, ...others] = measuredTrials(
      opened,
      takes((item, turn) => 100 + 20 * item + (turn % 3)),
      noteHz,
    );
    expect(others).toEqual([]);
    // three gaps in one order in each of four repeats: 6 of the 6⁴ orders are as far apart
    expect(found.permutation).toMatchObject({ isExact: true, orders: 216, p: 1 / 216 });
    expect(found).toMatchObject({ test: "slot", partial: 4, repeats: 4, isDecided: true });
    expect(found.items.map(({ gapMm }) => gapMm)).toEqual([3, 2.5, 2]);
    expect(measuredTrialWords(found, "mm", "b-flat-trumpet")).toMatch(
      /^By slot of C in the staff \(4\), 4 repeats: told apart \(p = 0\.005, exact\)\. Widest at 3\.00 mm, 14\d cents; narrowest at 2\.00 mm, 10\d cents\. At this scatter, a difference of \d cents is found four times in five\.$/,
    );
  });

  it("does not where they scatter alike, and says what that means", () => {
    const [found] = measuredTrials(
      opened,
      takes((_, turn) => 100 + ((37 * turn) % 11)),
      noteHz,
    );
    expect(found.isDecided).toBe(false);
    expect(measuredTrialWords(found, "mm")).toContain("Not told apart is not alike.");
  });

  it("leaves out a repeat with a turn that has no take, and says nothing of one or of a sealed trial", () => {
    const all = takes((item) => 100 + item);
    expect(measuredTrials(opened, all.slice(1), noteHz)[0].repeats).toBe(3);
    expect(measuredTrials(opened, all.slice(0, 5), noteHz)).toEqual([]);
    expect(measuredTrials(sealed, all, noteHz)).toEqual([]);
    expect(
      measuredTrials(
        opened,
        all.map((take) => ({ ...take, blind: { trial: "t2", code: take.blind!.code } })),
        noteHz,
      ),
    ).toEqual([]);
  });

  it("needs no rating: the takes alone say when a turn is done, and what was found", () => {
    const all = takes((item, turn) => 100 + 20 * item + (turn % 3));
    expect(sealed.turns.map((turn) => isTurnDone(sealed, turn, all))).toEqual(sealed.turns.map(() => true));
    expect(isTurnDone(sealed, sealed.turns[0], all.slice(1))).toBe(false);
    // a slot with one end, and a take of another test, are no takes of this one
    const half = { ...slot(100), highCents: [] };
    const other: Measured = { test: "attack", missed: 1, of: 10 };
    for (const measured of [half, other])
      expect(isTurnDone(sealed, sealed.turns[0], [{ ...all[0], measured }])).toBe(false);
    // where preference decides, ratings do
    const { decidedBy: _, ...byPreference } = sealed;
    expect(isTurnDone(byPreference, sealed.turns[0], all)).toBe(false);
    const rated = {
      ...sealed.turns[0],
      ratings: Object.fromEntries(SCALES.map((scale) => [scale, 50])) as Trial["turns"][0]["ratings"],
    };
    expect(isTurnDone(byPreference, rated, [])).toBe(true);
    const said = measuredOutcomeWords(measuredOutcome(opened, all, noteHz)!, "mm", "b-flat-trumpet");
    expect(said[0]).toBe("Planned beforehand: 3 gaps, 4 times each, blind, decided by slot width, measured.");
    expect(said[1]).toContain("told apart (p = 0.005, exact)");
    expect(measuredOutcome(sealed, all, noteHz)).toBeNull();
  });

  it("says what difference it would have found, which such trials do find", () => {
    // as many small differences as there are turns, so that the scatter is one of 8 cents
    const [found] = measuredTrials(
      opened,
      takes((_, turn) => 100 + ((37 * turn) % 23)),
      noteHz,
    );
    const { detectable, items, repeats } = found;
    expect(detectable).toBeGreaterThan(5);
    const scatter = detectable! / differenceFound(items.length, repeats)!;
    const question = { items: items.length, repeats, difference: detectable!, scatter };
    expect(power({ ...question, seed: 7 }).chance).toBeGreaterThan(0.7);
    expect(power({ ...question, seed: 7 }).chance).toBeLessThan(0.92);
    // 3 gaps, twice each: 36 orders in which 6 are as far apart are never rare enough
    expect(differenceFound(3, 2)).toBeNull();
    expect(differenceFound(4, 8)!).toBeLessThan(differenceFound(4, 4)!);
  });

  it("corrects for several notes of the same test", () => {
    const one = takes((item, turn) => 100 + 20 * item + (turn % 3));
    const both = [...one, ...one.map((take) => ({ ...take, id: `${take.id}b`, partial: 5 }))];
    expect(measuredTrials(opened, both, noteHz).map(({ correctedP }) => correctedP)).toEqual([
      2 / 216,
      2 / 216,
    ]);
  });

  it("keeps what is to decide it, and no other word", () => {
    expect(sealed.decidedBy).toBe("slot");
    expect(readTrials(JSON.parse(JSON.stringify([sealed])))).toEqual([sealed]);
    expect(readTrials([{ ...sealed, decidedBy: "taste" }])[0]).not.toHaveProperty("decidedBy");
    expect(SCALES).toContain("preference");
  });
});

describe("a plan by the scatter of first takes", () => {
  const at = (gapMm: number, width: number, id: string) => ({
    gapMm,
    take: { ...takes(() => width)[0], id, gapMm, blind: null },
  });

  it("tells how many takes a difference needs", () => {
    const [note] = listenedNotes(
      [at(2, 100, "a"), at(2, 110, "b"), at(3, 100, "c"), at(3, 110, "d")],
      noteHz,
    );
    // a scatter of 7.07 cents: ten cents are 1.41 of it, 9 each for four in five (Cohen 1988, table 2.4.1)
    expect(planWords(note)).toBe(
      "To find a difference four times in five, you need at each gap: for 10 cents, 9 takes; for 20 cents, 4 takes; for 40 cents, 2 takes.",
    );
  });
});
