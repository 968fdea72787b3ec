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
  titleWith,
} from "../../../record/job.ts";
import type { Choice, Outcome } from "../../../record/merge.ts";
import { firstRevision, nextRevision, type Revision, sameRevision } from "../../../record/revision.ts";
import { isRecord } from "../../../setup/file/jsonRecord.ts";
import { joined, type Loss, putJobs, type RecordDatabase, type Row } from "./database.ts";
import { isLaterRow, isSound, whyUnsound } from "./soundRow.ts";
import { summaryOf } from "./summary.ts";
import { type Comparison, compareJobs, takeJobsIn } from "./takenIn.ts";

/** A deleted job can be brought back for this long. */
const DELETED_KEPT_MS = 24 * 60 * 60 * 1000;

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
      await putJobs(database, back);
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
      await putJobs(this.#database, missing);
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
    await putJobs(this.#database, [job]);
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
  compare(incoming: readonly Job[], tell?: (count: JobCount) => void): Promise<Comparison[]> {
    return compareJobs(this.#database, incoming, tell);
  }

  /**
   * Takes jobs in beside those that are there, all of them or none. Null when it was stopped.
   *
   * @param choices one for each; absent: the usual ones
   */
  restore(
    incoming: readonly Job[],
    tell?: (count: JobCount) => void,
    signal?: AbortSignal,
    choices?: readonly Choice[],
  ): Promise<readonly Outcome[] | null> {
    return takeJobsIn(this.#database, this.browser, incoming, { tell, signal, choices });
  }

  close(): void {
    this.#database.close();
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
