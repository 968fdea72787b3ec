import "fake-indexeddb/auto";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { Backups, type BackupsOptions, type Noted } from "../../../src/app/state/backups/backups.ts";
import {
  type Folder,
  folderFileNames,
  newestIn,
  writeInTurn,
} from "../../../src/app/state/backups/folderFiles.ts";
import { reminderOf } from "../../../src/app/state/backups/reminder.ts";
import { RecordDatabase } from "../../../src/app/state/record/database.ts";
import { JobRecord } from "../../../src/app/state/record/jobRecord.ts";
import { OpenJob } from "../../../src/app/state/record/openJob.ts";
import { documentOf, Store } from "../../../src/app/state/store.ts";
import { parseBackup, readBackup, writeBackup } from "../../../src/record/backup.ts";
import { AT, someJob } from "../../record/jobs.ts";
import { somePage } from "../page.ts";
import { someSetup } from "../someSetup.ts";

/** A folder on a disk, as a browser hands it out: what is written is there only once it is closed. */
class SomeFolder implements Folder {
  readonly name = "Backups";
  readonly files = new Map<string, string>();
  permission: PermissionState = "granted";
  /** What the next writing meets. */
  refusal: DOMException | null = null;
  isGone = false;
  isFlipping = false;
  asked = 0;
  writings = 0;

  async queryPermission() {
    return this.permission;
  }
  async requestPermission() {
    this.asked++;
    this.permission = "granted";
    return this.permission;
  }
  async getFileHandle(name: string, { create = false } = {}) {
    if (this.isGone || (!create && !this.files.has(name))) throw new DOMException("", "NotFoundError");
    if (!this.files.has(name)) this.files.set(name, "");
    return {
      getFile: async () => new Blob([this.files.get(name) ?? ""]),
      createWritable: async () => {
        if (this.permission !== "granted") throw new DOMException("", "NotAllowedError");
        let kept = "";
        return {
          write: async (text: string) => {
            kept = text.slice(0, 30);
            if (this.refusal) throw this.refusal;
            kept = this.isFlipping ? text.replace("a", "b") : text;
          },
          close: async () => {
            this.writings++;
            this.files.set(name, kept);
          },
          abort: async () => {},
        };
      },
    };
  }
  async removeEntry(name: string) {
    this.files.delete(name);
  }

  /** The titles in each file that is whole, the newest last. */
  titles(): string[][] {
    return [...this.files.values()]
      .filter((text) => text.endsWith("]}\n"))
      .sort((a, b) => (madeIn(a) < madeIn(b) ? -1 : 1))
      .map((text) => {
        const { json, damage } = parseBackup(text);
        expect(damage).toBeNull();
        return readBackup(json, AT)
          .jobs.map(({ title }) => title)
          .sort();
      });
  }
}
const madeIn = (text: string): string => JSON.parse(text).made;

const NAMES = folderFileNames("3f2a9c1e-0000-4000-8000-000000000000");
const backupOf = (title: string, made: string) => writeBackup([someJob({ title })], made);
const at = (second: number) => `2026-03-01T09:00:0${second}.000Z`;

