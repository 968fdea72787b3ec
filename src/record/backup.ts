/**
 * Jobs in one file, `annulus-backup`: JSON as `shared/annulus-backup.schema.json` has it. A single job that is saved to a
 * file is a backup of one. Each job stands on a line of its own with its own checksum, so that the others can still be read
 * where a line is damaged or the file is cut short:
 *
 *     {"format":"annulus-backup","version":2,"made":"…","sha256":"of made and the jobs' checksums, in order","jobs":[
 *     {"format":"annulus-job",…,"sha256":"of this job without it"},
 *     …
 *     ]}
 *
 * Version 1 had no checksums.
 */
import { jsonBreak } from "../setup/file/jsonBreak.ts";
import { isRecord } from "../setup/file/jsonRecord.ts";
import { checksum } from "./checksum.ts";
import type { Job } from "./job.ts";
import { isLater } from "./migrate.ts";
import { MADE_LATER } from "./migrateDocument.ts";
import { readEnvelope, readJob } from "./readJob.ts";
import { RecordError } from "./recordError.ts";

const FORMAT = "annulus-backup";
const VERSION = 2;
/** From here on there are checksums. */
const CHECKED_FROM = 2;

/** What is kept though it cannot be read. */
export interface Broken {
  /** Why, in words. */
  readonly reason: string;
  readonly json: unknown;
}

/** `altered`: what it says is not what was written; `cut short`: its end is missing. */
export type Damage = "altered" | "cut short";

export interface Backup {
  /** Those that can be read and are as they were written. */
  readonly jobs: readonly Job[];
  readonly broken: readonly Broken[];
  /** null: none; in a backup of the first version it cannot be told. */
  readonly damage: Damage | null;
}

/** The file's text. @param made ISO 8601, UTC */
export const writeBackup = (jobs: readonly Job[], made: string): string =>
  lastOf(backupTextSteps(jobs, made));

/** As `writeBackup`, a job at a step, for records of thousands. */
export function* backupTextSteps(jobs: readonly Job[], made: string): Generator<void, string, void> {
  const checked: (Job & { readonly sha256: string })[] = [];
  for (const job of jobs) {
    checked.push({ ...job, sha256: checksum(job) });
    yield;
  }
  const sha256 = listChecksum(made, checked);
  const head = JSON.stringify({ format: FORMAT, version: VERSION, made, sha256, jobs: [] });
  const lines = checked.map((job) => JSON.stringify(job)).join(",\n");
  return `${head.slice(0, -"]}".length)}\n${lines}\n]}\n`;
}

const listChecksum = (made: string, jobs: readonly unknown[]): string =>
  checksum([made, ...jobs.map((job) => (isRecord(job) ? job.sha256 : null))]);

/** A backup's file is called by the day it was made. */
export const backupFileName = (made: string): string => `annulus-backup-${made.slice(0, 10)}.json`;

/** A file's text as JSON; of a damaged backup as much as there is, with what is wrong with it. */
export interface Parsed {
  readonly json: unknown;
  readonly damage: Damage | null;
}

/** The JSON in a file's text. @throws RecordError that names line and column, or says that the end is missing */
export function parseText(text: string): unknown {
  // some editors put a byte order mark in front, which JSON does not allow
  const bare = text.replace(/^\uFEFF/, "");
  try {
    return JSON.parse(bare);
  } catch {
    const { line, column, found } = jsonBreak(bare);
    if (isCutShort(bare))
      throw new RecordError(
        `cut short: the text ends too early at line ${line}, column ${column}; make another copy of the file`,
      );
    throw new RecordError(`not JSON: ${found} at line ${line}, column ${column}`);
  }
}

/** Whether a text that is not JSON is the beginning of some: it breaks at its end, or within a last text or word. */
function isCutShort(text: string): boolean {
  const { line, column } = jsonBreak(text);
  const lines = text.split(/\r\n|\n|\r/).slice(line - 1);
  const rest = lines.join("\n").slice(column - 1);
  if (!rest.startsWith('"')) return /^[\w.+-]*$/.test(rest);
  for (let at = 1; at < rest.length; at++) {
    if (rest[at] === "\\") at++;
    // no text goes on over a line's end
    else if (rest[at] === '"' || rest[at] === "\n") return false;
  }
  return true;
}

