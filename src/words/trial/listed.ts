/** A trial among others, in a line: what was tried, and how it stands. */
import type { KeptTake } from "../../listen/keptTake.ts";
import { isTurnDone } from "../../study/listened/measuredTrial.ts";
import { repeatsOf, type Trial } from "../../trial/trial.ts";

const days = new Intl.DateTimeFormat("en-GB", { day: "numeric", month: "short", year: "numeric" });

/** "4 gaps, 12 times each, Heron". */
export function triedText(trial: Trial): string {
  const { items, player } = trial;
  const what = items.every(({ gapMm }) => gapMm !== null) ? "gaps" : "shanks or instruments";
  return [`${items.length} ${what}`, `${repeatsOf(trial)} times each`, player].filter(Boolean).join(", ");
}

/** "finished 25 Nov 2026", "opened early", "sealed: 3 of 8 turns rated". */
export function standingText(trial: Trial, takes: readonly KeptTake[]): string {
  const { opened, openedAt } = trial;
  if (opened === "sealed") return `sealed: ${turnsDoneText(trial, takes)}`;
  const done = opened === "early" ? "opened early" : "finished";
  const at = new Date(openedAt ?? "");
  return Number.isNaN(at.valueOf()) ? done : `${done} ${days.format(at)}`;
}

/** "3 of 8 turns rated", "3 of 8 turns measured". */
export function turnsDoneText(trial: Trial, takes: readonly KeptTake[]): string {
  const done = trial.turns.filter((turn) => isTurnDone(trial, turn, takes)).length;
  return `${done} of ${trial.turns.length} turns ${trial.decidedBy ? "measured" : "rated"}`;
}
