import "fake-indexeddb/auto";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { Autosave } from "../../../src/app/state/keeping/autosave.ts";
import { writeDocument } from "../../../src/app/state/keeping/documentFile.ts";
import { restore } from "../../../src/app/state/keeping/restored.ts";
import type { Shelf } from "../../../src/app/state/keeping/shelves.ts";
import { RecordDatabase } from "../../../src/app/state/record/database.ts";
import { JobRecord } from "../../../src/app/state/record/jobRecord.ts";
import { OpenJob } from "../../../src/app/state/record/openJob.ts";
import { documentOf, Store } from "../../../src/app/state/store.ts";
import { somePage } from "../page.ts";
import { flawedSetup, someSetup } from "../someSetup.ts";

let name: string;
let count = 0;
const opened: JobRecord[] = [];

function shelf(): Shelf {
  const kept = new Map<string, string>();
  return {
    getItem: (key) => kept.get(key) ?? null,
    setItem: (key, text) => void kept.set(key, text),
    removeItem: (key) => void kept.delete(key),
  };
}

/** A tab, as the page puts it together; on what its shelf holds, as after a reload. */
async function tab(own: Shelf = shelf(), connect: () => Promise<JobRecord> = connected) {
  const { document, mark } = restore({ tab: own, browser: null });
  const store = new Store(document ?? documentOf(someSetup({ name: "As it comes" })));
  const job = new OpenJob(store, connect, mark, ({ setup }) => setup.name === "As it comes");
  const autosave = new Autosave(store, { tab: own, browser: null }, job);
  autosave.start(somePage());
  await job.start(somePage());
  return { store, job, shelf: own, autosave };
}

async function connected(): Promise<JobRecord> {
  const record = await JobRecord.open(new RecordDatabase(name));
  opened.push(record);
  return record;
}
/** In turns of the event loop: a busy machine gets through few of them in any time. */
async function settled(): Promise<void> {
  for (let turn = 0; turn < 40; turn++) await new Promise((done) => setTimeout(done, 4));
}
/** By title: two can be made within one millisecond. */
const kept = async () => (await (await connected()).all()).sort((a, b) => (a.title < b.title ? -1 : 1));
const gaps = async () => (await kept()).map(({ document }) => (document as { gapMm: number }).gapMm);

beforeEach(() => {
  name = `open-${count++}`;
});
afterEach(() => {
  for (const record of opened.splice(0)) record.close();
});

