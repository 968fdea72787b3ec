import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { contentText, type Job } from "../../src/record/job.ts";
import { type Choice, merge, standingOf } from "../../src/record/merge.ts";
import { includesRevision } from "../../src/record/revision.ts";
import { anyRecord, someJob } from "./jobs.ts";

const byId = (jobs: readonly Job[]) => new Map(jobs.map((job) => [job.id, job]));
const merged = (here: readonly Job[], incoming: readonly Job[]): Job[] => [
  ...new Map([...byId(here), ...byId(merge(byId(here), incoming).put)]).values(),
];
const outcomes = (here: readonly Job[], incoming: readonly Job[]) => merge(byId(here), incoming).outcomes;
/** What a job says, whatever a copy was called. */
const said = (job: Job) => contentText({ ...job, title: job.title.replace(/ \(from the backup\)$/, "") });

describe("taking jobs in", () => {
  const job = someJob({ revision: { here: 2, there: 1 } });

  test("one that is new is added, the same again changes nothing", () => {
    expect(outcomes([], [job])).toEqual(["added"]);
    expect(outcomes([job], [{ ...job, changed: "2027-01-01T00:00:00.000Z" }])).toEqual(["same"]);
    expect(merge(byId([job]), [job]).put).toEqual([]);
  });

  test("of two copies the one that has seen all of the other's changes wins, whatever the clocks say", () => {
    const later = {
      ...job,
      title: "Later",
      revision: { here: 3, there: 1 },
      changed: "2020-01-01T00:00:00.000Z",
    };
    expect(outcomes([job], [later])).toEqual(["updated"]);
    expect(merged([job], [later])).toEqual([later]);
    expect(outcomes([later], [job])).toEqual(["older"]);
    expect(merged([later], [job])).toEqual([later]);
  });

  test("copies that went different ways are both kept, once, under names that tell them apart", () => {
    const own = { ...job, title: "Mine", revision: { here: 3, there: 1 } };
    const other = { ...job, title: "Theirs", revision: { here: 2, there: 2 } };
    expect(outcomes([own], [other])).toEqual(["kept both"]);
    const both = merged([own], [other]);
    expect(both.map(({ title }) => title)).toEqual(["Mine", "Theirs (from the backup)"]);
    expect(merged(both, [other])).toEqual(both);
    // the other browser takes this one's backup: its own copy is there already
    expect(merged([other], both).map(({ title }) => title)).toEqual(["Mine", "Theirs (from the backup)"]);
  });

  test("a copy's title stays one that can be read back", () => {
    const long = { ...job, title: "x".repeat(200), revision: { elsewhere: 1 } };
    const [, copy] = merged([job], [long]);
    expect(copy.title).toHaveLength(200);
    expect(copy.title).toMatch(/x \(from the backup\)$/);
  });
});

describe("taking jobs in as it is chosen", () => {
  const job = someJob({ title: "Mine", revision: { here: 2 } });
  const older = { ...job, title: "Earlier", revision: { here: 1 } };
  const newer = { ...job, title: "Later", revision: { here: 3 } };
  const diverged = { ...job, title: "Theirs", revision: { there: 1 } };
  const all = [older, newer, diverged];
  const chosen = (incoming: Job, choice: Choice, here: readonly Job[] = [job]) => {
    const { put, aside, outcomes } = merge(byId(here), [incoming], { choices: [choice] });
    return { kept: [...byId([...here, ...put]).values()], aside, outcomes };
  };

  test("how each stands to the one here is told, and what is usual loses nothing", () => {
    expect(all.map((one) => standingOf(job, one))).toEqual(["older", "newer", "diverged"]);
    expect(standingOf(undefined, job)).toBe("new");
    expect(standingOf(job, { ...job })).toBe("same");
  });

  test("skipped, what is here stays", () => {
    for (const incoming of all) expect(chosen(incoming, "skip")).toMatchObject({ kept: [job], aside: [] });
    expect(chosen(someJob(), "skip", [])).toEqual({ kept: [], aside: [], outcomes: ["left out"] });
  });

  test("replaced, it says what the backup says, and what was here is put aside unless the backup went on from it", () => {
    for (const incoming of all) {
      const { kept, aside } = chosen(incoming, "take");
      expect(kept.map(contentText)).toEqual([contentText(incoming)]);
      expect(includesRevision(kept[0].revision, job.revision)).toBe(true);
      expect(aside.map(({ title }) => title)).toEqual(incoming === newer ? [] : ["Mine (before the backup)"]);
      expect(aside.every(({ id }) => id !== job.id)).toBe(true);
    }
  });

  test("both kept, there are two, also where the one here or the one there has gone on; asked again there are still two", () => {
    for (const incoming of all) {
      const { kept, outcomes } = chosen(incoming, "keep both");
      expect(outcomes).toEqual(["kept both"]);
      expect(kept.map(({ title }) => title)).toEqual(["Mine", `${incoming.title} (from the backup)`]);
      expect(chosen(incoming, "keep both", kept)).toMatchObject({ kept, outcomes: ["same"] });
      const [own, copy] = kept;
      const edited = { ...copy, title: "Edited since" };
      const titles = chosen(incoming, "keep both", [own, edited]).kept.map(({ title }) => title);
      expect(titles).toEqual(["Mine", "Edited since", `${incoming.title} (from the backup)`]);
    }
  });
});

describe("whatever two browsers have done", () => {
  test("taking the same in twice is taking it in once", () => {
    fc.assert(
      fc.property(anyRecord(), anyRecord(), (here, incoming) => {
        const once = merged(here, incoming);
        expect(merged(once, incoming)).toEqual(once);
      }),
    );
  });

  test("both ways round the same is there", () => {
    fc.assert(
      fc.property(anyRecord(), anyRecord(), (a, b) => {
        const contents = (jobs: Job[]) => [...new Set(jobs.map(said))].sort();
        expect(contents(merged(a, b))).toEqual(contents(merged(b, a)));
      }),
    );
  });

  test("nothing is lost that no copy had gone on from", () => {
    fc.assert(
      fc.property(anyRecord(), anyRecord(), (here, incoming) => {
        const kept = merged(here, incoming);
        const contents = kept.map(said);
        for (const job of [...here, ...incoming]) {
          const wentOn = kept.some(
            ({ id, revision }) =>
              id === job.id &&
              includesRevision(revision, job.revision) &&
              !includesRevision(job.revision, revision),
          );
          expect(wentOn || contents.includes(said(job))).toBe(true);
        }
      }),
    );
  });
});
