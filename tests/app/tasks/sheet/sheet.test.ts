import { describe, expect, test } from "vitest";
import { jobGaps } from "../../../../src/app/state/bench/jobGaps.ts";
import { NO_NOTES, notesForAnother, readNotes } from "../../../../src/app/state/notes/notes.ts";
import { type SheetNotes, sheetForm, withWords } from "../../../../src/app/state/notes/sheet.ts";
import { FIRST_VIEW, type State } from "../../../../src/app/state/state.ts";
import { documentOf } from "../../../../src/app/state/store.ts";
import { paperSize, pxOf } from "../../../../src/app/tasks/sheet/paperSize.ts";
import { sheetData } from "../../../../src/app/tasks/sheet/record.ts";
import { NONE } from "../../../../src/app/work/work.ts";
import { demo } from "../../../acoustics/setups.ts";

const typed: SheetNotes = {
  ...sheetForm.empty,
  form: "classroom",
  paper: "Letter",
  chart: "curves",
  isLandscape: false,
  heads: {
    ...sheetForm.empty.heads,
    title: "Job 7",
    workshop: "Kettle Lane",
    technician: "T.",
    player: "K.",
  },
  words: { found: "Only {gap}.", cautions: "" },
};

describe("the notes of a sheet", () => {
  test("come back as they were typed; what cannot be read is empty", () => {
    expect(sheetForm.ofJson(JSON.parse(JSON.stringify(typed)))).toEqual(typed);
    for (const odd of [null, "sheet", 4, { words: [1], heads: { title: 3 }, form: "wall", paper: "A5" }])
      expect(sheetForm.ofJson(odd)).toEqual(sheetForm.empty);
    expect(sheetForm.ofJson({ words: { gossip: "x", found: 3 } }).words).toEqual({});
    expect(readNotes({ sheet: typed }).sheet).toEqual(typed);
  });

  test("for another instrument keep who works here and the paper, not the job and its words", () => {
    expect(notesForAnother({ ...NO_NOTES, sheet: typed }).sheet).toEqual({
      ...typed,
      heads: { ...sheetForm.empty.heads, workshop: "Kettle Lane", technician: "T." },
      words: {},
    });
  });

  test("go back to a proposal by forgetting the words; an emptied paragraph stays emptied", () => {
    expect(withWords(typed, "found", null).words).toEqual({ cautions: "" });
    expect(withWords(typed, "found", "").words).toEqual({ cautions: "", found: "" });
    expect(withWords(withWords(typed, "trial", "none"), "trial", null)).toEqual(typed);
  });
});

describe("the paper", () => {
  test("has its true size, and lies on its side for the class alone", () => {
    expect(paperSize(sheetForm.empty)).toEqual({ widthMm: 210, heightMm: 297 });
    expect(paperSize({ ...sheetForm.empty, paper: "Letter" }).widthMm).toBeCloseTo(8.5 * 25.4, 9);
    expect(paperSize({ ...sheetForm.empty, form: "classroom" })).toEqual({ widthMm: 297, heightMm: 210 });
    expect(paperSize({ ...sheetForm.empty, form: "classroom", isLandscape: false }).widthMm).toBe(210);
    expect(pxOf(25.4)).toBeCloseTo(96, 9);
  });
});

