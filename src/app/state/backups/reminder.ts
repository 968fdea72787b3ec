/** When to remind of a backup: the last one is a week old and jobs have changed since. At most once a week. */
import type { Row } from "../record/database.ts";

const WEEK_MS = 7 * 24 * 60 * 60 * 1000;
const DAY_MS = 24 * 60 * 60 * 1000;

export interface Reminder {
  /** Jobs that no backup made here has as they are now. */
  readonly changed: number;
  /** Of the last backup; of the oldest job, where none was made. */
  readonly days: number;
}

/**
 * Null: there is nothing to be reminded of.
 *
 * @param made when the last backup was made here, ISO 8601; null: none
 * @param reminded when the person was reminded last, ISO 8601
 */
export function reminderOf(
  rows: readonly Pick<Row, "created" | "changed" | "deleted">[],
  made: string | null,
  reminded: string | null,
  now: number,
): Reminder | null {
  const ageMs = (at: string) => now - Date.parse(at);
  if (reminded !== null && ageMs(reminded) < WEEK_MS) return null;
  const changed = rows.filter((row) => row.deleted === null && (made === null || row.changed > made));
  if (changed.length === 0) return null;
  const oldMs = made === null ? Math.max(...changed.map(({ created }) => ageMs(created))) : ageMs(made);
  return oldMs < WEEK_MS ? null : { changed: changed.length, days: Math.floor(oldMs / DAY_MS) };
}

export function reminderText({ changed, days }: Reminder, made: string | null): string {
  const jobs = changed === 1 ? "a job has" : `${changed} jobs have`;
  return made === null
    ? `No backup has been made here yet, and your oldest job is ${days} days old.`
    : `The last backup made here is ${days} days old, and ${jobs} changed since.`;
}
