import { readFileSync } from "node:fs";

/** A file that cannot be read, or lines of which some failed. */
export class ReadingError extends Error {}

/** A file's text, or standard input's for `-`. @param wanted what should be given, as "a setup file" */
export function textOf(path: string, wanted: string): string {
  try {
    return readFileSync(path === "-" ? 0 : path, "utf8");
  } catch (error) {
    throw cannotBeRead(path, error, wanted);
  }
}

/** Why a file cannot be read, for who named it. */
export function cannotBeRead(path: string, error: unknown, wanted: string): ReadingError {
  const { code } = error as NodeJS.ErrnoException;
  const why =
    code === "ENOENT"
      ? "there is no such file"
      : code === "EISDIR"
        ? "that is a folder"
        : `it cannot be read (${code})`;
  return new ReadingError(`${path}: ${why}; give the path of ${wanted}, or - for standard input`);
}

/** Why a file cannot be written, for who named it. */
export function cannotBeWritten(path: string, error: unknown): ReadingError {
  const { code } = error as NodeJS.ErrnoException;
  const why = code === "ENOENT" ? "its folder is not there" : `${code}`;
  return new ReadingError(`${path}: it cannot be written (${why}); give the path of a file to write`);
}
