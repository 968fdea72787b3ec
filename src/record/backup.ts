/**
 * Jobs in one file, `annulus-backup`: JSON as `shared/annulus-backup.schema.json` has it. A single job that is saved to a
 * file is a backup of one.
 */
import { jsonBreak } from "../setup/jsonBreak.ts";
import type { Job } from "./job.ts";
import { readEnvelope, readJob } from "./readJob.ts";
import { RecordError } from "./recordError.ts";

const FORMAT = "annulus-backup";

/** What is kept though it cannot be read. */
export interface Broken {
  /** Why, in words. */
  readonly reason: string;
  readonly json: unknown;
}

export interface Backup {
  readonly jobs: readonly Job[];
  readonly broken: readonly Broken[];
}

/** The file's text. @param made ISO 8601, UTC */
export const writeBackup = (jobs: readonly Job[], made: string): string =>
  `${JSON.stringify({ format: FORMAT, version: 1, made, jobs }, null, 1)}\n`;

/** A backup's file is called by the day it was made. */
export const backupFileName = (made: string): string => `annulus-backup-${made.slice(0, 10)}.json`;

/** The JSON in a file's text. @throws RecordError that names line and column */
export function parseText(text: string): unknown {
  // some editors put a byte order mark in front, which JSON does not allow
  const bare = text.replace(/^\uFEFF/, "");
  try {
    return JSON.parse(bare);
  } catch {
    const { line, column, found } = jsonBreak(bare);
    throw new RecordError(`not JSON: ${found} at line ${line}, column ${column}`);
  }
}

/** Whether parsed JSON says that it is a backup of jobs. */
export const isBackup = (json: unknown): boolean => formatOf(json) === FORMAT;

/** What a file says it is. */
export const formatOf = (json: unknown): unknown =>
  typeof json === "object" && json !== null ? (json as Record<string, unknown>).format : undefined;

/**
 * The jobs of a backup, or one job that stands alone, of whatever version. Jobs that cannot be read are handed over apart.
 *
 * @param at when, for what an earlier version did not note
 * @throws RecordError for what is no backup at all
 */
export function readBackup(json: unknown, at: string): Backup {
  const steps = backupSteps(json, at);
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
  }
}

/** How many jobs of how many. */
export interface JobCount {
  readonly done: number;
  readonly of: number;
}

/** As `readBackup`, a job at a step, for files of thousands. */
export function* backupSteps(json: unknown, at: string): Generator<JobCount, Backup, void> {
  const kept = isBackup(json) ? readEnvelope(json).jobs : [json];
  const jobs: Job[] = [];
  const broken: Broken[] = [];
  for (const one of kept) {
    try {
      jobs.push(readJob(one, at));
    } catch (error) {
      if (!(error instanceof RecordError) || !isBackup(json)) throw error;
      broken.push({ reason: error.message, json: one });
    }
    yield { done: jobs.length + broken.length, of: kept.length };
  }
  return { jobs, broken };
}
