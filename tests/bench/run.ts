/** Prints the benchmark's rows as a table, or with --json as [{name, value, goal, met}]. */
import { modelRows, type Row } from "./bench.ts";
import { lipRows } from "./lips.ts";
import { listenRows } from "./listen.ts";
import { pageRows } from "./page.ts";
import { responseRows } from "./response.ts";

const met = ({ value, goal, better }: Row): boolean | null =>
  value === null || goal === null ? null : better === "more" ? value >= goal : value <= goal;

const rows = [...modelRows(), ...lipRows(), ...listenRows(), ...responseRows(), ...(await pageRows())];

if (process.argv.includes("--json")) {
  process.stdout.write(
    `${JSON.stringify(
      rows.map((row) => ({ name: row.name, value: row.value, goal: row.goal, met: met(row) })),
      null,
      1,
    )}\n`,
  );
} else
  for (const row of rows) {
    const value = row.value === null ? "absent here" : `${row.value.toPrecision(3)} ${row.unit}`;
    const goal =
      row.goal === null
        ? ""
        : `  goal ${row.better === "more" ? "at least" : "at most"} ${row.goal} ${row.unit}`;
    const mark = met(row) === null ? "·" : met(row) ? "✓" : "✗";
    process.stdout.write(`${mark} ${row.name}: ${value}${goal}\n`);
  }
