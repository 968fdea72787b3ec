import { describe, expect, test } from "vitest";
import { readField } from "../../../../src/app/form/field.ts";
import { NO_NOTES, notesForAnother, readNotes } from "../../../../src/app/state/notes/notes.ts";
import {
  FLOW,
  LEAP_FIELDS,
  LIP_FIELDS,
  type PlayNotes,
  playForm,
} from "../../../../src/app/state/notes/play.ts";
import { documentOf } from "../../../../src/app/state/store.ts";
import { feelQuestion } from "../../../../src/app/work/feelQuestion.ts";
import { DEFAULT_LIPS } from "../../../../src/study/feel/lipParameters.ts";
import { someSetup } from "../../someSetup.ts";

const notes = (lips: Partial<PlayNotes["lips"]>, part: Partial<PlayNotes> = {}): PlayNotes => ({
  ...playForm.empty,
  ...part,
  lips: { ...playForm.empty.lips, ...lips },
});
const asked = (play: PlayNotes) => feelQuestion(documentOf(someSetup(), { ...NO_NOTES, play }));

describe("the notes on playing", () => {
  test("come back from a file as they were typed; what cannot be read is empty", () => {
    const typed = notes({ quality: "about 7", width: "1/4 in" }, { flow: "30", unit: "in" });
    expect(playForm.ofJson(JSON.parse(JSON.stringify(typed)))).toEqual(typed);
    for (const odd of [null, "lips", 3, { lips: [1], leap: { from: 4 } }])
      expect(playForm.ofJson(odd)).toEqual(playForm.empty);
    expect(readNotes({ play: typed }).play).toEqual(typed);
  });

  test("a bare length keeps its meaning when the unit is switched, other numbers their text", () => {
    const inches = playForm.shownIn(notes({ width: "8", restOpening: "0.02 in", quality: "8" }), "in");
    expect(inches.lips).toMatchObject({ width: "8 mm", restOpening: "0.02 in", quality: "8" });
    expect(asked(inches).lips!.width).toBeCloseTo(0.008, 12);
  });

  test("lips are the player's: another instrument keeps them", () => {
    const play = notes({ quality: "5" });
    expect(notesForAnother({ ...NO_NOTES, play }).play).toBe(play);
  });
});

describe("what is asked of the lips", () => {
  test("nothing typed is the usual lips, pressure and flow", () => {
    expect(asked(playForm.empty)).toMatchObject({
      lips: DEFAULT_LIPS,
      pressure: { timesThreshold: 1.3 },
      litresPerMinute: 20,
    });
  });

  test("typed texts count, with units and a decimal comma", () => {
    const { lips, pressure, litresPerMinute } = asked(
      notes({ massPerArea: "6,5 kg/m²", restOpening: "0.4 mm" }, { pressure: "1.5", flow: "35" }),
    );
    expect(lips).toMatchObject({ massPerArea: 6.5, quality: DEFAULT_LIPS.quality });
    expect(lips!.restOpening).toBeCloseTo(0.0004, 12);
    expect(pressure).toEqual({ timesThreshold: 1.5 });
    expect(litresPerMinute).toBe(35);
  });

  test("what cannot be is said in words, with what would be right", () => {
    const refused = (lips: Partial<PlayNotes["lips"]>, name: keyof PlayNotes["lips"]) =>
      readField(LIP_FIELDS[name], notes(lips).lips[name], "mm").problem;
    expect(refused({ quality: "many" }, "quality")).toMatch(
      /"many" is not a number; give a number from 0\.5 to 1000/,
    );
    expect(refused({ massPerArea: "-1" }, "massPerArea")).toMatch(/out of range; give .* kg\/m²/);
    expect(refused({ width: "3 m" }, "width")).toMatch(/give .* to 100\.?0* mm/);
    expect(asked(notes({ quality: "many" })).lips).toBeNull();
    expect(readField(LEAP_FIELDS.runs, "4.5", "mm")).toEqual({
      value: undefined,
      problem: expect.stringContaining("whole number"),
    });
    expect(readField(FLOW, "80", "mm")).toEqual({
      value: undefined,
      problem: expect.stringContaining("5 to 60"),
    });
  });
});
