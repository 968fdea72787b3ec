/** What a browser's refusal to keep something means to the person, in words. */

import { RecordError } from "../../../record/recordError.ts";
import { SetupError } from "../../../setup/problem.ts";

export type Trouble = "full" | "unwritable" | "refused" | "other";

interface Named {
  readonly name?: unknown;
  readonly message?: unknown;
  readonly inner?: unknown;
}

/** The database wraps the browser's own error, sometimes twice. */
export function troubleOf(error: unknown): Trouble {
  const names: unknown[] = [];
  let messages = "";
  for (let at = error as Named | undefined | null; at; at = at.inner as Named | undefined) {
    names.push(at.name);
    messages += ` ${at.message}`;
  }
  if (names.includes("QuotaExceededError")) return "full";
  // how browsers tell of a disk that takes nothing, for which there is no name
  if (/NO_SPACE|backing store|connection is closing/i.test(messages)) return "unwritable";
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
  unwritable: "The browser cannot write to the disk, which may be full",
  refused: "This browser does not let the page keep jobs, as in a private window or by its settings",
  other: "The browser's database failed",
};

/** Why something was not kept. */
export const troubleText = (error: unknown): string =>
  error instanceof RecordError || error instanceof SetupError
    ? error.message.replace(/^setup: /, "")
    : WORDS[troubleOf(error)];
