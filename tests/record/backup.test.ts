import { createHash } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readDocument } from "../../src/app/state/keeping/readDocument.ts";
import { shownTrial } from "../../src/app/state/notes/trial.ts";
import { backupFileName, parseBackup, parseText, readBackup, writeBackup } from "../../src/record/backup.ts";
import { JOB_VERSION } from "../../src/record/job.ts";
import { DOCUMENT_VERSION } from "../../src/record/migrateDocument.ts";
import { RecordError } from "../../src/record/recordError.ts";
import { AT, someJob } from "./jobs.ts";

const refusal = (json: unknown): string => {
  try {
    readBackup(json, AT);
  } catch (error) {
    expect(error).toBeInstanceOf(RecordError);
    return (error as Error).message;
  }
  throw new Error("not refused");
};

describe("a backup", () => {
  test("comes back as it was", () => {
    const jobs = [someJob(), someJob({ status: "archived", revision: { a: 3, b: 1 } })];
    expect(readBackup(parseText(writeBackup(jobs, AT)), AT)).toEqual({ jobs, broken: [], damage: null });
    expect(backupFileName(AT)).toBe("annulus-backup-2026-03-01.json");
  });

  test("one job that cannot be read does not take the others with it", () => {
    const good = someJob();
    for (const [bad, reason] of [
      [{ ...good, status: "lost" }, 'status: not accepted; give "open" or "archived"'],
      [{ ...good, id: "../x" }, "id: not accepted; give 32 hexadecimal digits written as a UUID"],
      [{ ...good, title: 7 }, "title: not accepted; give text of at most 200 characters"],
      [
        { ...good, changed: "yesterday" },
        "changed: not accepted; give a date and time as 2026-01-31T12:00:00.000Z",
      ],
      [
        { ...good, revision: { here: 0 } },
        "revision: not accepted; give how many changes each browser made, by the browser's id",
      ],
      [{ ...good, revision: { "\ud800": 1 } }, /^revision: not accepted|broken text/],
      [{ ...good, more: 1 }, '"more": unknown here'],
      [{ ...good, document: undefined }, /^document: missing; give an annulus-document/],
      [null, "not a job of this program"],
      [{}, /^not a job of this program/],
    ] as const) {
      const file = {
        format: "annulus-backup",
        version: 1,
        made: AT,
        jobs: JSON.parse(JSON.stringify([good, bad, someJob()])),
      };
      const { jobs, broken } = readBackup(file, AT);
      expect(jobs).toHaveLength(2);
      expect(broken).toEqual([
        {
          reason: expect.stringMatching(
            reason instanceof RegExp ? reason : new RegExp(`^${reason.replace(/[.\\]/g, "\\$&")}$`),
          ),
          json: file.jobs[1],
        },
      ]);
    }
  });

  test("of a later version is no broken one: the page is to be loaded again, and nothing is taken in", () => {
    const file = JSON.parse(writeBackup([someJob(), someJob()], AT));
    const later = "made by a later version of this page; load the page again to get it";
    expect(refusal({ ...file, version: 3 })).toBe(later);
    expect(refusal({ ...file, jobs: [file.jobs[0], { ...file.jobs[1], version: JOB_VERSION + 1 }] })).toBe(
      later,
    );
    expect(refusal({ ...someJob(), version: JOB_VERSION + 1 })).toBe(later);
  });

  test("what is no backup is refused in one line", () => {
    const file = JSON.parse(writeBackup([], AT));
    expect(refusal({ ...file, jobs: 7 })).toBe("jobs: not accepted; give a list of jobs");
    expect(refusal({ ...file, version: 0 })).toBe("version: not accepted; give 1 or 2");
    expect(refusal({ format: file.format, version: 1, jobs: [] })).toMatch(/^made: missing; give a date/);
    for (const json of [null, 7, "x", [], {}, { format: "annulus-setup" }])
      expect(refusal(json)).not.toMatch(/\n/);
    expect(() => parseText('{"format":\n "annulus-backup",}')).toThrow(
      'not JSON: unexpected "}" at line 2, column 19',
    );
    expect(parseText("\uFEFF[]")).toEqual([]);
  });
});

