/**
 * The browser's database of jobs. What a list shows and what a job holds are apart, so that thousands are listed without
 * reading all they hold. The database's version is the version of the jobs' format: a new one gets a line here and a step
 * in `src/record/migrate.ts`.
 */
import Dexie, { type Table, type Transaction } from "dexie";
import type { Broken } from "../../../record/backup.ts";
import type { Job, JobHead } from "../../../record/job.ts";
import { migrateDocument } from "../../../record/migrateDocument.ts";
import { readJob } from "../../../record/readJob.ts";
import { RecordError } from "../../../record/recordError.ts";
import { isRecord } from "../../../setup/jsonRecord.ts";
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

export class RecordDatabase extends Dexie {
  declare readonly jobs: Table<Row, string>;
  declare readonly documents: Table<KeptDocument, string>;
  /** What could not be read when the format changed: nobody's work is dropped for it. */
  declare readonly unreadable: Table<Broken, number>;
  /** `browser`: the id under which this browser's changes are counted. */
  declare readonly about: Table<{ readonly name: string; readonly value: string }, string>;

  constructor(name: string = DATABASE) {
    super(name);
    // bare documents, each in `kept`
    this.version(1).stores({ kept: "++" });
    this.version(2)
      .stores({ kept: null, jobs: "id", documents: "id", unreadable: "++", about: "name" })
      .upgrade(jobsFromDocuments);
    // any number of trials in a job
    this.version(3).stores({}).upgrade(jobsWithAnyTrials);
  }
}

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

async function jobsWithAnyTrials(transaction: Transaction): Promise<void> {
  await transaction
    .table<KeptDocument>("documents")
    .toCollection()
    .modify((kept, at) => {
      const { document } = kept;
      if (isRecord(document) && document.version === 1)
        at.value = { ...kept, document: migrateDocument(document) };
    });
  await transaction
    .table<{ version: number }>("jobs")
    .toCollection()
    .modify((row) => {
      if (row.version === 2) row.version = 3;
    });
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
