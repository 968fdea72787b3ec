import { quoteTyped } from "../units/inputError.ts";

/** One thing in a setup that cannot be taken, in words for the person who wrote the file. */
export interface Problem {
  /** Where in the file: `leadpipe.profile[3][0]`; empty for the whole. */
  readonly path: string;
  /** What stands there, as written. */
  readonly value: unknown;
  /** One line: what is wrong with the value, and what would be accepted. */
  readonly message: string;
}

/** A setup that was refused, with all that is wrong with it. The message is one line: the first problem, and how many more. */
export class SetupError extends Error {
  override name = "SetupError";
  readonly problems: readonly Problem[];

  constructor(problems: readonly [Problem, ...Problem[]] | readonly Problem[]) {
    const [{ path, message }] = problems;
    const others = problems.length > 1 ? ` (and ${problems.length - 1} more)` : "";
    super(`${path === "" ? "setup" : path}: ${message}${others}`);
    this.problems = problems;
  }
}

/** A path as a person reads it: `leadpipe.profile[3][0]`. Keys that are no plain word are quoted. */
export function pathText(keys: readonly (string | number)[]): string {
  return keys
    .map((key, i) => {
      if (typeof key === "number") return `[${key}]`;
      if (!/^[$\w]{1,40}$/.test(key)) return `[${quoteTyped(key)}]`;
      return i === 0 ? key : `.${key}`;
    })
    .join("");
}

/** A value from a file, short enough for a message. */
export function valueText(value: unknown): string {
  if (typeof value === "string") return quoteTyped(value);
  if (typeof value === "number" && Number.isFinite(value)) return `${value}`;
  if (typeof value === "boolean" || value === null) return `${value}`;
  if (Array.isArray(value)) return value.length === 0 ? "an empty list" : `a list of ${value.length}`;
  if (typeof value === "object") return "an object";
  return "a value that JSON does not have";
}
