/**
 * Setups from a file, from standard input (`-`), or many from NDJSON, one a line, so that a job runner can share them out.
 */
import { gapKind, gapMm, readSetupText, type Setup } from "../../index.ts";
import { csvOfObjects } from "../../units/delimitedText.ts";
import { ReadingError, textOf } from "./fileText.ts";
import { type FormerKeys, withFormerKeys } from "./formerNames.ts";
import { warned } from "./warnings.ts";

/** A line of a stream, by its number in the file. */
export interface SetupLine {
  readonly line: number;
  readonly text: string;
}

/** Lines that are each a whole JSON value: NDJSON. null for one setup, which may stand on one line too. */
export function setupLines(text: string): readonly SetupLine[] | null {
  const lines = text
    .split("\n")
    .map((one, i) => ({ line: i + 1, text: one.trim() }))
    .filter((one) => one.text !== "");
  if (lines.length < 2) return null;
  if (isObject(lines[0].text)) return lines;
  // a first line that is broken is no reason to take the stream for one setup: of one that is spread out most lines are no value
  const looksWhole = lines.filter((one) => /^\{.*\}$/.test(one.text));
  return looksWhole.length > lines.length / 2 && looksWhole.some((one) => isObject(one.text)) ? lines : null;
}

function isObject(text: string): boolean {
  try {
    const value: unknown = JSON.parse(text);
    return typeof value === "object" && value !== null;
  } catch {
    return false;
  }
}

/** The last of a stream that was shared out may be one line alone: it is answered on one line like the others. */
const oneLine = (text: string): readonly SetupLine[] | null =>
  text.trim().includes("\n") || !isObject(text) ? null : [{ line: 1, text: text.trim() }];

/** Which gap the setup itself has, and whether it is measured, from the file, or assumed: any other is a what-if. */
const ownGap = (setup: Setup) => ({
  setup_gap_mm: gapMm(setup),
  setup_gap_is: gapKind(setup, gapMm(setup)),
});

/** A study of a setup, and what its result looks like. */
export interface SetupStudy<Result> {
  readonly study: (setup: Setup) => Result | Promise<Result>;
  readonly json: (result: Result) => object;
  /** Of a CSV: a line each. */
  readonly rows?: (result: Result) => readonly object[];
  /** In any other format that is offered. */
  readonly print: (result: Result, setup: Setup) => string | Uint8Array | Promise<string | Uint8Array>;
  /** Of JSON and CSV. */
  readonly formerKeys?: FormerKeys;
}

/**
 * Runs a study on one setup, or on each line of NDJSON; then every line of the answer is one JSON value, `{line, setup, …, warnings}`,
 * and a line that fails is told on standard error while the others go on.
 */
export async function forEachSetup<Result>(
  path: string,
  format: string,
  { study, json: bare, rows, print, formerKeys }: SetupStudy<Result>,
): Promise<void> {
  const named = <Value>(value: Value): Value => (formerKeys ? withFormerKeys(value, formerKeys) : value);
  const json = (result: Result) => named(bare(result));
  const text = textOf(path, "a setup file");
  const lines = setupLines(text) ?? (format === "json" ? oneLine(text) : null);
  if (!lines) {
    const setup = readSetupText(text);
    const warnings = warned(setup);
    const result = await study(setup);
    process.stdout.write(
      format === "json"
        ? `${JSON.stringify({ ...json(result), ...ownGap(setup), warnings }, null, 1)}\n`
        : format === "csv" && rows
          ? csvOfObjects(named(rows(result)))
          : await print(result, setup),
    );
    return;
  }
  if (format !== "json")
    throw new ReadingError(`${path}: many setups, one a line, are answered one a line: add --format json`);
  let failed = 0;
  for (const { line, text: one } of lines) {
    try {
      const setup = readSetupText(one);
      const warnings = warned(setup, lines.length > 1 ? `line ${line}: ` : "");
      const answer = json(await study(setup));
      process.stdout.write(
        `${JSON.stringify({ line, setup: setup.name, ...answer, ...ownGap(setup), warnings })}\n`,
      );
    } catch (error) {
      if (!(error instanceof Error) || lines.length === 1) throw error;
      failed++;
      process.stderr.write(`annulus: line ${line}: ${error.message.replace(/\s*\n\s*/g, " ")}\n`);
    }
  }
  if (failed > 0) throw new ReadingError(`${failed} of ${lines.length} lines failed`);
}
