/** Reading the tables of outside values that stand beside the scripts that made them. */
import { readFileSync } from "node:fs";

const at = (name: string): URL => new URL(name, import.meta.url);

/** Rows of numbers of a CSV table; lines that start with # and the head are left out. */
export function numbers(name: string): number[][] {
  const lines = readFileSync(at(name), "utf8")
    .split("\n")
    .filter((line) => line !== "" && !line.startsWith("#"));
  return lines.slice(1).map((line) => line.split(",").map(Number));
}

export const json = (name: string): any => JSON.parse(readFileSync(at(name), "utf8"));
