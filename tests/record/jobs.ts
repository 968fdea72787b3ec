/** Jobs for tests: one that is plain, and any by fast-check. */
import fc from "fast-check";
import { JOB_FORMAT, JOB_VERSION, type Job, newId } from "../../src/record/job.ts";

export const AT = "2026-03-01T09:00:00.000Z";

export const someJob = (part: Partial<Job> = {}): Job => ({
  format: JOB_FORMAT,
  version: JOB_VERSION,
  id: newId(),
  title: "Leadpipe soldered",
  player: "Heron",
  instrument: "Invented B-flat no. 7",
  mouthpiece: "Kettle 3",
  status: "open",
  created: AT,
  changed: AT,
  revision: { here: 1 },
  document: { format: "annulus-document", version: 1, gapMm: 2.5 },
  ...part,
});

const BROWSERS = ["here", "there", "elsewhere"];
const IDS = [1, 2, 3].map((n) => `${`${n}`.repeat(8)}-0000-4000-8000-000000000000`);

/** Records of two browsers as they come to be: each job changed here, there, or both after they parted. */
export const anyRecord = (): fc.Arbitrary<Job[]> =>
  fc
    .uniqueArray(
      fc.record({
        id: fc.constantFrom(...IDS),
        title: fc.constantFrom("Anna", "Ben", ""),
        status: fc.constantFrom("open" as const, "archived" as const),
        revision: fc.dictionary(fc.constantFrom(...BROWSERS), fc.integer({ min: 1, max: 3 })),
        document: fc.record({ gapMm: fc.integer({ min: 0, max: 4 }) }),
      }),
      { selector: ({ id }) => id, maxLength: 3 },
    )
    .map((parts) => parts.map(someJob));
