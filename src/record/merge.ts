/**
 * Jobs that are taken in beside those that are there. Of the same job the copy that has been through all of the other's
 * changes wins; where each has changes that the other has not, both are kept, the incoming one under a name that says so.
 * Taking the same in twice changes nothing the second time.
 */
import { fingerprint } from "./canonical.ts";
import { contentText, type Job, sameContent, titleWith } from "./job.ts";
import { includesRevision, joinedRevision, sameRevision } from "./revision.ts";

/** What became of an incoming job; `older`: what is here has gone on since. */
export type Outcome = "added" | "updated" | "same" | "older" | "kept both";

export interface Merged {
  /** To be put in place of those with the same ids. */
  readonly put: readonly Job[];
  /** One for each incoming job, in its order. */
  readonly outcomes: readonly Outcome[];
}

/** What incoming jobs make of those here: newer ones replace, diverged ones are kept beside, the same change nothing. */
export function merge(here: ReadonlyMap<string, Job>, incoming: readonly Job[]): Merged {
  const put = new Map<string, Job>();
  const at = (id: string) => put.get(id) ?? here.get(id);
  const outcomes = incoming.map((job): Outcome => {
    const own = at(job.id);
    const outcome = own ? compared(own, job) : "added";
    if (outcome === "added" || outcome === "updated") put.set(job.id, job);
    if (outcome !== "kept both") return outcome;
    const copy = separated(job);
    const wasSeparated = at(copy.id) !== undefined;
    // from now on this one has seen the other's changes: it lives on as the copy
    put.set(job.id, { ...own!, revision: joinedRevision(own!.revision, job.revision) });
    if (!wasSeparated) put.set(copy.id, copy);
    return wasSeparated ? "same" : "kept both";
  });
  return { put: [...put.values()], outcomes };
}

function compared(own: Job, job: Job): Outcome {
  if (sameContent(own, job)) return "same";
  if (sameRevision(own.revision, job.revision)) return "kept both";
  if (includesRevision(job.revision, own.revision)) return "updated";
  return includesRevision(own.revision, job.revision) ? "older" : "kept both";
}

/** The incoming one as a job of its own, under the same id whenever it is taken in. */
const separated = (job: Job): Job => ({
  ...job,
  id: fingerprint([job.id, contentText(job)]),
  title: titleWith(job.title, "from the backup"),
});