/**
 * As `parseText`; of a damaged backup with checksums every line that is still there.
 *
 * @throws RecordError where none is as it was written
 */
export function parseBackup(text: string): Parsed {
  let failure: unknown = null;
  let json: unknown = null;
  try {
    json = parseText(text);
    if (isBackup(json)) readEnvelope(json);
  } catch (error) {
    if (!(error instanceof RecordError) || error.message === MADE_LATER) throw error;
    failure = error;
  }
  if (failure === null && (isBackup(json) || !isRecord(json) || json.sha256 === undefined))
    return { json, damage: null };
  const jobs = linesOf(text);
  if (!jobs.some(isAsWritten)) {
    if (failure) throw failure;
    return { json, damage: null };
  }
  const envelope = { format: FORMAT, version: VERSION, made: UNKNOWN_TIME, jobs };
  return { json: envelope, damage: json === null && isCutShort(text) ? "cut short" : "altered" };
}

/** What a damaged head does not say any more. */
const UNKNOWN_TIME = "1970-01-01T00:00:00.000Z";

/** The jobs' lines, parsed where they can be. */
const linesOf = (text: string): readonly unknown[] =>
  text
    .split("\n")
    .slice(1)
    .filter((line) => line !== "" && !/^\]\}?$/.test(line))
    .map((line) => {
      try {
        return JSON.parse(line.replace(/,$/, ""));
      } catch {
        return line;
      }
    });

/** Whether a job is what its own checksum was made of. */
function isAsWritten(json: unknown): boolean {
  if (!isRecord(json)) return false;
  const { sha256, ...job } = json;
  return sha256 === checksum(job);
}

/** Whether parsed JSON says that it is a backup of jobs. */
export const isBackup = (json: unknown): boolean => formatOf(json) === FORMAT;

/** What a file says it is. */
export const formatOf = (json: unknown): unknown => (isRecord(json) ? json.format : undefined);

/**
 * The jobs of a backup, or one job that stands alone, of whatever version. Jobs that cannot be read, or are not as they were
 * written, are handed over apart.
 *
 * @param at when, for what an earlier version did not note
 * @param damage what is known of the file already
 * @throws RecordError for what is no backup at all, or of a later version
 */
export const readBackup = (json: unknown, at: string, damage: Damage | null = null): Backup =>
  lastOf(backupSteps(json, at, damage));

function lastOf<Result>(steps: Generator<unknown, Result, void>): Result {
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
export function* backupSteps(
  json: unknown,
  at: string,
  damage: Damage | null = null,
): Generator<JobCount, Backup, void> {
  const envelope = isBackup(json) ? readEnvelope(json) : null;
  const kept = envelope ? envelope.jobs : [json];
  // a page that is too old takes in nothing: half of what a later one knows would be lost
  if (kept.some(isLater)) throw new RecordError(MADE_LATER);
  const isChecked = envelope !== null && envelope.version >= CHECKED_FROM;
  const jobs: Job[] = [];
  const broken: Broken[] = [];
  let isAltered = isChecked && damage === null && listChecksum(envelope.made, kept) !== envelope.sha256;
  for (const one of kept) {
    if ((isChecked || (isRecord(one) && one.sha256 !== undefined)) && !isAsWritten(one)) {
      isAltered = true;
      broken.push({ reason: damagedText(one), json: one });
    } else
      try {
        jobs.push(readJob(unchecked(one), at));
      } catch (error) {
        if (!(error instanceof RecordError) || !envelope) throw error;
        broken.push({ reason: error.message, json: one });
      }
    yield { done: jobs.length + broken.length, of: kept.length };
  }
  return { jobs, broken, damage: damage ?? (isAltered ? "altered" : null) };
}

function unchecked(json: unknown): unknown {
  if (!isRecord(json)) return json;
  const { sha256: _, ...job } = json;
  return job;
}

function damagedText(job: unknown): string {
  const title = isRecord(job) && typeof job.title === "string" ? `“${job.title.slice(0, 80)}”` : "a job";
  return `${title} is damaged: it is not as it was written`;
}
