/** A trial among others, in a line: what was tried, and how it stands. */
import { isRated, repeatsOf, type Trial } from "../../trial/trial.ts";

const days = new Intl.DateTimeFormat("en-GB", { day: "numeric", month: "short", year: "numeric" });

/** "4 gaps, 12 times each, Heron". */
export function triedText(trial: Trial): string {
  const { items, player } = trial;
  const what = items.every(({ gapMm }) => gapMm !== null) ? "gaps" : "shanks or instruments";
  return [`${items.length} ${what}`, `${repeatsOf(trial)} times each`, player].filter(Boolean).join(", ");
}

/** "finished 25 Nov 2026", "opened early", "sealed: 3 of 8 turns rated". */
export function standingText({ opened, openedAt, turns }: Trial): string {
  if (opened === "sealed") return `sealed: ${turns.filter(isRated).length} of ${turns.length} turns rated`;
  const done = opened === "early" ? "opened early" : "finished";
  const at = new Date(openedAt ?? "");
  return Number.isNaN(at.valueOf()) ? done : `${done} ${days.format(at)}`;
}
