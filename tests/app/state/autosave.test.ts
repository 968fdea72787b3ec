import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { Autosave } from "../../../src/app/state/keeping/autosave.ts";
import { restore } from "../../../src/app/state/keeping/restored.ts";
import { restoreView, type Shelf } from "../../../src/app/state/keeping/shelves.ts";
import type { JobMark } from "../../../src/app/state/record/jobMark.ts";
import { FIRST_VIEW } from "../../../src/app/state/state.ts";
import { documentOf, Store } from "../../../src/app/state/store.ts";
import { somePage } from "../page.ts";
import { someSetup } from "../someSetup.ts";

function shelf(text: string | null = null): Shelf & { text: string | null } {
  return {
    text,
    getItem() {
      return this.text;
    },
    setItem(_, value) {
      this.text = value;
    },
    removeItem() {
      this.text = null;
    },
  };
}
const full: Shelf = {
  getItem: () => null,
  setItem: () => {
    throw new DOMException("full", "QuotaExceededError");
  },
  removeItem: () => {},
};

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

describe("autosave", () => {
  test("what was done comes back", () => {
    const shelves = { tab: shelf(), browser: shelf() };
    const store = new Store(documentOf(someSetup()));
    new Autosave(store, shelves).start(somePage());
    store.setGap(1.9);
    store.setReference(3);
    store.setView({ unit: "in", retune: 4, hintsSeen: true });
    vi.advanceTimersByTime(300);
    const { document, view } = store.state;
    const found = { document, view, mark: null, broken: null };
    expect(restore(shelves)).toEqual(found);
    expect(restore({ tab: shelf(), browser: shelves.browser })).toEqual(found);
    expect(restoreView(shelves)).toEqual(view);
    expect(restoreView({ tab: null, browser: shelves.browser })).toEqual(view);
    expect(restoreView({ tab: shelf("{"), browser: shelves.browser })).toEqual(view);
    expect(restoreView({ tab: null, browser: null })).toBeNull();
  });

  test("waits for a quiet moment, half a second at most, and not at all when the page is left or hidden", () => {
    const shelves = { tab: shelf(), browser: shelf() };
    const store = new Store(documentOf(someSetup()));
    const window = somePage();
    new Autosave(store, shelves).start(window);
    const kept = () => restore(shelves).document?.gapMm;
    store.setGap(1);
    expect(kept()).toBeUndefined();
    vi.advanceTimersByTime(150);
    expect(kept()).toBe(1);
    const move = (times: number) => {
      for (let i = 1; i <= times; i++) {
        store.setGap(2 + i / 100, { commit: false });
        vi.advanceTimersByTime(50);
      }
    };
    move(9);
    expect(kept()).toBe(1);
    move(1);
    expect(kept()).toBe(2.01);
    move(9);
    expect(kept()).toBe(2.01);
    vi.advanceTimersByTime(150);
    expect(kept()).toBe(2.09);
    store.setGap(3);
    window.dispatchEvent(new Event("pagehide"));
    expect(kept()).toBe(3);
    store.setGap(4);
    window.document.visibilityState = "hidden";
    window.document.dispatchEvent(new Event("visibilitychange"));
    expect(kept()).toBe(4);
  });

  test("waits for a moment with nothing to draw, where the browser tells of one", () => {
    const idle = vi.fn<(act: () => void, options: { readonly timeout: number }) => void>();
    vi.stubGlobal("requestIdleCallback", idle);
    const shelves = { tab: shelf(), browser: shelf() };
    const store = new Store(documentOf(someSetup()));
    new Autosave(store, shelves).start(somePage());
    const kept = () => restore(shelves).document?.gapMm;
    store.setGap(1);
    vi.advanceTimersByTime(150);
    store.setGap(2);
    vi.advanceTimersByTime(400);
    expect(kept()).toBeUndefined();
    expect(idle).toHaveBeenCalledOnce();
    const [act, { timeout }] = idle.mock.calls[0];
    // with what may have gone before it, well within the second
    expect(timeout).toBeLessThanOrEqual(300);
    act();
    expect(kept()).toBe(2);
    vi.unstubAllGlobals();
  });

  test("the tab's own comes before another tab's, in either order of saving", () => {
    const browser = shelf();
    const first = { tab: shelf(), browser };
    const second = { tab: shelf(), browser };
    for (const [shelves, gapMm] of [
      [first, 1],
      [second, 2],
    ] as const) {
      const store = new Store(documentOf(someSetup()));
      new Autosave(store, shelves).start(somePage());
      store.setGap(gapMm);
      vi.advanceTimersByTime(300);
    }
    expect(
      [first, second, { tab: shelf(), browser }].map((shelves) => restore(shelves).document?.gapMm),
    ).toEqual([1, 2, 2]);
  });

  test("a broken one is handed over with the reason, and an older readable one is used", () => {
    for (const text of [
      "{",
      "null",
      "[]",
      '{"document":{"format":"annulus-document","version":1,"setup":{"format":"x"}}}',
    ]) {
      const found = restore({ tab: shelf(text), browser: null });
      expect(found).toMatchObject({ document: null, view: null, broken: { text } });
      expect(found.broken!.reason).not.toMatch(/\n/);
    }
    const browser = shelf();
    const store = new Store(documentOf(someSetup()));
    const autosave = new Autosave(store, { tab: null, browser });
    store.setGap(1);
    autosave.save();
    expect(restore({ tab: shelf("{"), browser })).toMatchObject({
      document: { gapMm: 1 },
      broken: { text: "{" },
    });
  });

  test("which job it is and where that stood comes back too, as soon as it has changed", () => {
    const tab = shelf();
    const store = new Store(documentOf(someSetup()));
    let tell = () => {};
    const marking = {
      mark: null as JobMark | null,
      subscribe(listener: () => void) {
        tell = listener;
        return () => {};
      },
    };
    new Autosave(store, { tab, browser: null }, marking).start(somePage());
    marking.mark = { id: "a", revision: { here: 3 }, unsaved: true };
    store.belongTo("a");
    vi.advanceTimersByTime(300);
    expect(restore({ tab, browser: null })).toMatchObject({ mark: marking.mark, document: { job: "a" } });
    marking.mark = { id: "a", revision: { here: 4 }, unsaved: false };
    tell();
    vi.advanceTimersByTime(300);
    expect(restore({ tab, browser: null }).mark).toEqual(marking.mark);
    tab.text = JSON.stringify({ ...JSON.parse(tab.text!), job: { id: 7 } });
    expect(restore({ tab, browser: null })).toMatchObject({
      mark: null,
      document: { gapMm: expect.any(Number) },
    });
  });

  test("a view that cannot be read is as on a first visit; the document stays", () => {
    const tab = shelf();
    const store = new Store(documentOf(someSetup()));
    const autosave = new Autosave(store, { tab, browser: null });
    store.setGap(1);
    autosave.save();
    tab.text = JSON.stringify({
      ...JSON.parse(tab.text!),
      view: { unit: "furlong", resonance: 0.5, retune: 3 },
    });
    expect(restore({ tab, browser: null })).toMatchObject({
      document: { gapMm: 1 },
      view: { ...FIRST_VIEW, retune: 3 },
    });
  });

  test("a browser that keeps nothing is told of once and stops nobody", () => {
    for (const shelves of [
      { tab: null, browser: null },
      { tab: full, browser: full },
    ]) {
      const store = new Store(documentOf(someSetup()));
      new Autosave(store, shelves).start(somePage());
      store.setGap(1);
      vi.advanceTimersByTime(300);
      expect(store.state.message).toMatchObject({
        kind: "error",
        text: expect.stringContaining("save it to a file"),
      });
      store.clearMessage();
      store.setGap(2);
      vi.advanceTimersByTime(300);
      expect(store.state.message).toBeNull();
    }
  });
});
