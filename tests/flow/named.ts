/** A table whose rows begin with a name. */
import { readFileSync } from "node:fs";

export const texts = (name: string): string[][] =>
  readFileSync(new URL(`../reference/${name}`, import.meta.url), "utf8")
    .split("\n")
    .filter((line) => line !== "" && !line.startsWith("#"))
    .slice(1)
    .map((line) => line.split(","));

/** The numbers of all rows of one name; refuses a name that is not there, so that no check is empty. */
export function numbers(rows: readonly string[][], name: string): number[][] {
  const found = rows.filter(([first]) => first === name).map(([, ...rest]) => rest.map(Number));
  if (found.length === 0) throw new Error(`no row is named ${name}`);
  return found;
}
