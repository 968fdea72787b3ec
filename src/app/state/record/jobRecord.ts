/** What can be done with the jobs in the database; each of these is done whole or not at all, whichever tab asks. */
import Dexie from "dexie";
import type { Broken, JobCount } from "../../../record/backup.ts";
import {
  JOB_FORMAT,
  JOB_VERSION,
  type Job,
  type JobHead,
  type JobStatus,
  type JobTexts,
  LONGEST_TEXT,
  newId,
  sameContent,
  titleWith,
} from "../../../record/job.ts";
import {
  type Choice,
  merge,
  type Outcome,
  type Standing,
  separatedId,
  setAside,
  standingOf,
} from "../../../record/merge.ts";
import {
  firstRevision,
  joinedRevision,
  nextRevision,
  type Revision,
  sameRevision,
} from "../../../record/revision.ts";
import { isRecord } from "../../../setup/file/jsonRecord.ts";
import { joined, type Loss, type RecordDatabase, type Row, split } from "./database.ts";
import { isLaterRow, isSound, whyUnsound } from "./soundRow.ts";
import { summaryOf } from "./summary.ts";

/** A deleted job can be brought back for this long. */
const DELETED_KEPT_MS = 24 * 60 * 60 * 1000;

/** So few that a hand on the page does not wait for them. */
const TAKEN_AT_ONCE = 20;

/** `moved on`: its revision is another by now. */
export type Written = { readonly revision: Revision } | "moved on" | "gone";

export interface KeptState {
  readonly job: Job;
  readonly deleted: string | null;
}

export interface Listing {
  readonly rows: readonly Row[];
  readonly deleted: readonly Row[];
  /** How many are kept that cannot be read. */
  readonly unreadable: number;
  /** How many a later version of the page has kept. */
  readonly later: number;
}

/** A job that may be taken in, beside what is here. */
export interface Comparison {
  readonly job: Job;
  readonly standing: Standing;
  /** When the one here was changed, ISO 8601; null: there is none. */
  readonly changed: string | null;
}

export class JobRecord {
  readonly #database: RecordDatabase;
  /** Under which this browser's changes are counted: anew where the database was. */
  readonly browser: string;
  /** What came back from the second copy because the database was found empty. */
  readonly recovered: readonly JobHead[];

  private constructor(database: RecordDatabase, browser: string, recovered: readonly JobHead[]) {
    this.#database = database;
    this.browser = browser;
    this.recovered = recovered;
  }

  /**
   * Opens the database, brings it to the present format, fills one that is new from the second copy, and clears away what
   * was deleted long ago.
   */
  static async open(
    database: RecordDatabase,
    copied: () => Promise<readonly Job[]> = async () => [],
  ): Promise<JobRecord> {
    await database.openAttentively();
    const isNew = (await database.about.get("browser")) === undefined;
    const back = isNew ? await copied() : [];
    const { about, jobs, documents } = database;
    const record = await database.transaction("rw", about, jobs, documents, async () => {
      const known = await about.get("browser");
      if (known) return new JobRecord(database, known.value, []);
      const named = { name: "browser", value: newId() };
      await about.add(named);
      const filled = new JobRecord(database, named.value, back);
      await filled.#put(back);
      return filled;
    });
    await record.#clearDeleted();
    return record;
  }

  /** Resolves when the database is taken away from this page. */
  lost(): Promise<Loss> {
    return new Promise((resolve) => {
      this.#database.onLost = resolve;
    });
  }

