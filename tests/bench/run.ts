/**
 * Prints the benchmark's rows as a table, or with --json as [{name, value, goal, met}]. Words after the command name the groups of
 * rows to measure, all without: `npm run bench -- drag design`.
 */
import { buildAll } from "../../scripts/build.mjs";
import { isBuilt } from "../../scripts/buildStamp.mjs";
import { root } from "../../scripts/install.mjs";
import { bellRows } from "./bell.ts";
import { modelRows, type Row } from "./bench.ts";
import { pageBench } from "./chromium.ts";
import { designRows } from "./design.ts";
import { ABSENT_DRAG, dragRows } from "./drag.ts";
import { drawnRows } from "./drawnInstruments.ts";
import { feelRows } from "./feel.ts";
import { ABSENT_FIRST_CURVE, firstCurveRows } from "./firstCurve.ts";
import { ABSENT_ANSWERS, answerRows } from "./handToAnswer.ts";
import { lipRows } from "./lips.ts";
import { listenRows } from "./listen.ts";
import { ABSENT_LISTEN_DELAY, listenDelayRows } from "./listenDelay.ts";
import { responseRows } from "./response.ts";
import { startRows } from "./secondStart.ts";
import { streamRows } from "./stream.ts";

const met = ({ value, goal, better }: Row): boolean | null =>
  value === null || goal === null ? null : better === "more" ? value >= goal : value <= goal;

type Rows = readonly Row[];
const groups: Readonly<Record<string, () => Rows | Promise<Rows>>> = {
  model: modelRows,
  bell: bellRows,
  lips: lipRows,
  listen: listenRows,
  response: responseRows,
  drawn: drawnRows,
  feel: feelRows,
  design: designRows,
  stream: streamRows,
  start: startRows,
  "first-curve": async () => (page ? firstCurveRows(page) : ABSENT_FIRST_CURVE),
  drag: async () => (page ? dragRows(page) : ABSENT_DRAG),
  answers: async () => (page ? answerRows(page) : ABSENT_ANSWERS),
  "listen-delay": async () => (page ? listenDelayRows(page) : ABSENT_LISTEN_DELAY),
};
const asked = process.argv.slice(2).filter((word) => !word.startsWith("--"));
const unknown = asked.filter((word) => !(word in groups));
if (unknown.length > 0) {
  console.error(`There are no rows called ${unknown.join(", ")}; give ${Object.keys(groups).join(", ")}.`);
  process.exit(2);
}
if (!isBuilt(root)) await buildAll("error");
const page = await pageBench();
const rows: Row[] = [];
try {
  for (const [name, measured] of Object.entries(groups))
    if (asked.length === 0 || asked.includes(name)) rows.push(...(await measured()));
} finally {
  await page?.close();
}

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
