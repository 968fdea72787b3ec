/** Jobs that come from elsewhere, a backup or another machine, taken in beside those that are here. */
import type { JobCount } from "../../../record/backup.ts";
import { type Job, sameContent } from "../../../record/job.ts";
import {
  type Choice,
  merge,
  type Outcome,
  type Standing,
  separatedId,
  setAside,
  standingOf,
} from "../../../record/merge.ts";
import { joinedRevision, nextRevision, type Revision } from "../../../record/revision.ts";
import { joined, putJobs, type RecordDatabase, type Row } from "./database.ts";
import { isSound, whyUnsound } from "./soundRow.ts";

/** So few that a hand on the page does not wait for them. */
const TAKEN_AT_ONCE = 20;

/** A job that may be taken in, beside what is here. */
export interface Comparison {
  readonly job: Job;
  readonly standing: Standing;
  /** When the one here was changed, ISO 8601; null: there is none. */
  readonly changed: string | null;
}

export interface TakenAs {
  /** Called as it goes on. */
  readonly tell?: ((count: JobCount) => void) | undefined;
  readonly signal?: AbortSignal | undefined;
  /** One for each; absent: the usual ones. */
  readonly choices?: readonly Choice[] | undefined;
}

/** How jobs that may be taken in stand to those here; one that is deleted here is new. */
export async function compareJobs(
  database: RecordDatabase,
  incoming: readonly Job[],
  tell: (count: JobCount) => void = () => {},
): Promise<Comparison[]> {
  const compared: Comparison[] = [];
  for (let from = 0; from < incoming.length; from += TAKEN_AT_ONCE) {
    const part = incoming.slice(from, from + TAKEN_AT_ONCE);
    const { here } = await jobsHere(
      database,
      part.map(({ id }) => id),
    );
    compared.push(
      ...part.map((job) => {
        const own = here.get(job.id);
        return { job, standing: standingOf(own, job), changed: own?.changed ?? null };
      }),
    );
    tell({ done: compared.length, of: incoming.length });
  }
  return compared;
}

/**
 * Takes jobs in beside those that are there; one that was deleted here comes back as the backup has it. What they take the
 * place of can be brought back for a day, as what was deleted. All of them or, with an error or when it is stopped, none.
 * Null when it was stopped.
 */
export async function takeJobsIn(
  database: RecordDatabase,
  browser: string,
  incoming: readonly Job[],
  { tell = () => {}, signal, choices }: TakenAs = {},
): Promise<readonly Outcome[] | null> {
  const { jobs, documents, unreadable } = database;
  try {
    return await database.transaction("rw", jobs, documents, unreadable, async () => {
      const outcomes: Outcome[] = [];
      for (let from = 0; from < incoming.length; from += TAKEN_AT_ONCE) {
        // what is thrown in here takes back what was put
        signal?.throwIfAborted();
        const to = from + TAKEN_AT_ONCE;
        outcomes.push(
          ...(await takeSomeIn(database, browser, incoming.slice(from, to), choices?.slice(from, to))),
        );
        tell({ done: outcomes.length, of: incoming.length });
      }
      return outcomes;
    });
  } catch (error) {
    if (signal?.aborted) return null;
    throw error;
  }
}

/** Some of them, within the one transaction of all. */
async function takeSomeIn(
  database: RecordDatabase,
  browser: string,
  incoming: readonly Job[],
  choices: readonly Choice[] | undefined,
): Promise<readonly Outcome[]> {
  const copies = incoming.filter((_, i) => (choices?.[i] ?? "keep both") === "keep both").map(separatedId);
  const { here, deleted, unsound } = await jobsHere(database, [...incoming.map(({ id }) => id), ...copies]);
  const advanced = (revision: Revision) => nextRevision(revision, browser);
  const { put, aside, outcomes } = merge(here, incoming, { choices, advanced });
  const own = (id: string) => deleted.get(id)?.job;
  const replaced = put.flatMap((job) => deleted.get(job.id) ?? []);
  for (const one of unsound) if (put.some(({ id }) => id === one.json.id)) await database.unreadable.add(one);
  await putJobs(
    database,
    put.map((job) => {
      const before = own(job.id);
      if (!before) return job;
      return { ...job, revision: advanced(joinedRevision(before.revision, job.revision)) };
    }),
  );
  const at = new Date().toISOString();
  for (const { job, deleted: when } of [
    ...aside.map((job) => ({ job, deleted: at })),
    ...replaced
      .filter(({ job }) => !put.some((one) => one.id === job.id && sameContent(one, job)))
      .map((one) => ({ ...one, job: setAside(one.job) })),
  ])
    await putJobs(database, [job], when);
  return outcomes;
}

/** The jobs of these ids: those that are there, those that are deleted, and what cannot be read. */
async function jobsHere(database: RecordDatabase, all: readonly string[]) {
  const { jobs, documents } = database;
  const ids = [...new Set(all)];
  const [rows, kept] = await Promise.all([jobs.bulkGet(ids), documents.bulkGet(ids)]);
  const here = new Map<string, Job>();
  const deleted = new Map<string, { readonly job: Job; readonly deleted: string }>();
  const unsound: { readonly reason: string; readonly json: Row & { readonly document: unknown } }[] = [];
  rows.forEach((row, i) => {
    const document = kept[i];
    if (!row) return;
    if (!document || !isSound(row))
      unsound.push({ reason: whyUnsound(row), json: { ...row, document: document?.document } });
    else if (row.deleted === null) here.set(row.id, joined(row, document));
    else deleted.set(row.id, { job: joined(row, document), deleted: row.deleted });
  });
  return { here, deleted, unsound };
}