describe("two files that take turns", () => {
  test("the newest and the one before are there; the older gives way", async () => {
    const folder = new SomeFolder();
    for (const i of [1, 2, 3, 4]) await writeInTurn(folder, NAMES, backupOf(`${i}`, at(i)));
    expect([...folder.files.keys()].sort()).toEqual([...NAMES]);
    expect(folder.titles()).toEqual([["3"], ["4"]]);
    expect(await newestIn(folder, NAMES)).toBe(at(4));
  });

  test.each(["cut short", "empty", "another file"])(
    "one that is %s gives way before the good one",
    async (how) => {
      const folder = new SomeFolder();
      for (const i of [1, 2]) await writeInTurn(folder, NAMES, backupOf(`${i}`, at(i)));
      const bad = { "cut short": backupOf("2", at(2)).slice(0, -3), empty: "", "another file": "{}" }[how]!;
      folder.files.set(NAMES[1], bad);
      expect(await newestIn(folder, NAMES)).toBe(at(1));
      await writeInTurn(folder, NAMES, backupOf("3", at(3)));
      expect(folder.titles()).toEqual([["1"], ["3"]]);
    },
  );

  test("a writing that fails, or reads otherwise, leaves the good ones", async () => {
    const folder = new SomeFolder();
    for (const i of [1, 2]) await writeInTurn(folder, NAMES, backupOf(`${i}`, at(i)));
    folder.refusal = new DOMException("", "QuotaExceededError");
    await expect(writeInTurn(folder, NAMES, backupOf("3", at(3)))).rejects.toThrow(DOMException);
    expect(folder.titles()).toEqual([["1"], ["2"]]);
    folder.refusal = null;
    folder.isFlipping = true;
    await expect(writeInTurn(folder, NAMES, backupOf("3", at(3)))).rejects.toThrow("reads otherwise");
    expect(folder.titles()).toEqual([["2"]]);
    folder.isFlipping = false;
    await writeInTurn(folder, NAMES, backupOf("4", at(4)));
    expect(folder.titles()).toEqual([["2"], ["4"]]);
  });
});