describe("the record of a sheet", () => {
  const state = (notes: Partial<typeof NO_NOTES> = {}, part: Partial<State["document"]> = {}): State => ({
    document: { ...documentOf(demo(), { ...NO_NOTES, ...notes }), ...part },
    view: FIRST_VIEW,
    canUndo: false,
    canRedo: false,
    message: null,
  });
  const none = { explored: NONE, sweep: NONE, retuned: NONE };
  const nobody = { stream: NONE, felt: NONE, slots: NONE, closed: NONE, holds: NONE, levels: NONE };
  const data = (of: State, results = none) =>
    sheetData(of, jobGaps(of.document, of.view.unit), results, nobody);

  test("takes the gap from the readings, else from the setup, and says which", () => {
    expect(data(state()).record.present).toMatchObject({ gapMm: 2.5, readings: null });
    expect(data(state()).record.present.expandedMm).toBeCloseTo(1.96 * Math.hypot(0.02, 0.03), 4);
    const measure = { ...NO_NOTES.measure, depth: ["24.6", "24.62"], insertion: ["22", "22.02", "22.01"] };
    const { present } = data(state({ measure })).record;
    expect(present.readings).toEqual({ depth: 2, insertion: 3 });
    expect(present.gapMm).toBeCloseTo(24.61 - 22.01, 9);
    expect(present.expandedMm).toBeGreaterThan(0.02);
  });

  test("recommends what is planned and never where the slider stands", () => {
    const cut = { ...NO_NOTES.cut, target: "2", way: "turn-down" };
    const planned = data(state({ cut }, { gapMm: 4.7, referenceGapMm: 3.3 })).record;
    expect(planned.recommendation).toEqual({ kind: "planned", gapMm: 2, trial: "not-played" });
    expect(planned.told).toEqual({ kind: "planned", gapMm: 2 });
    expect(planned.referenceGapMm).toBe(2.5);
    expect(planned.way?.name).toBe("turn-down");
    for (const unplanned of [NO_NOTES.cut, { ...cut, target: "two" }]) {
      const { recommendation, told, plan, way } = data(state({ cut: unplanned }, { gapMm: 4.7 })).record;
      expect(recommendation).toEqual({ kind: "none", because: "nothing-planned" });
      expect(told).toEqual({ kind: "what-if", gapMm: 4.7 });
      expect({ plan, way }).toEqual({ plan: null, way: null });
    }
  });

  test("for a class tells of the gap looked at and the one it is compared with", () => {
    const sheet = { ...NO_NOTES.sheet, form: "classroom" as const };
    const cut = { ...NO_NOTES.cut, target: "2" };
    const { told, referenceGapMm } = data(state({ sheet, cut }, { gapMm: 4.7, referenceGapMm: 3.3 })).record;
    expect(told).toEqual({ kind: "what-if", gapMm: 4.7 });
    expect(referenceGapMm).toBe(3.3);
  });

  test("has no answer of the model that is about other gaps", () => {
    const value = { verdicts: [] };
    const of = { gapMm: 3, referenceGapMm: 2.5 };
    const other = { ...none, explored: { ...NONE, value, of } } as unknown as typeof none;
    expect(data(state({}, { gapMm: 4.7 }), other).record.explored).toBeNull();
    expect(data(state({}, { gapMm: 3 }), other).record.explored).toBe(value);
    // to no gap at all is the same from wherever the slider stood when it was asked
    const closed = { ...NONE, value, of };
    const at = state({}, { gapMm: 4.7 });
    const { record } = sheetData(at, jobGaps(at.document, "mm"), none, { ...nobody, closed } as any);
    expect(record.closed).toBe(value);
  });

  test("counts from what was measured once it is used", () => {
    const measure = { ...NO_NOTES.measure, depth: ["24.6", "24.62"], insertion: ["22", "22.02", "22.01"] };
    const { present, referenceGapMm } = data(state({ measure }, { gapMm: 4.7, referenceGapMm: 3.3 })).record;
    expect(referenceGapMm).toBeCloseTo(present.gapMm, 6);
  });

  test("waits for what is not there, not for what was refused or is not asked for", () => {
    const { record, awaited } = data(state());
    expect(record.isWorking).toBe(true);
    expect(awaited.map(({ what }) => what)).toContain("what remains after retuning");
    const refusal = { ...NONE, refused: "no such gap" };
    const untuned = { ...state(), view: { ...FIRST_VIEW, retune: null } };
    const quiet = sheetData(
      untuned,
      jobGaps(untuned.document, "mm"),
      { explored: refusal, sweep: refusal, retuned: NONE },
      { ...nobody, felt: refusal, closed: refusal },
    );
    expect(quiet.awaited).toEqual([]);
    expect(quiet.record.isWorking).toBe(false);
    const stopped = data(state(), { ...none, sweep: { ...NONE, stopped: true } } as unknown as typeof none);
    expect(stopped.awaited.find(({ what }) => what === "the charts against gap")!.isStopped).toBe(true);
  });
});
