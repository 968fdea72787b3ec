import "fake-indexeddb/auto";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { Autosave, type Place } from "../../../src/app/state/keeping/autosave.ts";
import { writeDocument } from "../../../src/app/state/keeping/documentFile.ts";
import { newestKept } from "../../../src/app/state/keeping/newestKept.ts";
import type { Shelf } from "../../../src/app/state/keeping/shelves.ts";
import { type Working, WorkingStore } from "../../../src/app/state/keeping/workingStore.ts";
import { DATABASE, RecordDatabase } from "../../../src/app/state/record/database.ts";
import { JobRecord } from "../../../src/app/state/record/jobRecord.ts";
import { documentOf, Store } from "../../../src/app/state/store.ts";
import { somePage } from "../page.ts";
import { someSetup } from "../someSetup.ts";

function shelf(): Shelf {
  const kept = new Map<string, string>();
  return {
    getItem: (key) => kept.get(key) ?? null,
    setItem: (key, text) => void kept.set(key, text),
    removeItem: (key) => void kept.delete(key),
  };
}
const copy: Place = { put: () => Promise.reject(new Error("no such files here")) };
const drop = (name: string) =>
  new Promise((done) => {
    indexedDB.deleteDatabase(name).onsuccess = done;
  });

let working: WorkingStore;
beforeEach(() => {
  working = new WorkingStore();
});
afterEach(async () => {
  await working.close();
  await Promise.all(["annulus-working", DATABASE].map(drop));
});

async function tab(shelves: { tab: Shelf; browser: Shelf }, database: Place = working) {
  const { document, since } = await newestKept(shelves, working);
  const store = new Store(document ?? documentOf(someSetup()));
  const autosave = new Autosave(store, shelves, null, { database, copy, since });
  autosave.start(somePage());
  return { store, autosave };
}
const gapAfter = async (shelves: { tab: Shelf; browser: Shelf }) =>
  (await newestKept(shelves, working)).document?.gapMm;

describe("what a page begins with", () => {
  test("is what was written through, though the shelves never reached the disk", async () => {
    const { store, autosave } = await tab({ tab: shelf(), browser: shelf() });
    store.setGap(1.9);
    await autosave.saved();
    expect(await gapAfter({ tab: shelf(), browser: shelf() })).toBe(1.9);
  });

  test("is the newest, where a shelf that was written late has an older one", async () => {
    const shelves = { tab: shelf(), browser: shelf() };
    const { store, autosave } = await tab(shelves);
    store.setGap(1);
    await autosave.saved();
    const late = { tab: shelf(), browser: shelf() };
    for (const which of ["tab", "browser"] as const)
      late[which].setItem("annulus-autosave", shelves[which].getItem("annulus-autosave")!);
    store.setGap(2);
    await autosave.saved();
    expect(await gapAfter(late)).toBe(2);
  });

  test("is the tab's own where it has any, and a clock that went back changes nothing", async () => {
    const browser = shelf();
    const [a, b] = [
      { tab: shelf(), browser },
      { tab: shelf(), browser },
    ];
    vi.useFakeTimers({ now: Date.parse("2026-06-01"), toFake: ["Date"] });
    const first = await tab(a);
    first.store.setGap(1);
    await first.autosave.saved();
    vi.setSystemTime(Date.parse("2026-05-01"));
    const second = await tab(b);
    second.store.setGap(2);
    await second.autosave.saved();
    vi.useRealTimers();
    expect(await gapAfter(a)).toBe(1);
    expect(await gapAfter(b)).toBe(2);
    expect(await gapAfter({ tab: shelf(), browser })).toBe(2);
    expect(await gapAfter({ tab: shelf(), browser: shelf() })).toBe(2);
  });

  test("is a job as the record has it, where only the record has gone on", async () => {
    const record = await JobRecord.open(new RecordDatabase());
    const document = (gapMm: number) => writeDocument({ ...documentOf(someSetup()), gapMm });
    const texts = { title: "A", player: "", instrument: "", mouthpiece: "" };
    const { id, revision } = await record.add(texts, document(1));
    await record.write(id, revision, document(1.5));
    const shelves = { tab: shelf(), browser: shelf() };
    const keep = (unsaved: boolean) =>
      shelves.tab.setItem(
        "annulus-autosave",
        JSON.stringify({ document: document(1), job: { id, revision, unsaved } }),
      );
    keep(false);
    expect(await newestKept(shelves, working)).toMatchObject({
      document: { gapMm: 1.5, job: id },
      mark: { unsaved: false },
    });
    keep(true);
    expect(await newestKept(shelves, working)).toMatchObject({
      document: { gapMm: 1 },
      mark: { unsaved: true },
    });
    record.close();
  });

  test("does not make a database of jobs where there is none", async () => {
    const shelves = { tab: shelf(), browser: shelf() };
    const job = { id: "x", revision: { b: 1 }, unsaved: false };
    shelves.tab.setItem(
      "annulus-autosave",
      JSON.stringify({ document: writeDocument(documentOf(someSetup())), job }),
    );
    expect(await newestKept(shelves, working)).toMatchObject({ mark: job });
    expect((await indexedDB.databases()).map(({ name }) => name)).not.toContain(DATABASE);
  });
});

describe("a disk that takes nothing", () => {
  test("is said once, tried again without a further key, and that it is well again is said", async () => {
    vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout"] });
    const taken: Working[] = [];
    let isFull = true;
    const disk: Place = {
      async put(one) {
        if (isFull) throw new DOMException("full", "QuotaExceededError");
        taken.push(one);
      },
    };
    const store = new Store(documentOf(someSetup()));
    const places = { database: disk, copy, since: 0 };
    const autosave = new Autosave(store, { tab: shelf(), browser: shelf() }, null, places);
    store.setGap(1);
    await autosave.saved();
    expect(store.state.message).toMatchObject({
      text: expect.stringMatching(/cannot write to the disk.*is not kept/),
      offer: { label: "Save it as a file" },
    });
    store.clearMessage();
    store.setGap(1.5);
    await autosave.saved();
    expect(store.state.message).toBeNull();
    isFull = false;
    await vi.advanceTimersByTimeAsync(2100);
    vi.useRealTimers();
    expect(taken.at(-1)?.text).toMatch(/"gapMm":1.5\b/);
    expect(store.state.message?.text).toMatch(/can write to the disk again/);
  });

  test("is nothing to say where the second copy took it", async () => {
    const full: Place = { put: () => Promise.reject(new DOMException("full", "QuotaExceededError")) };
    const store = new Store(documentOf(someSetup()));
    const places = { database: full, copy: { put: async () => {} }, since: 0 };
    const autosave = new Autosave(store, { tab: shelf(), browser: shelf() }, null, places);
    store.setGap(1);
    await autosave.saved();
    expect(store.state.message).toBeNull();
  });
});
