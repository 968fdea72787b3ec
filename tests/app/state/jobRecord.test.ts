import "fake-indexeddb/auto";
import { readdirSync, readFileSync } from "node:fs";
import Dexie from "dexie";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { readDocument } from "../../../src/app/state/keeping/readDocument.ts";
import { RecordDatabase, split } from "../../../src/app/state/record/database.ts";
import { JobRecord, type Listing } from "../../../src/app/state/record/jobRecord.ts";
import { readBackup } from "../../../src/record/backup.ts";
import { JOB_VERSION, type Job } from "../../../src/record/job.ts";
import { DOCUMENT_VERSION } from "../../../src/record/migrateDocument.ts";
import { AT, someJob } from "../../record/jobs.ts";

const TEXTS = { title: "Leadpipe", player: "Heron", instrument: "No. 7", mouthpiece: "" };
const BACKUP = { format: "annulus-backup", version: 1, made: AT };
/** Of a file with this gap; the slider stands elsewhere, which no list tells. */
const withGap = (gapMm: number) => ({
  format: "annulus-document",
  version: 1,
  setup: { units: "mm", receiver: { depth: 24.5 }, mouthpiece: { insertion: 24.5 - gapMm } },
  gapMm: 7.5,
});
const DOCUMENT = withGap(2.5);

let name: string;
const opened: JobRecord[] = [];
const open = async (): Promise<JobRecord> => {
  const record = await JobRecord.open(new RecordDatabase(name));
  opened.push(record);
  return record;
};
/** Raw access, as nobody but a test or a fault has it. */
const tampering = async (act: (database: RecordDatabase) => Promise<unknown>): Promise<void> => {
  const database = new RecordDatabase(name);
  await act(database);
  database.close();
};
const listing = (record: JobRecord): Promise<Listing> =>
  new Promise((done, failed) => {
    const leave = record.watch((all) => {
      done(all);
      queueMicrotask(() => leave());
    }, failed);
  });

let count = 0;
beforeEach(() => {
  name = `annulus-${count++}`;
});
afterEach(() => {
  vi.useRealTimers();
  for (const record of opened.splice(0)) record.close();
});

