/**
 * The browser's database of jobs. What a list shows and what a job holds are apart, so that thousands are listed without
 * reading all they hold. The database's version is the version of the jobs' format: a new one gets a line here and a step
 * in `src/record/migrate.ts`; where only what is listed changes, a tenth, which an earlier page still opens.
 */
import Dexie, { mergeRanges, type ObservabilitySet, RangeSet, type Table, type Transaction } from "dexie";
import type { Broken } from "../../../record/backup.ts";
import { JOB_VERSION, type Job, type JobHead } from "../../../record/job.ts";
import { DOCUMENT_VERSION, migrateDocument } from "../../../record/migrateDocument.ts";
import { readJob } from "../../../record/readJob.ts";
import { RecordError } from "../../../record/recordError.ts";
import { isRecord } from "../../../setup/file/jsonRecord.ts";
import { type Summary, summaryOf } from "./summary.ts";

/** A job as it is listed. */
export interface Row extends JobHead, Summary {
  /** When it was deleted, ISO 8601; null: it is not. */
  readonly deleted: string | null;
}

export interface KeptDocument {
  readonly id: string;
  readonly document: unknown;
}

export const DATABASE = "annulus";

/** `later`: a later version of the page has taken the database over; `gone`: it was deleted or closed from outside. */
export type Loss = "later" | "gone";

export class RecordDatabase extends Dexie {
  declare readonly jobs: Table<Row, string>;
  declare readonly documents: Table<KeptDocument, string>;
  /** What could not be read when the format changed: nobody's work is dropped for it. */
  declare readonly unreadable: Table<Broken, number>;
  /** `browser`: the id under which this browser's changes are counted. */
  declare readonly about: Table<{ readonly name: string; readonly value: string }, string>;

  /** Told once when this connection has come to its end from outside. */
  onLost: (loss: Loss) => void = () => {};

  constructor(name: string = DATABASE) {
    // what is said to be kept is on the disk
    super(name, { chromeTransactionDurability: "strict" });
    // bare documents, each in `kept`
    this.version(1).stores({ kept: "++" });
    this.version(2)
      .stores({ kept: null, jobs: "id", documents: "id", unreadable: "++", about: "name" })
      .upgrade(jobsFromDocuments);
    // any number of trials in a job
    this.version(3).stores({}).upgrade(jobsWithAnyTrials);
    // listed by the gap measured, no longer by where the slider stood
    this.version(3.1).stores({}).upgrade(summariesAnew);
    // takes of the player
    this.version(4).stores({}).upgrade(jobsWithTakes);
    // sweeps of the instrument
    this.version(5).stores({}).upgrade(jobsWithSweeps);
    this.on("versionchange", ({ newVersion }) => this.#lose(newVersion ? "later" : "gone"));
  }

  /**
   * Opens it, and is told when it goes away.
   *
   * @throws RecordError where a later version of the page has been here
   */
  async openAttentively(): Promise<void> {
    await this.open();
    const native = this.backendDB();
    // the library counts in tenths, and would open a later one as if it were its own
    if (native.version >= 10 * (JOB_VERSION + 1)) {
      this.close();
      throw new RecordError(LATER);
    }
    native.addEventListener("close", () => this.#lose("gone"));
  }

  /** Calls `listener` with the ids of jobs that have changed, by whichever tab; null: any may have. The answer ends it. */
  watchChanged(listener: (ids: readonly string[] | null) => void): () => void {
    const tell = (parts: ObservabilitySet) => {
      const ranges = parts.all ? new RangeSet(-Infinity, [[]]) : parts[`idb://${this.name}/jobs/`];
      if (!ranges) return;
      const keys = new RangeSet();
      // what it is told of has lost its methods on its way
      mergeRanges(keys, ranges);
      const ids: string[] = [];
      let areAll = true;
      for (const { from, to } of keys) {
        if (from === to) ids.push(from as string);
        else areAll = false;
      }
      // whoever listens is not within the transaction that has just ended
      if (ids.length > 0 || !areAll) Dexie.ignoreTransaction(() => listener(areAll ? ids : null));
    };
    Dexie.on("storagemutated", tell);
    return () => Dexie.on.storagemutated.unsubscribe(tell);
  }

  #lose(loss: Loss): void {
    // not to be made again, empty, by whoever asks next
    this.close();
    const { onLost } = this;
    this.onLost = () => {};
    // the browser is still at it
    setTimeout(() => onLost(loss));
  }
}

const LATER = "A later version of this page keeps its jobs here; load the page again to get it";

async function jobsFromDocuments(transaction: Transaction): Promise<void> {
  const at = new Date().toISOString();
  for (const json of await transaction.table<unknown>("kept").toArray())
    try {
      const { row, kept } = split(readJob(json, at));
      await transaction.table("jobs").put(row);
      await transaction.table("documents").put(kept);
    } catch (error) {
      if (!(error instanceof RecordError)) throw error;
      await transaction.table("unreadable").add({ reason: error.message, json });
    }
}

const jobsWithAnyTrials = documentsFrom(2);
const jobsWithTakes = documentsFrom(3);
const jobsWithSweeps = documentsFrom(4);

/** Brings jobs of a version one on, and whatever of their documents is older to the present form. */
function documentsFrom(version: number) {
  return async (transaction: Transaction): Promise<void> => {
    await transaction
      .table<KeptDocument>("documents")
      .toCollection()
      .modify((kept, at) => {
        const { document } = kept;
        if (isRecord(document) && isEarlier(document.version))
          at.value = { ...kept, document: migrateDocument(document) };
      });
    await transaction
      .table<{ version: number }>("jobs")
      .toCollection()
      .modify((row) => {
        if (row.version === version) row.version = version + 1;
      });
  };
}

const isEarlier = (version: unknown): boolean => typeof version === "number" && version < DOCUMENT_VERSION;

async function summariesAnew(transaction: Transaction): Promise<void> {
  const summaries = new Map<string, Summary>();
  await transaction
    .table<KeptDocument>("documents")
    .each(({ id, document }) => void summaries.set(id, summaryOf(document)));
  await transaction
    .table<Row>("jobs")
    .toCollection()
    .modify((row) => void Object.assign(row, summaries.get(row.id)));
}

/** A job as its two records. */
export function split(
  { document, ...head }: Job,
  deleted: string | null = null,
): { row: Row; kept: KeptDocument } {
  return { row: { ...head, ...summaryOf(document), deleted }, kept: { id: head.id, document } };
}

/** The job that two records are. */
export function joined(
  { gapMm: _gap, holds: _holds, deleted: _deleted, ...head }: Row,
  { document }: KeptDocument,
): Job {
  return { ...head, document };
}

/** Jobs as they are; deleted, where it is said when. */
export async function putJobs(
  database: RecordDatabase,
  all: readonly Job[],
  deleted: string | null = null,
): Promise<void> {
  const { jobs, documents } = database;
  const records = all.map((job) => split(job, deleted));
  await database.transaction("rw", jobs, documents, async () => {
    await jobs.bulkPut(records.map(({ row }) => row));
    await documents.bulkPut(records.map(({ kept }) => kept));
  });
}
