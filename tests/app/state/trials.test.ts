import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { writeDocument } from "../../../src/app/state/keeping/documentFile.ts";
import { readDocument } from "../../../src/app/state/keeping/readDocument.ts";
import { reportedTrial } from "../../../src/app/state/notes/notes.ts";
import {
  finishedTrials,
  lastFinished,
  shownTrial,
  withOpened,
  withoutOrder,
  withSealed,
  withTurn,
} from "../../../src/app/state/notes/trial.ts";
import { documentOf, Store } from "../../../src/app/state/store.ts";
import { sealTrial } from "../../../src/trial/seal.ts";
import { isRated, type Trial } from "../../../src/trial/trial.ts";
import { gapItems } from "../../trial/players.ts";
import { someSetup } from "../someSetup.ts";

const AT = "2026-03-01T09:00:00.000Z";
const LATER = "2026-03-02T09:00:00.000Z";
const RATINGS = { hold: 40, ease: 50, evenness: 60, preference: 70 };
const order = (id: string, repeats = 2): Trial =>
  sealTrial(
    { id, player: "Ada", items: gapItems(1, 2, 3, 4), repeats, passages: "", difference: 20 },
    id.length,
  );

const newStore = () => new Store(documentOf(someSetup()));
const notes = (store: Store) => store.state.document.notes.trial;
const seal = (store: Store, trial: Trial) => store.setNotes("trial", withSealed(notes(store), trial));
const rate = (store: Store, turns: number) => {
  for (let at = 0; at < turns; at++)
    store.setNotes("trial", withTurn(notes(store), at, { ratings: RATINGS }));
};
const finish = (store: Store, id: string, at = AT) =>
  store.setNotes("trial", withOpened(notes(store), id, "complete", at));
const another = (store: Store) => store.setNotes("trial", { ...notes(store), shown: null });

describe("trials of a job", () => {
  test("48 ratings of a first one are there after a second was planned, sealed and kept", () => {
    const store = newStore();
    seal(store, order("first", 12));
    rate(store, 48);
    finish(store, "first");
    another(store);
    expect(shownTrial(notes(store))).toBeNull();
    seal(store, order("second"));
    rate(store, 3);
    const again = readDocument(JSON.parse(JSON.stringify(writeDocument(store.state.document))));
    const { trials } = again.notes.trial;
    expect(trials.map(({ id, opened }) => [id, opened])).toEqual([
      ["first", "complete"],
      ["second", "sealed"],
    ]);
    expect(trials[0].turns.filter(isRated)).toHaveLength(48);
    expect(trials[0].turns.every(({ ratings }) => ratings.preference === 70)).toBe(true);
    expect(trials[1].turns.filter(isRated)).toHaveLength(3);
    expect(shownTrial(again.notes.trial)!.id).toBe("second");
  });

  test("a finished one takes no rating, is not opened again and not thrown away; a sealed one can be", () => {
    const store = newStore();
    seal(store, order("first"));
    finish(store, "first");
    const [finished] = notes(store).trials;
    rate(store, 1);
    finish(store, "first", LATER);
    store.setNotes("trial", withoutOrder(notes(store), "first"));
    expect(notes(store).trials).toEqual([finished]);
    expect(notes(store).trials[0]).toBe(finished);
    seal(store, order("second"));
    store.setNotes("trial", withoutOrder(notes(store), "second"));
    expect(notes(store)).toMatchObject({ trials: [finished], shown: null });
  });

  test("the report tells of the one finished last, unless another is chosen", () => {
    const store = newStore();
    for (const id of ["a", "b", "c"]) seal(store, order(id));
    expect(reportedTrial(store.state.document.notes)).toBeNull();
    finish(store, "b", LATER);
    finish(store, "a", AT);
    expect(lastFinished(notes(store))!.id).toBe("b");
    const { notes: all } = store.state.document;
    expect(reportedTrial(all)!.id).toBe("b");
    for (const [trial, reported] of [
      ["a", "a"],
      ["c", "b"],
      ["gone", "b"],
    ])
      expect(reportedTrial({ ...all, sheet: { ...all.sheet, trial } })!.id).toBe(reported);
  });
});

describe("undo", () => {
  test("goes back behind a finished trial without taking it with it", () => {
    const store = newStore();
    const { gapMm } = store.state.document;
    store.setGap(gapMm + 0.1);
    seal(store, order("first"));
    rate(store, 8);
    finish(store, "first");
    const [finished] = notes(store).trials;
    // not a rating, but the seal is what comes next; then the gap
    store.undo();
    expect(notes(store)).toMatchObject({ trials: [finished], shown: null });
    store.undo();
    expect(store.state.document.gapMm).toBeCloseTo(gapMm, 12);
    expect(notes(store).trials).toEqual([finished]);
    expect(store.state.canUndo).toBe(false);
    store.redo();
    store.redo();
    expect(store.state.canRedo).toBe(false);
    expect(notes(store)).toMatchObject({ trials: [finished], shown: "first" });
  });

  test("brings back an order that was thrown away", () => {
    const store = newStore();
    seal(store, order("first"));
    rate(store, 2);
    const before = notes(store);
    store.setNotes("trial", withoutOrder(before, "first"));
    store.undo();
    expect(notes(store)).toEqual(before);
  });

  test("does not carry a trial into the instrument or the job that was open before", () => {
    for (const job of [undefined, "other"]) {
      const store = newStore();
      store.open({ ...documentOf(someSetup({ name: "Another" })), ...(job && { job }) });
      seal(store, order("first"));
      finish(store, "first");
      while (store.state.document.setup.name === "Another" && store.state.canUndo) store.undo();
      expect(store.state.document.setup.name).not.toBe("Another");
      expect(notes(store).trials).toEqual([]);
      store.redo();
      expect(finishedTrials(notes(store))).toHaveLength(1);
    }
  });

  test("whatever is done and undone, what is finished stays finished and as it was", () => {
    const deeds = fc.array(fc.constantFrom("seal", "rate", "finish", "another", "gap", "undo", "redo"), {
      maxLength: 40,
    });
    fc.assert(
      fc.property(deeds, (list) => {
        const store = newStore();
        const finished = new Map<string, Trial>();
        let count = 0;
        for (const deed of list) {
          const shown = shownTrial(notes(store));
          if (deed === "seal") seal(store, order(`t${count++}`));
          else if (deed === "rate") rate(store, 2);
          else if (deed === "finish" && shown)
            finish(store, shown.id, `2026-03-01T09:00:${10 + count++}.000Z`);
          else if (deed === "another") another(store);
          else if (deed === "gap") store.setGap(store.state.document.gapMm + 0.01);
          else if (deed === "undo") store.undo();
          else if (deed === "redo") store.redo();
          for (const one of finishedTrials(notes(store)))
            if (!finished.has(one.id)) finished.set(one.id, one);
          expect(
            finishedTrials(notes(store))
              .map(({ id }) => id)
              .sort(),
          ).toEqual([...finished.keys()].sort());
          for (const one of finishedTrials(notes(store))) expect(one).toEqual(finished.get(one.id));
        }
      }),
    );
  });
});