describe("the record", () => {
  test("an instrument's name that nobody typed goes with the setup's, one that was typed stays", async () => {
    const named = (setupName: string) => ({ ...DOCUMENT, setup: { ...DOCUMENT.setup, name: setupName } });
    const record = await open();
    const instrument = async (id: string) => (await record.get(id))!.row.instrument;
    const job = await record.add({ ...TEXTS, instrument: "No. 7" }, named("No. 7"));
    await record.write(job.id, job.revision, named("No. 8"));
    expect(await instrument(job.id)).toBe("No. 8");
    await record.rename(job.id, { instrument: "Its own" });
    const { revision } = (await record.get(job.id))!.row;
    await record.write(job.id, revision, named("No. 9"));
    expect(await instrument(job.id)).toBe("Its own");
  });

  test("lists a job without what it holds, and gives that back as it was", async () => {
    const record = await open();
    const job = await record.add(TEXTS, DOCUMENT);
    const { rows, deleted, unreadable } = await listing(record);
    expect(rows).toMatchObject([{ ...TEXTS, id: job.id, gapMm: 2.5, holds: [], status: "open" }]);
    expect(rows[0]).not.toHaveProperty("document");
    expect([deleted, unreadable]).toEqual([[], 0]);
    expect(await record.all()).toEqual([job]);
    expect((await record.get(job.id))!.document).toEqual(DOCUMENT);
  });

  test("does not write over what has moved on, and says what is gone", async () => {
    const record = await open();
    const { id, revision } = await record.add(TEXTS, DOCUMENT);
    const written = await record.write(id, revision, withGap(3));
    expect(written).toHaveProperty("revision");
    expect(await record.write(id, revision, withGap(4))).toBe("moved on");
    expect((await record.get(id))!.row.gapMm).toBe(3);
    expect(await record.write("x", revision, DOCUMENT)).toBe("gone");
  });

  test("renames, archives, duplicates", async () => {
    const record = await open();
    const { id } = await record.add(TEXTS, DOCUMENT);
    await record.rename(id, { player: "Wren", title: "y".repeat(300) });
    await record.setStatus(id, "archived");
    expect((await record.get(id))!.row).toMatchObject({
      player: "Wren",
      status: "archived",
      instrument: "No. 7",
    });
    const copy = (await record.duplicate(id))!;
    expect(copy).toMatchObject({ player: "Wren", status: "open", document: DOCUMENT });
    expect(copy.title).toMatch(/^y{190,} \(copy\)$/);
    expect(copy.id).not.toBe(id);
  });

  test("brings a deleted job back, and lets it go a day later", async () => {
    const record = await open();
    const { id } = await record.add(TEXTS, DOCUMENT);
    await record.delete(id);
    expect(await listing(record)).toMatchObject({ rows: [], deleted: [{ id }] });
    expect(await record.all()).toEqual([]);
    await record.bringBack(id);
    expect(await listing(record)).toMatchObject({ rows: [{ id }], deleted: [] });
    await record.delete(id);
    await open();
    expect(await record.get(id)).toBeDefined();
    vi.useFakeTimers({ now: Date.now() + 25 * 3600 * 1000, toFake: ["Date"] });
    await open();
    expect(await record.get(id)).toBeUndefined();
    await tampering(async ({ documents }) => expect(await documents.count()).toBe(0));
  });

  test("restores all of a backup or nothing, and what was deleted comes back", async () => {
    const record = await open();
    const job = await record.add(TEXTS, DOCUMENT);
    const other = someJob();
    await record.delete(job.id);
    expect(await record.restore([job, other])).toEqual(["added", "added"]);
    expect((await record.all()).map(({ id }) => id).sort()).toEqual([job.id, other.id].sort());
    expect(await record.restore([job, other])).toEqual(["same", "same"]);
    const uncloneable = someJob({ document: { act: () => {} } });
    await expect(record.restore([someJob(), uncloneable])).rejects.toThrow();
    expect(await record.all()).toHaveLength(2);
  });

  test("a job deleted here comes back as the backup has it, what it was here stays among the deleted", async () => {
    const record = await open();
    const job = await record.add(TEXTS, DOCUMENT);
    const written = await record.write(job.id, job.revision, withGap(3));
    expect(written).toHaveProperty("revision");
    await record.delete(job.id);
    // the backup is older than what was deleted
    expect((await record.compare([job])).map(({ standing }) => standing)).toEqual(["new"]);
    expect(await record.restore([job])).toEqual(["added"]);
    const back = (await record.get(job.id))!;
    expect(back).toMatchObject({ row: { ...TEXTS, deleted: null, gapMm: 2.5 }, document: DOCUMENT });
    const { rows, deleted } = await listing(record);
    expect(rows.map(({ id }) => id)).toEqual([job.id]);
    expect(deleted).toMatchObject([{ title: "Leadpipe (before the backup)", gapMm: 3 }]);
    // left out, it stays deleted
    await record.delete(job.id);
    expect(await record.restore([job], () => {}, undefined, ["skip"])).toEqual(["left out"]);
    expect((await listing(record)).rows).toEqual([]);
  });

  test("replaced by the backup's, an open job moves on, and what was here can be brought back", async () => {
    const record = await open();
    const job = await record.add(TEXTS, DOCUMENT);
    const written = await record.write(job.id, job.revision, withGap(3));
    if (typeof written === "string") throw new Error(written);
    const [{ standing, changed }] = await record.compare([job]);
    expect(standing).toBe("older");
    expect(changed! >= job.changed).toBe(true);
    expect(await record.restore([job], () => {}, undefined, ["take"])).toEqual(["replaced"]);
    expect((await record.get(job.id))!.row.gapMm).toBe(2.5);
    expect(await record.write(job.id, written.revision, DOCUMENT)).toBe("moved on");
    const { deleted } = await listing(record);
    await record.bringBack(deleted[0].id);
    expect((await listing(record)).rows.map(({ gapMm }) => gapMm).sort()).toEqual([2.5, 3]);
    expect(await record.restore([job], () => {}, undefined, ["keep both"])).toEqual(["same"]);
  });

  test("what cannot be read is not lost to a backup's job of the same id", async () => {
    const record = await open();
    const job = await record.add(TEXTS, DOCUMENT);
    await tampering(({ jobs }) => jobs.put({ id: job.id, title: 7 } as never));
    expect(await record.restore([job])).toEqual(["added"]);
    expect(await record.unreadable()).toMatchObject([{ json: { id: job.id, title: 7 } }]);
    expect((await record.all()).map(({ title }) => title)).toEqual(["Leadpipe"]);
  });

  test("tells how far it is with many, and once stopped has taken in none", async () => {
    const record = await open();
    const many = Array.from({ length: 70 }, () => someJob());
    const stop = new AbortController();
    const told: number[] = [];
    const stopped = record.restore(
      many,
      ({ done, of }) => {
        told.push(done / of);
        if (done >= of / 2) stop.abort();
      },
      stop.signal,
    );
    expect(await stopped).toBeNull();
    expect(told.length).toBeGreaterThan(1);
    expect(told.at(-1)).toBeLessThan(1);
    expect(await record.all()).toEqual([]);
    // the same job twice, far apart in one file
    const newer = { ...many[0], title: "Newer", revision: { here: 2 } };
    const outcomes = await record.restore([...many, newer], ({ done, of }) => told.push(done / of));
    expect(outcomes).toEqual([...many.map(() => "added"), "updated"]);
    expect(told.at(-1)).toBe(1);
    expect((await record.get(many[0].id))!.row.title).toBe("Newer");
    expect(await record.all()).toHaveLength(70);
  });

  test("keeps and hands over what it cannot read, and lists the rest", async () => {
    const record = await open();
    const good = await record.add(TEXTS, DOCUMENT);
    await tampering(({ jobs }) => jobs.put({ id: "bad", title: 7 } as never));
    const { rows, unreadable } = await listing(record);
    expect([rows.map(({ id }) => id), unreadable]).toEqual([[good.id], 1]);
    expect(await record.unreadable()).toMatchObject([{ json: { id: "bad", title: 7 } }]);
    expect(await record.write("bad", {}, DOCUMENT)).toBe("moved on");
    await tampering(async ({ jobs }) => expect(await jobs.get("bad")).toEqual({ id: "bad", title: 7 }));
  });

  test("takes a job of a later version of the page for what it is, and leaves it alone", async () => {
    const record = await open();
    const later = { ...(await record.add(TEXTS, DOCUMENT)), version: JOB_VERSION + 1 };
    await tampering(({ jobs }) => jobs.update(later.id, { version: JOB_VERSION + 1 } as never));
    expect(await listing(record)).toMatchObject({ rows: [], later: 1, unreadable: 0 });
    expect((await record.unreadable())[0].reason).toMatch(/load the page again/);
    await record.rename(later.id, { title: "spoilt" });
    await record.setStatus(later.id, "archived");
    await tampering(async ({ jobs }) =>
      expect(await jobs.get(later.id)).toMatchObject({
        version: JOB_VERSION + 1,
        title: "Leadpipe",
        status: "open",
      }),
    );
  });

  test("counts the changes of this browser as one browser's, over visits", async () => {
    const [first, second] = [await open(), await open()];
    const a = await first.add(TEXTS, DOCUMENT);
    const b = await second.add(TEXTS, DOCUMENT);
    expect(Object.keys(a.revision)).toEqual(Object.keys(b.revision));
  });
});

