/** What a take belongs to: a gap as typed or as it is measured, or a code of a sealed trial. */
import { describe, expect, it } from "vitest";
import type { Notes } from "../../../../src/app/state/notes/notes.ts";
import { documentOf } from "../../../../src/app/state/store.ts";
import { isPlaced, placeOf } from "../../../../src/app/tasks/listen/place.ts";
import { gapMm } from "../../../../src/setup/setup.ts";
import { sealTrial } from "../../../../src/trial/seal.ts";
import { gapItems } from "../../../trial/players.ts";
import { someSetup } from "../../someSetup.ts";

const document = documentOf(someSetup());
const sealed = sealTrial(
  { id: "t", player: "", items: gapItems(1, 2, 3), repeats: 2, passages: "", difference: 20 },
  1,
);
const withNotes = (listen: Partial<Notes["listen"]>, trials = [sealed]) => ({
  ...document,
  notes: {
    ...document.notes,
    listen: { ...document.notes.listen, ...listen },
    trial: { ...document.notes.trial, trials },
  },
});

describe("what a take belongs to", () => {
  it("is the gap as typed, else the instrument's own", () => {
    const own = placeOf(document, "mm");
    expect(own).toEqual({ blind: null, gapMm: gapMm(document.setup), problem: "" });
    expect(isPlaced(own)).toBe(true);
    expect(placeOf(withNotes({ gap: "2.5" }), "mm").gapMm).toBe(2.5);
  });

  it("is not known while the gap cannot be read, or is more than the receiver takes", () => {
    for (const [gap, problem] of [
      ["wide", /"wide" is not a length/],
      ["39", /^This receiver takes gaps up to \d/],
    ] as const) {
      const place = placeOf(withNotes({ gap }), "mm");
      expect(place).toEqual({ blind: null, gapMm: null, problem: expect.stringMatching(problem) });
      expect(isPlaced(place)).toBe(false);
    }
  });

  it("is a code of a sealed trial once that is chosen, and tells no gap", () => {
    const { code } = sealed.turns[0];
    const unchosen = placeOf(withNotes({ trial: "t", gap: "2.5" }), "mm");
    expect(unchosen).toEqual({ blind: { trial: "t", code: "" }, gapMm: null, problem: "" });
    expect(isPlaced(unchosen)).toBe(false);
    const chosen = placeOf(withNotes({ trial: "t", code, gap: "2.5" }), "mm");
    expect(chosen).toEqual({ blind: { trial: "t", code }, gapMm: null, problem: "" });
    expect(isPlaced(chosen)).toBe(true);
  });

  it("is a gap again once the trial has been opened", () => {
    const { code } = sealed.turns[0];
    const place = placeOf(
      withNotes({ trial: "t", code, gap: "2.5" }, [{ ...sealed, opened: "complete" }]),
      "mm",
    );
    expect(place).toEqual({ blind: null, gapMm: 2.5, problem: "" });
  });
});
