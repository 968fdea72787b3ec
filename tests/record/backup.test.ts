import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { readDocument } from "../../src/app/state/keeping/documentFile.ts";
import { backupFileName, parseText, readBackup, writeBackup } from "../../src/record/backup.ts";
import { JOB_VERSION } from "../../src/record/job.ts";
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
    expect(readBackup(parseText(writeBackup(jobs, AT)), AT)).toEqual({ jobs, broken: [] });
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
      [{ ...good, version: 3 }, /^made by a later version of this page/],
      [null, "not a job of this program"],
      [{}, /^not a job of this program/],
    ] as const) {
      const file = JSON.parse(writeBackup([good, bad as never, someJob()], AT));
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

  test("what is no backup is refused in one line", () => {
    const file = JSON.parse(writeBackup([], AT));
    expect(refusal({ ...file, jobs: 7 })).toBe("jobs: not accepted; give a list of jobs");
    expect(refusal({ ...file, version: 9 })).toBe("version: not accepted; give 1");
    expect(refusal({ format: file.format, version: 1, jobs: [] })).toMatch(/^made: missing; give a date/);
    for (const json of [null, 7, "x", [], {}, { format: "annulus-setup" }])
      expect(refusal(json)).not.toMatch(/\n/);
    expect(() => parseText('{"format":\n "annulus-backup",}')).toThrow(
      'not JSON: unexpected "}" at line 2, column 19',
    );
    expect(parseText("\uFEFF[]")).toEqual([]);
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
    expect(job.document).toEqual(kept.format === "annulus-document" ? kept : kept.document);
    const read = readDocument(job.document);
    expect(read.gapMm).toBe(3.1);
    expect(read.notes.measure.depth).toEqual(["24.54", "24.5"]);
    expect(readBackup(kept, "2031-01-01T00:00:00.000Z").jobs[0].id).toBe(job.id);
  });
});