describe("what is open", () => {
  test("is no job until it is kept; then every change is in the record", async () => {
    const { store, job } = await tab();
    store.setGap(1);
    await job.flush();
    expect(await kept()).toEqual([]);
    expect(job.mark).toBeNull();
    expect(await job.keep({ player: "Heron" })).toBe(true);
    store.setGap(1.5);
    await job.flush();
    expect(await kept()).toMatchObject([{ player: "Heron", title: "As it comes", document: { gapMm: 1.5 } }]);
    store.undo();
    await job.flush();
    expect(await gaps()).toEqual([1]);
    expect(job.mark).toMatchObject({ unsaved: false });
  });

  test("asked for twice is kept once", async () => {
    const { job } = await tab();
    await Promise.all([job.keep(), job.keep()]);
    expect(await kept()).toHaveLength(1);
  });

  test("is kept before another takes its place, unless it is as every visit begins", async () => {
    const { store, job } = await tab();
    expect(await job.begin(documentOf(someSetup({ name: "A" })))).toBe(true);
    expect((await kept()).map(({ title }) => title)).toEqual(["A"]);
    store.open(documentOf(someSetup({ name: "From a file" })));
    await settled();
    expect(job.value.row).toBeNull();
    const [a] = await kept();
    expect(await job.open(a.id)).toBe(true);
    expect((await kept()).map(({ title }) => title).sort()).toEqual(["A", "From a file"]);
    expect(store.state.document.setup.name).toBe("A");
  });

  test("the browser is asked once a visit to keep what is kept, and what it answers is known", async () => {
    const storage = { persisted: vi.fn(async () => false), persist: vi.fn(async () => true) };
    vi.stubGlobal("navigator", { storage });
    try {
      const { job } = await tab();
      await settled();
      expect(job.value.isPersisted).toBe(false);
      expect(storage.persist).not.toHaveBeenCalled();
      await job.keep();
      await job.begin(documentOf(someSetup({ name: "A" })));
      await job.begin(documentOf(someSetup({ name: "B" })));
      await settled();
      expect(storage.persist).toHaveBeenCalledOnce();
      expect(job.value.isPersisted).toBe(true);
      storage.persisted.mockResolvedValue(true);
      const later = await tab();
      await settled();
      await later.job.keep();
      expect(storage.persist).toHaveBeenCalledOnce();
      expect(later.job.value.isPersisted).toBe(true);
    } finally {
      vi.unstubAllGlobals();
    }
  });

  test("a job that was kept when the limits were wider still opens, and what is wrong is said", async () => {
    const { store, job } = await tab();
    const texts = { title: "From before", player: "", instrument: "", mouthpiece: "" };
    const { id } = await job.value.record!.add(texts, writeDocument(documentOf(flawedSetup())));
    expect(await job.open(id)).toBe(true);
    expect(store.state.document.setup.receiver.depthMm).toBe(245.4);
    expect(store.state.message).toMatchObject({
      kind: "error",
      text: expect.stringMatching(
        /“From before” is open, but .*receiver\.depth: a depth of 245\.4 mm cannot be.*corrected under Edit/,
      ),
    });
    const again = await tab();
    await again.job.open(id);
    again.store.setNotes("sheet", { ...again.store.state.document.notes.sheet });
    await again.job.flush();
    expect(again.store.state.document.setup).toEqual(store.state.document.setup);
  });

  test("undo goes back into the job of before, and the record with it", async () => {
    const { store, job } = await tab();
    await job.begin(documentOf(someSetup({ name: "A" })));
    store.setGap(1);
    await job.begin(documentOf(someSetup({ name: "B" })));
    store.setGap(2);
    await job.flush();
    expect(await gaps()).toEqual([1, 2]);
    store.undo();
    store.undo();
    expect(store.state.document).toMatchObject({ setup: { name: "A" }, gapMm: 1 });
    await expect.poll(() => job.value.row).toMatchObject({ title: "A" });
    store.setGap(0.5);
    await job.flush();
    const all = await kept();
    expect(all.map(({ title }) => title)).toEqual(["A", "B"]);
    expect((await gaps())[0]).toBe(0.5);
  });

  test("comes back after a crash that the record did not see coming", async () => {
    const first = await tab();
    await first.job.keep();
    first.store.setGap(1.25);
    first.autosave.save();
    // no flush, no goodbye
    const again = await tab(first.shelf);
    await settled();
    expect(again.store.state.document.gapMm).toBe(1.25);
    expect(await gaps()).toEqual([1.25]);
    expect(again.store.state.message).toBeNull();
  });

  test("comes back after a crash between the record's write and the shelf's note of it", async () => {
    const first = await tab();
    await first.job.keep();
    first.store.setGap(1.25);
    first.autosave.save();
    const frozen = first.shelf.getItem("annulus-autosave")!;
    await first.job.flush();
    const own = shelf();
    own.setItem("annulus-autosave", frozen);
    const again = await tab(own);
    await settled();
    expect(again.job.mark).toMatchObject({ unsaved: false });
    expect(await gaps()).toEqual([1.25]);
  });

  test("stays on the sheet when its job is gone, and can be kept again", async () => {
    const { store, job } = await tab();
    await job.keep();
    const [{ id }] = await kept();
    const database = new RecordDatabase(name);
    await database.jobs.delete(id);
    await settled();
    expect(store.state.document.job).toBeUndefined();
    expect(store.state.message?.text).toMatch(/not in the record any more/);
    store.state.message!.offer!.accept();
    await settled();
    expect(store.state.document.job).toBeDefined();
    database.close();
  });
});

