/** What taking in a backup came to, in words. */
import type { Broken, Damage } from "../../../record/backup.ts";
import { isDifferent, type Outcome, type Standing } from "../../../record/merge.ts";

export interface Restored {
  readonly outcomes: readonly Outcome[];
  readonly broken: readonly Broken[];
}

const WORDS: readonly (readonly [Outcome, string])[] = [
  ["added", "added"],
  ["updated", "brought up to date"],
  ["replaced", "replaced; what was here is among the deleted for a day"],
  ["left out", "left out"],
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

/** How a job of the file stands to the one here. */
export const STANDING: Readonly<Record<Standing, string>> = {
  new: "Not here.",
  same: "The same as here.",
  newer: "Gone on from the one here.",
  older: "The one here has gone on since.",
  diverged: "Changed here and in the file.",
};

/** "3 jobs: 1 differs from the one here, 1 is new, 1 is the same." */
export function offeredText(standings: readonly Standing[]): string {
  const count = (which: (standing: Standing) => boolean) => standings.filter(which).length;
  const parts = [
    [count(isDifferent), "differs from the one here", "differ from those here"],
    [count((one) => one === "new"), "is new and is added", "are new and are added"],
    [count((one) => one === "same"), "is the same as here", "are the same as here"],
  ] as const;
  const said = parts
    .filter(([many]) => many > 0)
    .map(([many, one, more]) => `${many} ${many === 1 ? one : more}`);
  return `${standings.length === 1 ? "1 job" : `${standings.length} jobs`}: ${said.join(", ")}.`;
}

const HARM: Readonly<Record<Damage, string>> = {
  altered: "is damaged: not all of it is as it was written",
  "cut short": "is cut short: its end is missing",
};

/** @param whole how many of its jobs are undamaged */
export function damageText(fileName: string, damage: Damage, whole: number): string {
  const rest =
    whole === 0
      ? "No job in it is undamaged, and nothing was taken in. Look for another copy of the file."
      : whole === 1
        ? "One job in it is undamaged and can be taken in."
        : `${whole} jobs in it are undamaged and can be taken in.`;
  return `${fileName} ${HARM[damage]}. ${rest}`;
}
