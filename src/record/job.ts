/**
 * A job: one player with one mouthpiece in one instrument, and all that was measured, planned and tried for them. What was
 * measured and planned is its document, which the page reads and writes; here it is any JSON.
 */
import { canonicalText, uuidText } from "./canonical.ts";
import type { Revision } from "./revision.ts";

export const JOB_FORMAT = "annulus-job";
/** Of the format of a job; `migrate.ts` brings every earlier one here. */
export const JOB_VERSION = 5;

/** What a person calls it and searches it by. */
export interface JobTexts {
  readonly title: string;
  /** An alias: no name need be given. */
  readonly player: string;
  readonly instrument: string;
  readonly mouthpiece: string;
}

export type JobStatus = "open" | "archived";

/** A job without its document: what a list shows. */
export interface JobHead extends JobTexts {
  readonly format: typeof JOB_FORMAT;
  readonly version: typeof JOB_VERSION;
  readonly id: string;
  readonly status: JobStatus;
  /** ISO 8601, UTC. */
  readonly created: string;
  readonly changed: string;
  readonly revision: Revision;
}

export interface Job extends JobHead {
  readonly document: unknown;
}

/** More than anybody calls anything. */
export const LONGEST_TEXT = 200;

/** A random id (UUID version 4), also on a page that is not served securely, where browsers offer no `randomUUID`. */
export function newId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = (bytes[6] & 0x0f) | 0x40;
  bytes[8] = (bytes[8] & 0x3f) | 0x80;
  return uuidText([...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join(""));
}

/** Whether two copies of a job say the same, whenever and wherever they were made. */
export const sameContent = (a: Job, b: Job): boolean =>
  // mostly they say it in the same order too, which is found sooner
  JSON.stringify(saidBy(a)) === JSON.stringify(saidBy(b)) || contentText(a) === contentText(b);

/** All that a person put into it. */
export const contentText = (job: Job): string => canonicalText(saidBy(job));

const saidBy = ({ title, player, instrument, mouthpiece, status, document }: Job) => ({
  title,
  player,
  instrument,
  mouthpiece,
  status,
  document,
});

/** A copy's title that says what it is, within what a title may be long. */
export const titleWith = (title: string, what: string): string =>
  `${title.slice(0, LONGEST_TEXT - what.length - 3)} (${what})`;
