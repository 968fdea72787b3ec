/** A table whose rows begin with a name. */
import { readFileSync } from "node:fs";
import { rowsOf } from "../reference/csv.ts";

export const texts = (name: string): string[][] =>
  rowsOf(readFileSync(new URL(`../reference/${name}`, import.meta.url), "utf8"));

/** The numbers of all rows of one name; refuses a name that is not there, so that no check is empty. */
export function numbers(rows: readonly string[][], name: string): number[][] {
  const found = rows.filter(([first]) => first === name).map(([, ...rest]) => rest.map(Number));
  if (found.length === 0) throw new Error(`no row is named ${name}`);
  return found;
}
