import fc from "fast-check";
import { describe, expect, test, vi } from "vitest";
import type { Document } from "../../../src/app/state/state.ts";
import { documentOf, Store } from "../../../src/app/state/store.ts";
import { someSetup } from "../someSetup.ts";

const setup = someSetup();
const others = [someSetup({ insertion: 21 }), someSetup({ depth: 23 }), someSetup({ name: "Another" })];
const newStore = () => new Store(documentOf(setup));

/** Everything a hand can do to a document, and what ends a gesture. */
const deeds = fc.oneof(
  fc
    .record({ mm: fc.double({ min: -2, max: 30, noNaN: true }), commit: fc.boolean() })
    .map((arg) => ({ do: "gap" as const, ...arg })),
  fc
    .record({ mm: fc.double({ min: -2, max: 30, noNaN: true }), commit: fc.boolean() })
    .map((arg) => ({ do: "reference" as const, ...arg })),
  fc.constantFrom(...others, setup).map((opened) => ({ do: "setup" as const, opened })),
  fc.constantFrom(...others).map((opened) => ({ do: "open" as const, opened })),
);
type Deed = typeof deeds extends fc.Arbitrary<infer T> ? T : never;

function perform(store: Store, deed: Deed): void {
  if (deed.do === "gap") store.setGap(deed.mm, { commit: deed.commit });
  else if (deed.do === "reference") store.setReference(deed.mm, { commit: deed.commit });
  else if (deed.do === "setup") store.setSetup(deed.opened);
  else store.open(deed.opened);
}

describe("the store", () => {
  test("undoing everything leads to the beginning, redoing everything to the end", () => {
    fc.assert(
      fc.property(fc.array(deeds, { maxLength: 40 }), (list) => {
        const store = newStore();
        const first = store.state.document;
        for (const deed of list) perform(store, deed);
        const last = store.state.document;
        const back: Document[] = [];
        while (store.state.canUndo) {
          back.push(store.state.document);
          store.undo();
        }
        expect(store.state.document).toEqual(first);
        const forth: Document[] = [];
        while (store.state.canRedo) {
          store.redo();
          forth.push(store.state.document);
        }
        expect(store.state.document).toEqual(last);
        expect(forth.reverse()).toEqual(back);
      }),
    );
  });

  test("canUndo and canRedo say what undo and redo then do", () => {
    const moves = fc.oneof(deeds, fc.constantFrom({ do: "undo" as const }, { do: "redo" as const }));
    fc.assert(
      fc.property(fc.array(moves, { maxLength: 40 }), (list) => {
        const store = newStore();
        for (const move of list) {
          const { document, canUndo, canRedo } = store.state;
          if (move.do === "undo" || move.do === "redo") {
            store[move.do]();
            const could = move.do === "undo" ? canUndo : canRedo;
            if (!could) expect(store.state.document).toBe(document);
            else expect(store.state.document).not.toEqual(document);
          } else perform(store, move);
        }
      }),
    );
  });

  test("the gaps are always ones the receiver can have", () => {
    fc.assert(
      fc.property(fc.array(deeds, { maxLength: 20 }), (list) => {
        const store = newStore();
        for (const deed of list) {
          perform(store, deed);
          const { document } = store.state;
          for (const gapMm of [document.gapMm, document.referenceGapMm]) {
            expect(gapMm).toBeGreaterThanOrEqual(0);
            expect(gapMm).toBeLessThanOrEqual(document.setup.receiver.depthMm);
          }
        }
      }),
    );
  });

  test("a drag is one step back", () => {
    const store = newStore();
    for (const gapMm of [2, 1.5, 1, 0.5]) store.setGap(gapMm, { commit: false });
    store.setGap(0.25, { commit: true });
    store.setGap(4);
    store.undo();
    expect(store.state.document.gapMm).toBe(0.25);
    store.undo();
    expect(store.state.document.gapMm).toBe(2.54);
    expect(store.state.canUndo).toBe(false);
  });

  test("undo in the middle of a drag takes the drag back; cancel leaves no step", () => {
    const store = newStore();
    store.setGap(1, { commit: false });
    expect(store.state.canUndo).toBe(true);
    store.undo();
    expect(store.state.document.gapMm).toBe(2.54);
    store.setGap(1, { commit: false });
    store.cancel();
    expect(store.state).toMatchObject({ document: { gapMm: 2.54 }, canUndo: false, canRedo: true });
  });

  test("a drag that ends where it began is no step", () => {
    const store = newStore();
    store.setGap(1, { commit: false });
    store.setGap(2.54, { commit: true });
    expect(store.state.canUndo).toBe(false);
  });

  test("200 steps are kept", () => {
    const store = newStore();
    for (let i = 1; i <= 250; i++) store.setGap(i / 100);
    let steps = 0;
    for (; store.state.canUndo; steps++) store.undo();
    expect(steps).toBe(200);
    expect(store.state.document.gapMm).toBe(0.5);
  });

  test("an altered instrument keeps the gap unless its insertion or depth was what was altered", () => {
    const store = newStore();
    store.setGap(1.9);
    store.setSetup({ ...setup, name: "Renamed" });
    expect(store.state.document.gapMm).toBe(1.9);
    store.setSetup(someSetup({ insertion: 21.54 }));
    expect(store.state.document.gapMm).toBe(3);
    // changes were counted from your gap, and are from what it has come to be
    expect(store.state.document.referenceGapMm).toBe(3);
    store.setReference(2.2);
    store.setSetup(someSetup({ insertion: 22.04 }));
    expect(store.state.document.referenceGapMm).toBe(2.2);
  });

  test("a breath is one step to undo, stays with the instrument, and still air leaves nothing behind", () => {
    const store = newStore();
    const { document } = store.state;
    for (const litres of [3, 12, 20]) store.setBreath(litres, { commit: false });
    store.setBreath(20);
    expect(store.state.document).toEqual({ ...document, breathLitresPerMinute: 20 });
    store.setSetup({ ...setup, name: "Renamed" });
    expect(store.state.document.breathLitresPerMinute).toBe(20);
    store.undo();
    store.setBreath(0);
    expect(store.state.document).toEqual(document);
    expect(store.state.document).not.toHaveProperty("breathLitresPerMinute");
    store.undo();
    store.undo();
    expect(store.state).toMatchObject({ document, canUndo: false });
    store.setBreath(0);
    expect(store.state.canUndo).toBe(false);
    store.setBreath(20);
    store.open(someSetup({ name: "Another" }));
    expect(store.state.document).not.toHaveProperty("breathLitresPerMinute");
  });

  test("what is not a number moves nothing", () => {
    const store = newStore();
    for (const mm of [Number.NaN, Number.POSITIVE_INFINITY]) store.setGap(mm);
    expect(store.state).toMatchObject({ document: { gapMm: 2.54 }, canUndo: false });
  });

  test("listeners hear of changes only, and not after they left", () => {
    const store = newStore();
    const listener = vi.fn();
    const leave = store.subscribe(listener);
    store.setGap(2.54);
    store.clearMessage();
    store.undo();
    expect(listener).not.toHaveBeenCalled();
    store.setView({ unit: "in" });
    store.say("note", "said");
    expect(listener).toHaveBeenCalledTimes(2);
    leave();
    store.clearMessage();
    expect(listener).toHaveBeenCalledTimes(2);
  });
});
