/** What is unusual about a setup, told on standard error and given back for the answer's JSON: the same sentences. */
import { type Setup, warningsOf, warningText } from "../../index.ts";

/** @param where which of several setups, as "line 3: " */
export function warned(setup: Setup, where = ""): string[] {
  const warnings = warningsOf(setup).map(warningText);
  for (const warning of warnings) process.stderr.write(`annulus: warning: ${where}${warning}\n`);
  return warnings;
}