describe("a database of an earlier version", () => {
  const folder = new URL("../../record/versions/", import.meta.url);
  const earlier = readdirSync(folder)
    .filter((file) => file.startsWith("1-"))
    .map((file) => JSON.parse(readFileSync(new URL(file, folder), "utf8")));

  test("1: bare documents become jobs, what cannot be read is kept beside", async () => {
    const old = new Dexie(name);
    old.version(1).stores({ kept: "++" });
    await old.table("kept").bulkAdd([...earlier, { spoilt: true }]);
    old.close();

    const record = await open();
    const jobs = await record.all();
    // the same document twice, bare and beside a view, is one job
    expect(jobs).toMatchObject([
      {
        version: JOB_VERSION,
        title: "Invented straight horn",
        document: { ...earlier[1], version: DOCUMENT_VERSION },
      },
    ]);
    expect(await record.unreadable()).toMatchObject(
      [{ json: { spoilt: true }, reason: /not a job/ }].map(({ json, reason }) => ({
        json,
        reason: expect.stringMatching(reason),
      })),
    );
    // as its readings give it, (24.54 + 24.5) / 2 − 22; the slider stood at 3.1
    expect((await listing(record)).rows).toMatchObject([{ holds: ["measured"] }]);
    expect((await listing(record)).rows[0].gapMm).toBeCloseTo(2.52, 9);
    expect(AT < jobs[0].changed).toBe(true);
  });

  test("2: jobs are as they were, each with its trial among the trials", async () => {
    const jobs = readdirSync(folder)
      .filter((file) => file.startsWith("2-"))
      .map((file) => JSON.parse(readFileSync(new URL(file, folder), "utf8")));
    const old = new Dexie(name);
    old.version(2).stores({ jobs: "id", documents: "id", unreadable: "++", about: "name" });
    for (const job of jobs) {
      const { row, kept } = split(job);
      await old.table("jobs").add(row);
      await old.table("documents").add(kept);
    }
    old.close();

    const kept = await (await open()).all();
    const byId = (a: Job, b: Job) => (a.id < b.id ? -1 : 1);
    expect(jobs).toHaveLength(2);
    expect(kept.sort(byId)).toEqual(readBackup({ ...BACKUP, jobs }, AT).jobs.toSorted(byId));
    const trials = kept.map(({ document }) => readDocument(document).notes.trial.trials);
    expect(trials.map(({ length }) => length).sort()).toEqual([0, 1]);
  });

  test("3: jobs are as they were, listed by the gap measured and not by where the slider stood", async () => {
    const [job] = readdirSync(folder)
      .filter((file) => file.startsWith("3-"))
      .map((file) => JSON.parse(readFileSync(new URL(file, folder), "utf8")));
    const ofFile: Job = { ...job, id: "9a1b2c3d-4e5f-4a6b-8c7d-9e0f1a2b3c4d", document: withGap(2.5) };
    const broken: Job = { ...job, id: "7a1b2c3d-4e5f-4a6b-8c7d-9e0f1a2b3c4d", document: "none" };
    const jobs = [broken, job, ofFile];
    const old = new Dexie(name);
    old.version(3).stores({ jobs: "id", documents: "id", unreadable: "++", about: "name" });
    for (const one of jobs) {
      const { row, kept } = split(one);
      await old.table("jobs").add({ ...row, gapMm: one.document.gapMm ?? null, holds: [] });
      await old.table("documents").add(kept);
    }
    expect((await old.table("jobs").toArray()).map(({ gapMm }) => gapMm)).toEqual([
      null,
      job.document.gapMm,
      7.5,
    ]);
    old.close();

    const record = await open();
    const present = ({ document, ...job }: Job) => ({
      ...job,
      version: JOB_VERSION,
      document: document === "none" ? document : { ...(document as object), version: DOCUMENT_VERSION },
    });
    expect(await record.all()).toEqual(jobs.map(present));
    const { rows } = await listing(record);
    const gaps = new Map(rows.map(({ id, gapMm }) => [id, gapMm]));
    expect(jobs.map(({ id }) => gaps.get(id))).toEqual([null, split(job).row.gapMm, 2.5]);
    expect(split(job).row.gapMm).not.toBe(job.document.gapMm);
    expect(rows.find(({ id }) => id === job.id)!.holds).toEqual(split(job).row.holds);
  });

  test("an earlier page of the same format still opens it", async () => {
    const record = await open();
    const job = await record.add(TEXTS, DOCUMENT);
    record.close();
    const earlier = new Dexie(name);
    earlier.version(JOB_VERSION).stores({ jobs: "id", documents: "id", unreadable: "++", about: "name" });
    expect(await earlier.table("jobs").get(job.id)).toMatchObject(TEXTS);
    earlier.close();
  });
});
