/**
 * Setups from a file, from standard input (`-`), or many from NDJSON, one a line, so that a job runner can share them out.
 */
import { gapKind, gapMm, readSetupText, type Setup } from "../index.ts";
import { ReadingError, textOf } from "./fileText.ts";
import { warned } from "./warnings.ts";

/** Lines that are each a whole JSON value, more than one of them: NDJSON. */
function ndjsonLines(text: string): string[] | null {
  const lines = text.split("\n").filter((line) => line.trim() !== "");
  if (lines.length < 2) return null;
  try {
    const first: unknown = JSON.parse(lines[0]);
    return typeof first === "object" && first !== null ? lines : null;
  } catch {
    return null;
  }
}

/** Which gap the setup itself has, and whether it is measured, from the file, or assumed: any other is a what-if. */
const ownGap = (setup: Setup) => ({
  setup_gap_mm: gapMm(setup),
  setup_gap_is: gapKind(setup, gapMm(setup)),
});

/**
 * Runs a study on one setup, or on each line of NDJSON; then every line of the answer is one JSON value, `{line, setup, …, warnings}`,
 * and a line that fails is told on standard error while the others go on.
 * @param json the study's result as a JSON value
 * @param print prints the result of a single setup in the chosen format
 */
export function forEachSetup<Result>(
  path: string,
  format: string,
  study: (setup: Setup) => Result,
  json: (result: Result) => object,
  print: (result: Result, setup: Setup) => string,
): void {
  const text = textOf(path, "a setup file");
  const lines = ndjsonLines(text);
  if (!lines) {
    const setup = readSetupText(text);
    const warnings = warned(setup);
    const result = study(setup);
    process.stdout.write(
      format === "json"
        ? `${JSON.stringify({ ...json(result), ...ownGap(setup), warnings }, null, 1)}\n`
        : print(result, setup),
    );
    return;
  }
  if (format !== "json")
    throw new ReadingError(`${path}: many setups, one a line, are answered one a line: add --format json`);
  let failed = 0;
  lines.forEach((line, i) => {
    try {
      const setup = readSetupText(line);
      const warnings = warned(setup, `line ${i + 1}: `);
      const answer = { line: i + 1, setup: setup.name, ...json(study(setup)), ...ownGap(setup), warnings };
      process.stdout.write(`${JSON.stringify(answer)}\n`);
    } catch (error) {
      if (!(error instanceof Error)) throw error;
      failed++;
      process.stderr.write(`annulus: line ${i + 1}: ${error.message}\n`);
    }
  });
  if (failed > 0) throw new ReadingError(`${failed} of ${lines.length} lines failed`);
}
