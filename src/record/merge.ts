/**
 * Jobs that are taken in beside those that are there, each as it is chosen. Unless something else is chosen, of the same job
 * the copy that has been through all of the other's changes wins; where each has changes that the other has not, both are
 * kept, the incoming one under a name that says so. Taking the same in twice changes nothing the second time.
 */
import { fingerprint } from "./canonical.ts";
import { contentText, type Job, newId, sameContent, titleWith } from "./job.ts";
import { includesRevision, joinedRevision, type Revision, sameRevision } from "./revision.ts";

/** How an incoming job stands to the one here: `newer` and `older` have been through all of the other's changes. */
export type Standing = "new" | "same" | "newer" | "older" | "diverged";

/** `take`: the incoming one in the place of the one here, if there is one. */
export type Choice = "take" | "keep both" | "skip";

/** What is done where the person says nothing else: nothing that is here is lost by it. */
export const USUAL_CHOICE: Readonly<Record<Standing, Choice>> = {
  new: "take",
  same: "skip",
  newer: "take",
  older: "skip",
  diverged: "keep both",
};

/** Whether the two say different things, so that the person is asked. */
export const isDifferent = (standing: Standing): boolean => standing !== "new" && standing !== "same";

/** What became of an incoming job; `older`: what is here has gone on since, and stays. */
export type Outcome = "added" | "updated" | "replaced" | "same" | "older" | "kept both" | "left out";

export interface Merged {
  /** To be put in place of those with the same ids. */
  readonly put: readonly Job[];
  /** What was here and is not in what replaces it, each as a job of its own, for the deleted ones. */
  readonly aside: readonly Job[];
  /** One for each incoming job, in its order. */
  readonly outcomes: readonly Outcome[];
}

export interface MergeOptions {
  /** One for each incoming job; absent: the usual ones. */
  readonly choices?: readonly Choice[] | undefined;
  /** Counts a change by this browser, so that whoever has the replaced one open follows. */
  readonly advanced?: (revision: Revision) => Revision;
}

/** What incoming jobs make of those here. */
export function merge(
  here: ReadonlyMap<string, Job>,
  incoming: readonly Job[],
  { choices, advanced = (revision) => revision }: MergeOptions = {},
): Merged {
  const put = new Map<string, Job>();
  const aside: Job[] = [];
  const at = (id: string) => put.get(id) ?? here.get(id);
  const outcomes = incoming.map((job, i): Outcome => {
    const own = at(job.id);
    const standing = standingOf(own, job);
    const choice = choices?.[i] ?? USUAL_CHOICE[standing];
    if (!own || standing === "same") {
      if (own || choice === "skip") return own ? "same" : "left out";
      put.set(job.id, job);
      return "added";
    }
    if (choice === "skip") return standing === "older" ? "older" : "left out";
    const joined = joinedRevision(own.revision, job.revision);
    if (choice === "take") {
      put.set(job.id, standing === "newer" ? job : { ...job, revision: advanced(joined) });
      if (standing === "newer") return "updated";
      aside.push(setAside(own));
      return "replaced";
    }
    const copy = separated(job);
    const there = at(copy.id);
    // from now on this one has seen the other's changes: it lives on as the copy
    if (!sameRevision(own.revision, joined)) put.set(job.id, { ...own, revision: joined });
    if (there && sameContent(there, copy)) return "same";
    const id = there ? newId() : copy.id;
    put.set(id, { ...copy, id });
    return "kept both";
  });
  return { put: [...put.values()], aside, outcomes };
}

/** How an incoming job stands to the one here. */
export function standingOf(own: Job | undefined, job: Job): Standing {
  if (!own) return "new";
  if (sameContent(own, job)) return "same";
  if (sameRevision(own.revision, job.revision)) return "diverged";
  if (includesRevision(job.revision, own.revision)) return "newer";
  return includesRevision(own.revision, job.revision) ? "older" : "diverged";
}

/** What was here before another took its place. */
export const setAside = (own: Job): Job => ({
  ...own,
  id: newId(),
  title: titleWith(own.title, "before the backup"),
});

/** The id under which a copy is kept beside the job here, the same whenever it is taken in. */
export const separatedId = (job: Job): string => fingerprint([job.id, contentText(job)]);

/** The incoming one as a job of its own. */
const separated = (job: Job): Job => ({
  ...job,
  id: separatedId(job),
  title: titleWith(job.title, "from the backup"),
});