describe("a folder of the person's own", () => {
  let count = 0;
  let name: string;
  let folder: SomeFolder;
  let noted: Map<Noted["key"], Noted>;
  const opened: JobRecord[] = [];

  beforeEach(() => {
    name = `backups-${count++}`;
    folder = new SomeFolder();
    noted = new Map();
  });
  afterEach(() => {
    for (const record of opened.splice(0)) record.close();
    vi.useRealTimers();
  });

  async function tab(options: Partial<BackupsOptions> = {}) {
    const store = new Store(documentOf(someSetup()));
    const connect = async () => {
      const record = await JobRecord.open(new RecordDatabase(name));
      opened.push(record);
      return record;
    };
    const job = new OpenJob(store, connect, null, () => true);
    const shown = vi.fn();
    const backups = new Backups(store, {
      notes: {
        all: async () => [...noted.values()],
        put: async (one) => void noted.set(one.key, one),
        delete: async (key) => void noted.delete(key),
      },
      pick: async () => folder,
      alone: (act) => act(),
      showJobs: shown,
      restMs: 1,
      ...options,
    });
    await job.start(somePage());
    backups.start(job, somePage());
    await backups.look();
    return { store, job, backups, shown, record: job.value.record! };
  }
  const message = ({ store }: { store: Store }) => store.state.message;

  test("a backup is there after it was named and after every change, of whichever tab, and says which jobs", async () => {
    const first = await tab();
    expect(first.backups.value).toMatchObject({ canNameFolder: true, folder: null });
    await first.record.add({ title: "One", player: "", instrument: "", mouthpiece: "" }, {});
    await first.backups.nameFolder();
    expect(folder.titles()).toEqual([["One"]]);
    expect(first.backups.value).toMatchObject({ folder: "Backups", isBehind: false, trouble: null });
    const { id } = await first.record.add({ title: "Two", player: "", instrument: "", mouthpiece: "" }, {});
    await expect.poll(() => folder.titles()).toEqual([["One"], ["One", "Two"]]);
    await first.record.delete(id);
    await expect.poll(() => folder.titles()).toEqual([["One", "Two"], ["One"]]);
    await expect.poll(() => first.backups.value.isBehind).toBe(false);
    const { writings } = folder;
    await first.backups.look();
    const second = await tab();
    expect(second.backups.value).toMatchObject({
      folder: "Backups",
      isBehind: false,
      written: first.backups.value.written,
    });
    expect(folder.writings).toBe(writings);
    expect(message(first)).toBeNull();
  });

  test("leave that has lapsed is said once something changes, and asked for at a click", async () => {
    const first = await tab();
    await first.record.add({ title: "One", player: "", instrument: "", mouthpiece: "" }, {});
    await first.backups.nameFolder();
    folder.permission = "prompt";
    const later = await tab();
    expect(message(later)).toBeNull();
    await later.record.add({ title: "Two", player: "", instrument: "", mouthpiece: "" }, {});
    await expect.poll(() => later.backups.value.trouble).toBe("asks");
    expect(message(later)).toMatchObject({ kind: "error", offer: { label: "Allow" } });
    expect(message(later)!.text).toMatch(/permission again.*“Backups”.*not up to date/);
    expect(folder.asked).toBe(0);
    expect(folder.titles()).toEqual([["One"]]);
    message(later)!.offer!.accept();
    await expect.poll(() => folder.titles()).toEqual([["One"], ["One", "Two"]]);
    await expect.poll(() => later.backups.value.trouble).toBeNull();
  });

  test("a folder that is gone, a disk that is full: each is said once, and it goes on when it can", async () => {
    const here = await tab();
    await here.record.add({ title: "One", player: "", instrument: "", mouthpiece: "" }, {});
    await here.backups.nameFolder();
    folder.isGone = true;
    await here.backups.look();
    expect(here.backups.value).toMatchObject({ trouble: "gone", isBehind: true });
    expect(message(here)!.text).toMatch(/“Backups” is not there any more/);
    message(here)!.offer!.accept();
    expect(here.shown).toHaveBeenCalledOnce();
    here.store.clearMessage();
    await here.backups.look();
    expect(message(here)).toBeNull();
    folder.isGone = false;
    folder.refusal = new DOMException("", "QuotaExceededError");
    await here.record.add({ title: "Two", player: "", instrument: "", mouthpiece: "" }, {});
    await here.backups.look();
    expect(here.backups.value.trouble).toBe("full");
    expect(message(here)!.text).toMatch(/disk with the folder “Backups” is full/);
    expect(folder.titles()).toEqual([["One"]]);
    folder.refusal = null;
    await here.backups.look();
    expect(here.backups.value).toMatchObject({ trouble: null, isBehind: false });
    expect(folder.titles()).toEqual([["One"], ["One", "Two"]]);
  });

  test("a record that was lost and begun anew leaves the old one's backup alone, and one of nothing is not written", async () => {
    const here = await tab();
    await here.record.add({ title: "Lost", player: "", instrument: "", mouthpiece: "" }, {});
    await here.backups.nameFolder();
    name = `backups-${count++}`;
    const anew = await tab();
    expect(folder.titles()).toEqual([["Lost"]]);
    for (const title of ["A", "B", "C"]) {
      await anew.record.add({ title, player: "", instrument: "", mouthpiece: "" }, {});
      await anew.backups.look();
    }
    expect(folder.titles()).toContainEqual(["Lost"]);
    expect(folder.titles()).toContainEqual(["A", "B", "C"]);
  });

  test("stopped, nothing more is written; when it was is remembered", async () => {
    const here = await tab();
    await here.record.add({ title: "One", player: "", instrument: "", mouthpiece: "" }, {});
    await here.backups.nameFolder();
    const { written } = here.backups.value;
    await here.backups.stop();
    expect(here.backups.value).toMatchObject({ folder: null, made: written, written: null, isBehind: false });
    await here.record.add({ title: "Two", player: "", instrument: "", mouthpiece: "" }, {});
    await here.backups.look();
    expect(folder.titles()).toEqual([["One"]]);
  });

  test("a record that is taken away is no trouble of the folder's", async () => {
    const here = await tab();
    await here.record.add({ title: "One", player: "", instrument: "", mouthpiece: "" }, {});
    await here.backups.nameFolder();
    here.record.close();
    await here.backups.look();
    expect(here.backups.value.trouble).toBeNull();
    expect(message(here)).toBeNull();
  });

  test("a folder that cannot be remembered is said to be", async () => {
    const refused = new DOMException("", "QuotaExceededError");
    const here = await tab({
      notes: { all: async () => [], put: () => Promise.reject(refused), delete: async () => {} },
    });
    await here.backups.nameFolder();
    expect(message(here)).toMatchObject({
      kind: "error",
      text: expect.stringMatching(/cannot be remembered.*full/),
    });
  });

  test("who gives the dialog up has named none", async () => {
    const here = await tab({ pick: () => Promise.reject(new DOMException("", "AbortError")) });
    await here.backups.nameFolder();
    expect(here.backups.value.folder).toBeNull();
    expect(message(here)).toBeNull();
  });

  test("without such folders one is reminded once a week, and never over another message", async () => {
    vi.useFakeTimers({ toFake: ["Date"], now: Date.parse("2026-03-01T09:00:00Z") });
    const first = await tab({ pick: null });
    await first.record.add({ title: "One", player: "", instrument: "", mouthpiece: "" }, {});
    vi.setSystemTime(Date.parse("2026-03-09T09:00:00Z"));
    first.store.say("error", "Something else.");
    await first.backups.look();
    expect(message(first)!.text).toBe("Something else.");
    const busy = await tab({ pick: null });
    expect(busy.backups.value.canNameFolder).toBe(false);
    expect(message(busy)).toMatchObject({ kind: "note", offer: { label: "Make a backup" } });
    expect(message(busy)!.text).toBe("No backup has been made here yet, and your oldest job is 8 days old.");
    message(busy)!.offer!.accept();
    expect(busy.shown).toHaveBeenCalledOnce();
    expect(message(await tab({ pick: null }))).toBeNull();
    await busy.backups.noteMade("2026-03-09T10:00:00Z");
    expect(busy.backups.value.made).toBe("2026-03-09T10:00:00Z");
    await busy.record.rename((await busy.record.rows())[0].id, { title: "Changed" });
    vi.setSystemTime(Date.parse("2026-03-20T11:00:00Z"));
    expect(message(await tab({ pick: null }))).toBeNull();
    await busy.record.rename((await busy.record.rows())[0].id, { title: "Changed again" });
    expect(message(await tab({ pick: null }))!.text).toBe(
      "The last backup made here is 11 days old, and a job has changed since.",
    );
  });
});

