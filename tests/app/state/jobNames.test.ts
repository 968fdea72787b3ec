import { describe, expect, it } from "vitest";
import { readView } from "../../../src/app/state/keeping/viewFile.ts";
import { NO_NOTES, type Notes } from "../../../src/app/state/notes/notes.ts";
import { sheetForm } from "../../../src/app/state/notes/sheet.ts";
import { trialForm } from "../../../src/app/state/notes/trial.ts";
import { jobNames, type NamesQuestion, unlessTyped } from "../../../src/app/state/record/jobNames.ts";
import { FIRST_VIEW } from "../../../src/app/state/state.ts";
import { demo } from "../../acoustics/setups.ts";

const setup = { ...demo(), name: "Stand-in trumpet" };
const heads = (typed: Partial<Notes["sheet"]["heads"]>): Notes => ({
  ...NO_NOTES,
  sheet: { ...NO_NOTES.sheet, heads: { ...sheetForm.empty.heads, ...typed } },
});
const row = { title: "Spring job", player: "Ada", instrument: "Kettle no. 9", mouthpiece: "5C" };
const names = (part: Partial<NamesQuestion> & { notes?: Notes } = {}) =>
  jobNames({ document: { setup, notes: part.notes ?? NO_NOTES }, view: FIRST_VIEW, row: null, ...part });

describe("whose paper it is", () => {
  it("is the setup's name alone where nobody said more", () => {
    expect(names()).toEqual({
      job: "",
      player: "",
      instrument: "Stand-in trumpet",
      mouthpiece: "",
      workshop: "",
      technician: "",
      computedOn: "",
    });
  });

  it("is what the open job is listed by, the stand-in named as one", () => {
    expect(names({ row })).toMatchObject({
      job: "Spring job",
      player: "Ada",
      instrument: "Kettle no. 9",
      mouthpiece: "5C",
      computedOn: "Stand-in trumpet",
    });
    expect(names({ row: { ...row, instrument: "Stand-in trumpet " } }).computedOn).toBe("");
    expect(names({ row: { ...row, instrument: "  " } })).toMatchObject({
      instrument: "Stand-in trumpet",
      computedOn: "",
    });
  });

  it("is what was typed for the papers before it, and the player of a trial after it", () => {
    const notes = heads({ player: "Bo", instrument: "Own no. 3", workshop: "Kettle Lane" });
    expect(names({ row, notes })).toMatchObject({
      job: "Spring job",
      player: "Bo",
      instrument: "Own no. 3",
      workshop: "Kettle Lane",
    });
    const trials = [{ player: " Cy " }] as unknown as Notes["trial"]["trials"];
    const played = { ...NO_NOTES, trial: { ...trialForm.empty, trials } };
    expect(names({ notes: played }).player).toBe("Cy");
    expect(names({ notes: played, row }).player).toBe("Ada");
    expect(unlessTyped({ document: { setup, notes }, view: FIRST_VIEW, row })).toMatchObject({
      player: "Ada",
      instrument: "Kettle no. 9",
    });
  });

  it("who works here is kept with the browser, and a job's own word goes before it", () => {
    const view = readView(
      JSON.parse(JSON.stringify({ ...FIRST_VIEW, workshop: "Kettle Lane", technician: "T." })),
    );
    expect(names({ view })).toMatchObject({ workshop: "Kettle Lane", technician: "T." });
    expect(names({ view, notes: heads({ technician: "U." }) })).toMatchObject({
      workshop: "Kettle Lane",
      technician: "U.",
    });
    expect(readView({ workshop: 7 }).workshop).toBe("");
  });
});