describe("a damaged backup", () => {
  const jobs = ["Anna", "Ben", "Cleo"].map((title) => someJob({ title }));
  const text = writeBackup(jobs, AT);
  const read = (damaged: string) => {
    const { json, damage } = parseBackup(damaged);
    return readBackup(json, AT, damage);
  };

  test("is JSON all the same, with the checksums its description says", () => {
    const file = JSON.parse(text);
    const sorted = (json: object) =>
      JSON.stringify(Object.fromEntries(Object.entries(json).sort(([a], [b]) => (a < b ? -1 : 1))));
    const sha256 = (of: string) => createHash("sha256").update(of).digest("hex");
    expect(file.jobs).toHaveLength(3);
    for (const { sha256: own, document, revision, ...job } of file.jobs)
      expect(own).toBe(
        sha256(
          sorted({ ...job, document: JSON.parse(sorted(document)), revision: JSON.parse(sorted(revision)) }),
        ),
      );
    expect(file.sha256).toBe(sha256(JSON.stringify([AT, ...file.jobs.map((job: any) => job.sha256)])));
    expect(read(text)).toEqual({ jobs, broken: [], damage: null });
    // written anew by another program, it still is what it was
    expect(read(JSON.stringify(file, null, 2))).toEqual({ jobs, broken: [], damage: null });
  });

  test("one bit anywhere: nothing that was not written is taken in, and what is undamaged can be", () => {
    const bytes = new TextEncoder().encode(text);
    const originals = jobs.map((job) => JSON.stringify(job));
    const [head] = text.split("\n");
    fc.assert(
      fc.property(fc.nat(bytes.length - 4), fc.nat(7), (at, bit) => {
        const flipped = Uint8Array.from(bytes, (byte, i) => (i === at ? byte ^ (1 << bit) : byte));
        const damaged = new TextDecoder().decode(flipped);
        let backup: ReturnType<typeof read>;
        try {
          backup = read(damaged);
        } catch (error) {
          expect(error).toBeInstanceOf(RecordError);
          // a version that looks like a later one
          expect((error as Error).message).toMatch(/load the page again/);
          return;
        }
        expect(backup.damage).toBe("altered");
        for (const job of backup.jobs) expect(originals).toContain(JSON.stringify(job));
        expect(backup.jobs.length).toBeGreaterThanOrEqual(at < head.length ? 3 : 1);
        expect(backup.jobs.length + backup.broken.length).toBeGreaterThanOrEqual(2);
      }),
      { numRuns: 300 },
    );
  });

  test("a flipped digit of a gap is told, with the job's title", () => {
    const at = text.indexOf('"gapMm":2.5', text.indexOf("Ben"));
    const { jobs: rest, broken, damage } = read(`${text.slice(0, at)}"gapMm":2.4${text.slice(at + 11)}`);
    expect(rest.map(({ title }) => title)).toEqual(["Anna", "Cleo"]);
    expect(broken.map(({ reason }) => reason)).toEqual(["“Ben” is damaged: it is not as it was written"]);
    expect(damage).toBe("altered");
  });

  test("cut short anywhere is said to be, and every job before the cut is still there", () => {
    const ends = jobs.map(({ title }) => text.indexOf("\n", text.indexOf(title)));
    for (let at = 1; at < text.length - 2; at += 7) {
      const cut = text.slice(0, at);
      if (at < ends[0]) {
        expect(() => read(cut), cut).toThrow(/^cut short: the text ends too early at line [12]/);
        continue;
      }
      const { jobs: rest, damage } = read(cut);
      expect(damage).toBe("cut short");
      expect(rest.length).toBeGreaterThanOrEqual(ends.filter((end) => end < at).length);
      expect(jobs).toEqual(expect.arrayContaining([...rest]));
    }
    expect(() => parseBackup(writeBackup(jobs, AT).replaceAll("\n", "").slice(0, 900))).toThrow(/^cut short/);
  });

  test("a job taken out, put in twice or moved is told", () => {
    const file = JSON.parse(text);
    const [a, b, c] = file.jobs;
    for (const jobs of [[a, b], [a, b, c, c], [b, a, c], []])
      expect(readBackup({ ...file, jobs }, AT)).toMatchObject({ damage: "altered", broken: [] });
  });

  test("of the first version has no checksum and is read as before", () => {
    expect(readBackup({ format: "annulus-backup", version: 1, made: AT, jobs }, AT)).toEqual({
      jobs,
      broken: [],
      damage: null,
    });
  });
});

describe("jobs as every version kept them", () => {
  const folder = new URL("versions/", import.meta.url);
  const files = readdirSync(folder).sort();

  test("there is one of every version", () => {
    const versions = new Set(files.map((name) => Number(/^(\d+)-/.exec(name)![1])));
    expect([...versions].sort()).toEqual(Array.from({ length: JOB_VERSION }, (_, i) => i + 1));
  });

  test.each(files)("%s is read, with all that was in it, and is the same job each time", (name) => {
    const kept = JSON.parse(readFileSync(new URL(name, folder), "utf8"));
    const { jobs } = readBackup(kept, AT);
    expect(jobs).toHaveLength(1);
    const [job] = jobs;
    expect(job).toMatchObject({ version: JOB_VERSION, instrument: "Invented straight horn" });
    const document = kept.format === "annulus-document" ? kept : kept.document;
    const { trial, ...notes } = document.notes;
    expect(job.document).toMatchObject({ ...document, version: DOCUMENT_VERSION, notes });
    const read = readDocument(job.document);
    const trials = trial?.trials ?? (trial?.trial ? [trial.trial] : []);
    expect(trials).toHaveLength(name.includes("with-trial") ? 1 : /^[345]/.test(name) ? 2 : 0);
    expect(read.notes.trial.trials).toEqual(trials);
    expect(read.notes.listen.takes).toEqual(document.notes.listen?.takes ?? []);
    expect(read.notes.listen.takes).toHaveLength(/^[45]/.test(name) ? 2 : 0);
    expect(read.notes.resonances.takes).toEqual(document.notes.resonances?.takes ?? []);
    expect(read.notes.resonances.takes).toHaveLength(name.startsWith("5") ? 2 : 0);
    expect(shownTrial(read.notes.trial)).toEqual(trials[0] ?? null);
    expect(read.gapMm).toBe(3.1);
    expect(read.notes.measure.depth).toEqual(["24.54", "24.5"]);
    expect(readBackup(kept, "2031-01-01T00:00:00.000Z").jobs[0].id).toBe(job.id);
  });
});