describe("a reminder", () => {
  const row = (created: string, changed = created, deleted: string | null = null) => ({
    created,
    changed,
    deleted,
  });
  const now = Date.parse("2026-03-20T00:00:00Z");

  test.each([
    ["young jobs, no backup", [row("2026-03-19T00:00:00Z")], null, null, null],
    ["an old job, no backup", [row("2026-03-01T00:00:00Z")], null, null, { changed: 1, days: 19 }],
    ["deleted ones do not count", [row("2026-03-01T00:00:00Z", undefined, "x")], null, null, null],
    ["an old backup, nothing changed", [row("2026-03-01T00:00:00Z")], "2026-03-02T00:00:00Z", null, null],
    [
      "an old backup, changed since",
      [row("2026-03-01T00:00:00Z", "2026-03-19T00:00:00Z"), row("2026-03-01T00:00:00Z")],
      "2026-03-02T00:00:00Z",
      null,
      { changed: 1, days: 18 },
    ],
    [
      "a young backup",
      [row("2026-03-01T00:00:00Z", "2026-03-19T00:00:00Z")],
      "2026-03-15T00:00:00Z",
      null,
      null,
    ],
    ["reminded of late", [row("2026-03-01T00:00:00Z")], null, "2026-03-14T00:00:00Z", null],
    [
      "reminded of long ago",
      [row("2026-03-01T00:00:00Z")],
      null,
      "2026-03-12T00:00:00Z",
      { changed: 1, days: 19 },
    ],
  ])("%s", (_, rows, made, reminded, expected) => {
    expect(reminderOf(rows, made, reminded, now)).toEqual(expected);
  });
});
