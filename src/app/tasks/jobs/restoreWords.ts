/** What taking in a backup came to, in words. */
import type { Broken } from "../../../record/backup.ts";
import type { Outcome } from "../../../record/merge.ts";

export interface Restored {
  readonly outcomes: readonly Outcome[];
  readonly broken: readonly Broken[];
}

const WORDS: readonly (readonly [Outcome, string])[] = [
  ["added", "added"],
  ["updated", "brought up to date"],
  ["same", "the same as here already"],
  ["older", "older than here, so left as here"],
  ["kept both", "changed here and there, so kept twice: one is called “… (from the backup)”"],
];

/** "12 jobs read: 3 added, 9 the same as here already." */
export function restoredText(fileName: string, { outcomes }: Restored): string {
  const counts = WORDS.flatMap(([outcome, words]) => {
    const count = outcomes.filter((one) => one === outcome).length;
    return count > 0 ? [`${count} ${words}`] : [];
  });
  const total = outcomes.length;
  if (total === 0) return `${fileName} holds no job.`;
  return `${fileName}: ${total} ${total === 1 ? "job" : "jobs"}; ${counts.join(", ")}.`;
}

export const brokenText = (broken: readonly Broken[]): string =>
  broken.length === 1
    ? `One job in it cannot be read and was left out (${broken[0].reason}).`
    : `${broken.length} jobs in it cannot be read and were left out (the first: ${broken[0].reason}).`;