describe("two tabs with one job", () => {
  /** Both on the same job at gap 1. */
  async function two() {
    const a = await tab();
    a.store.setGap(1);
    await a.job.keep({ title: "Shared" });
    a.autosave.save();
    const own = shelf();
    own.setItem("annulus-autosave", a.shelf.getItem("annulus-autosave")!);
    const b = await tab(own);
    await settled();
    return { a, b };
  }

  test("the one that has nothing of its own follows", async () => {
    const { a, b } = await two();
    a.store.setGap(1.5);
    await a.job.flush();
    await settled();
    expect(b.store.state.document.gapMm).toBe(1.5);
    expect(b.store.state.canUndo).toBe(false);
    b.store.setGap(0.5);
    await b.job.flush();
    await settled();
    expect(a.store.state.document.gapMm).toBe(0.5);
    expect(await gaps()).toEqual([0.5]);
    expect([a, b].map(({ store }) => store.state.message)).toEqual([null, null]);
  });

  test("where both have changed it both are kept, and it is said", async () => {
    const { a, b } = await two();
    a.store.setGap(1.5);
    b.store.setGap(0.5);
    await Promise.all([a.job.flush(), b.job.flush()]);
    await settled();
    const all = await kept();
    expect(all.map(({ title }) => title)).toEqual(["Shared", "Shared (from this tab)"]);
    expect((await gaps()).sort()).toEqual([0.5, 1.5]);
    expect([a, b].map(({ store }) => store.state.document.gapMm)).toEqual([1.5, 0.5]);
    const told = [a, b].filter(({ store }) => store.state.message?.text.includes("Both are kept"));
    expect(told).toHaveLength(1);
    // each goes on in its own
    a.store.setGap(1.6);
    b.store.setGap(0.6);
    await Promise.all([a.job.flush(), b.job.flush()]);
    expect((await gaps()).sort()).toEqual([0.6, 1.6]);
    told[0].store.state.message!.offer!.accept();
    await settled();
    expect(a.store.state.document.gapMm).toBe(b.store.state.document.gapMm);
  });

  test("a full disk at that moment leaves this tab's work unsaved and marked so, not lost", async () => {
    const { a, b } = await two();
    const record = b.job.value.record!;
    const add = record.add.bind(record);
    record.add = () => Promise.reject(new DOMException("full", "QuotaExceededError"));
    a.store.setGap(1.5);
    b.store.setGap(0.5);
    await a.job.flush();
    await b.job.flush();
    await settled();
    expect(b.store.state.document.gapMm).toBe(0.5);
    expect(b.job.mark).toMatchObject({ unsaved: true });
    expect(b.store.state.message?.text).toMatch(/storage is full.*in this tab only/);
    record.add = add;
    b.store.setGap(0.6);
    await b.job.flush();
    expect((await gaps()).sort()).toEqual([0.6, 1.5]);
  });

  test("a new title in one is no quarrel with work in the other", async () => {
    const { a, b } = await two();
    b.store.setGap(0.5);
    await a.job.value.record!.rename(a.store.state.document.job!, { title: "Renamed" });
    await b.job.flush();
    await settled();
    expect(await kept()).toMatchObject([{ title: "Renamed", document: { gapMm: 0.5 } }]);
    expect(a.store.state.document.gapMm).toBe(0.5);
  });
});

describe("a browser that keeps nothing", () => {
  test("refused: said where jobs are, and what is open goes on as before", async () => {
    const { store, job } = await tab(shelf(), () =>
      Promise.reject(new DOMException("denied", "SecurityError")),
    );
    expect(job.value.refusal).toMatch(/does not let the page keep jobs/);
    store.setGap(1);
    expect(await job.keep()).toBe(false);
    expect(store.state.document.gapMm).toBe(1);
    expect(store.state.message).toBeNull();
  });

  test("full: said once, nothing is left behind, and it is kept when there is room again", async () => {
    const { store, job } = await tab();
    await job.keep();
    const other = await job.value.record!.add({ title: "B", player: "", instrument: "", mouthpiece: "" }, {});
    const record = job.value.record!;
    const write = record.write.bind(record);
    const full = new DOMException("full", "QuotaExceededError");
    record.write = () =>
      Promise.reject(Object.assign(new Error("wrapped"), { name: "AbortError", inner: full }));
    store.setGap(1);
    await job.flush();
    expect(store.state.message).toMatchObject({
      kind: "error",
      text: expect.stringMatching(/^This browser's storage is full\..*save it as a file/),
      offer: { label: "Save it as a file" },
    });
    store.clearMessage();
    store.setGap(1.1);
    await job.flush();
    expect(store.state.message).toBeNull();
    expect(await job.open(other.id)).toBe(false);
    expect(store.state.document.gapMm).toBe(1.1);
    expect(job.mark).toMatchObject({ unsaved: true });
    record.write = write;
    store.setGap(1.2);
    await job.flush();
    expect(job.value.trouble).toBeNull();
    expect((await gaps())[0]).toBe(1.2);
  });

  test("a job that cannot be opened stays in the record, and what is open stays open", async () => {
    const { store, job } = await tab();
    const broken = await job.value.record!.add(
      { title: "B", player: "", instrument: "", mouthpiece: "" },
      { x: 1 },
    );
    expect(await job.open(broken.id)).toBe(false);
    expect(store.state.message).toMatchObject({
      text: expect.stringMatching(/^“B” cannot be opened: .*It stays in the record\.$/),
      offer: { label: "Save it as a file" },
    });
    expect(store.state.document.setup.name).toBe("As it comes");
    expect(await kept()).toHaveLength(1);
  });
});
