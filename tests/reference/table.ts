/** Reading the tables of outside values that stand beside the scripts that made them. */
import { readFileSync } from "node:fs";
import { numbersOf } from "./csv.ts";

const at = (name: string): URL => new URL(name, import.meta.url);

/** Rows of numbers of a CSV table; lines that start with # and the head are left out. A table without rows would prove nothing. */
export function numbers(name: string): number[][] {
  const rows = numbersOf(readFileSync(at(name), "utf8"));
  if (rows.length === 0) throw new Error(`no row of numbers in tests/reference/${name}`);
  return rows;
}

export const json = (name: string): any => JSON.parse(readFileSync(at(name), "utf8"));