  /** Puts back what is not there at all; a job that is there stays as it is. The answer: what was put back. */
  async putBack(back: readonly Job[]): Promise<readonly JobHead[]> {
    const { jobs, documents } = this.#database;
    return this.#database.transaction("rw", jobs, documents, async () => {
      const there = await jobs.bulkGet(back.map(({ id }) => id));
      const missing = back.filter((_, i) => !there[i]);
      await this.#put(missing);
      return missing;
    });
  }

  /** The jobs of these ids, each with when it was deleted; undefined for one that is not there. */
  async states(ids: readonly string[]): Promise<readonly (KeptState | undefined)[]> {
    const { jobs, documents } = this.#database;
    return this.#database.transaction("r", jobs, documents, async () => {
      const [rows, kept] = await Promise.all([jobs.bulkGet([...ids]), documents.bulkGet([...ids])]);
      return rows.map((row, i) => {
        const document = kept[i];
        return row && document && isSound(row)
          ? { job: joined(row, document), deleted: row.deleted }
          : undefined;
      });
    });
  }

  /** Calls `listener` with the ids of jobs that have changed, by whichever tab; null: any may have. The answer ends it. */
  watchChanged(listener: (ids: readonly string[] | null) => void): () => void {
    return this.#database.watchChanged(listener);
  }

  /** All rows as they stand, the deleted ones too. */
  rows(): Promise<readonly Row[]> {
    return this.#database.jobs.toArray();
  }

  /** Tells of all jobs now and after every change, by whichever tab. The answer ends it. */
  watch(listener: (listing: Listing) => void, failed: (error: unknown) => void): () => void {
    const watching = Dexie.liveQuery(() => this.#listing()).subscribe({ next: listener, error: failed });
    return () => watching.unsubscribe();
  }

  /** Tells of one job; undefined where it is gone. */
  watchRow(id: string, listener: (row: Row | undefined) => void): () => void {
    const watching = Dexie.liveQuery(() => this.#database.jobs.get(id)).subscribe({
      next: listener,
      error: () => listener(undefined),
    });
    return () => watching.unsubscribe();
  }

  async #listing(): Promise<Listing> {
    const [all, unreadable] = await Promise.all([
      this.#database.jobs.toArray(),
      this.#database.unreadable.count(),
    ]);
    const sound = all.filter(isSound);
    const later = all.filter(isLaterRow).length;
    return {
      rows: sound.filter(({ deleted }) => deleted === null),
      deleted: sound.filter(({ deleted }) => deleted !== null),
      unreadable: unreadable + all.length - sound.length - later,
      later,
    };
  }

  async get(id: string): Promise<{ readonly row: Row; readonly document: unknown } | undefined> {
    const { jobs, documents } = this.#database;
    return this.#database.transaction("r", jobs, documents, async () => {
      const [row, kept] = await Promise.all([jobs.get(id), documents.get(id)]);
      return row && kept && isSound(row) ? { row, document: kept.document } : undefined;
    });
  }

  /** A new job. */
  async add(texts: JobTexts, document: unknown): Promise<Job> {
    const at = now();
    const job: Job = {
      format: JOB_FORMAT,
      version: JOB_VERSION,
      id: newId(),
      ...shortened(texts),
      status: "open",
      created: at,
      changed: at,
      revision: firstRevision(this.browser),
      document,
    };
    await this.#put([job]);
    return job;
  }

  /** Keeps what a job holds by now, unless it is no longer at the revision that this was made from. */
  async write(id: string, from: Revision, document: unknown): Promise<Written> {
    const { jobs, documents } = this.#database;
    return this.#database.transaction("rw", jobs, documents, async () => {
      const row = await jobs.get(id);
      if (!row) return "gone";
      if (!isSound(row) || !sameRevision(row.revision, from)) return "moved on";
      const changed = this.#changed(row);
      const before = nameIn((await documents.get(id))?.document);
      const after = nameIn(document);
      // a name that nobody typed is the setup's, also when that is another
      const renamed =
        row.instrument === before && after !== "" ? { instrument: after.slice(0, LONGEST_TEXT) } : {};
      await jobs.put({ ...row, ...changed, ...renamed, ...summaryOf(document) });
      await documents.put({ id, document });
      return { revision: changed.revision };
    });
  }

  rename(id: string, texts: Partial<JobTexts>): Promise<void> {
    return this.#alter(id, shortened(texts));
  }

  setStatus(id: string, status: JobStatus): Promise<void> {
    return this.#alter(id, { status });
  }

  /** It is no longer listed, and can be brought back for a day. */
  async delete(id: string): Promise<void> {
    await this.#database.jobs.update(id, { deleted: now() });
  }

  async bringBack(id: string): Promise<void> {
    await this.#database.jobs.update(id, { deleted: null });
  }

  async duplicate(id: string): Promise<Job | undefined> {
    const kept = await this.get(id);
    if (!kept) return undefined;
    const { title, player, instrument, mouthpiece } = kept.row;
    return this.add({ title: titleWith(title, "copy"), player, instrument, mouthpiece }, kept.document);
  }

  /** Every job that is not deleted, for a backup. */
  async all(): Promise<Job[]> {
    const { jobs, documents } = this.#database;
    return this.#database.transaction("r", jobs, documents, async () => {
      const rows = (await jobs.toArray()).filter((row) => isSound(row) && row.deleted === null);
      const kept = await documents.bulkGet(rows.map(({ id }) => id));
      return rows.flatMap((row, i) => (kept[i] ? [joined(row, kept[i])] : []));
    });
  }

  /** What is kept though it cannot be read, with all there is of it. */
  async unreadable(): Promise<Broken[]> {
    const rows = (await this.#database.jobs.toArray()).filter((row) => !isSound(row)) as Row[];
    const kept = await this.#database.documents.bulkGet(rows.map(({ id }) => id));
    const unsound = rows.map((row, i) => ({
      reason: whyUnsound(row),
      json: { ...row, document: kept[i]?.document },
    }));
    return [...unsound, ...(await this.#database.unreadable.toArray())];
  }

  /** How jobs that may be taken in stand to those here; one that is deleted here is new. */
  async compare(incoming: readonly Job[], tell: (count: JobCount) => void = () => {}): Promise<Comparison[]> {
    const compared: Comparison[] = [];
    for (let from = 0; from < incoming.length; from += TAKEN_AT_ONCE) {
      const part = incoming.slice(from, from + TAKEN_AT_ONCE);
      const { here } = await this.#here(part.map(({ id }) => id));
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
   *
   * @param tell called as it goes on
   * @param choices one for each; absent: the usual ones
   */
  async restore(
    incoming: readonly Job[],
    tell: (count: JobCount) => void = () => {},
    signal?: AbortSignal,
    choices?: readonly Choice[],
  ): Promise<readonly Outcome[] | null> {
    const { jobs, documents, unreadable } = this.#database;
    try {
      return await this.#database.transaction("rw", jobs, documents, unreadable, async () => {
        const outcomes: Outcome[] = [];
        for (let from = 0; from < incoming.length; from += TAKEN_AT_ONCE) {
          // what is thrown in here takes back what was put
          signal?.throwIfAborted();
          const to = from + TAKEN_AT_ONCE;
          outcomes.push(...(await this.#takeIn(incoming.slice(from, to), choices?.slice(from, to))));
          tell({ done: outcomes.length, of: incoming.length });
        }
        return outcomes;
      });
    } catch (error) {
      if (signal?.aborted) return null;
      throw error;
    }
  }

  async #takeIn(
    incoming: readonly Job[],
    choices: readonly Choice[] | undefined,
  ): Promise<readonly Outcome[]> {
    const copies = incoming.filter((_, i) => (choices?.[i] ?? "keep both") === "keep both").map(separatedId);
    const { here, deleted, unsound } = await this.#here([...incoming.map(({ id }) => id), ...copies]);
    const advanced = (revision: Revision) => nextRevision(revision, this.browser);
    const { put, aside, outcomes } = merge(here, incoming, { choices, advanced });
    const own = (id: string) => deleted.get(id)?.job;
    const replaced = put.flatMap((job) => deleted.get(job.id) ?? []);
    for (const one of unsound)
      if (put.some(({ id }) => id === one.json.id)) await this.#database.unreadable.add(one);
    await this.#put(
      put.map((job) => {
        const before = own(job.id);
        if (!before) return job;
        return { ...job, revision: advanced(joinedRevision(before.revision, job.revision)) };
      }),
    );
    const at = now();
    for (const { job, deleted: when } of [
      ...aside.map((job) => ({ job, deleted: at })),
      ...replaced
        .filter(({ job }) => !put.some((one) => one.id === job.id && sameContent(one, job)))
        .map((one) => ({ ...one, job: setAside(one.job) })),
    ])
      await this.#put([job], when);
    return outcomes;
  }

  /** The jobs of these ids: those that are there, those that are deleted, and what cannot be read. */
  async #here(all: readonly string[]) {
    const { jobs, documents } = this.#database;
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

  close(): void {
    this.#database.close();
  }

  async #put(all: readonly Job[], deleted: string | null = null): Promise<void> {
    const { jobs, documents } = this.#database;
    const records = all.map((job) => split(job, deleted));
    await this.#database.transaction("rw", jobs, documents, async () => {
      await jobs.bulkPut(records.map(({ row }) => row));
      await documents.bulkPut(records.map(({ kept }) => kept));
    });
  }

  async #alter(id: string, part: Partial<Row>): Promise<void> {
    const { jobs } = this.#database;
    await this.#database.transaction("rw", jobs, async () => {
      const row = await jobs.get(id);
      if (row && isSound(row)) await jobs.put({ ...row, ...part, ...this.#changed(row) });
    });
  }

  #changed({ revision }: Row): Pick<Row, "changed" | "revision"> {
    return { changed: now(), revision: nextRevision(revision, this.browser) };
  }

  async #clearDeleted(): Promise<void> {
    const { jobs, documents } = this.#database;
    const before = new Date(Date.now() - DELETED_KEPT_MS).toISOString();
    await this.#database.transaction("rw", jobs, documents, async () => {
      const old = (await jobs.toArray()).filter((row) => row.deleted !== null && row.deleted < before);
      const ids = old.map(({ id }) => id);
      await jobs.bulkDelete(ids);
      await documents.bulkDelete(ids);
    });
  }
}

/** What a document calls its setup; empty where it cannot be read. */
const nameIn = (document: unknown): string => {
  const setup = isRecord(document) ? document.setup : undefined;
  return isRecord(setup) && typeof setup.name === "string" ? setup.name : "";
};

const now = (): string => new Date().toISOString();

const shortened = <Texts extends Partial<JobTexts>>(texts: Texts): Texts =>
  Object.fromEntries(
    Object.entries(texts).map(([name, text]) => [name, text.slice(0, LONGEST_TEXT)]),
  ) as Texts;
