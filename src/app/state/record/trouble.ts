/** What a browser's refusal to keep something means to the person, in words. */

import { RecordError } from "../../../record/recordError.ts";
import { SetupError } from "../../../setup/problem.ts";

export type Trouble = "full" | "refused" | "other";

interface Named {
  readonly name?: unknown;
  readonly inner?: unknown;
}

/** The database wraps the browser's own error, sometimes twice. */
export function troubleOf(error: unknown): Trouble {
  const names: unknown[] = [];
  for (let at = error as Named | undefined | null; at; at = at.inner as Named | undefined)
    names.push(at.name);
  if (names.includes("QuotaExceededError")) return "full";
  const refusals = [
    "MissingAPIError",
    "OpenFailedError",
    "SecurityError",
    "InvalidStateError",
    "NotAllowedError",
  ];
  return names.some((name) => refusals.includes(name as string)) ? "refused" : "other";
}

const WORDS: Readonly<Record<Trouble, string>> = {
  full: "This browser's storage is full",
  refused: "This browser does not let the page keep jobs, as in a private window or by its settings",
  other: "The browser's database failed",
};

/** Why something was not kept. */
export const troubleText = (error: unknown): string =>
  error instanceof RecordError || error instanceof SetupError
    ? error.message.replace(/^setup: /, "")
    : WORDS[troubleOf(error)];
