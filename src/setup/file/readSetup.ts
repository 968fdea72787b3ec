/** From a setup file to a `Setup`: the shape by the JSON Schema, then what stands in it (`setupOfShape`). */
import type { LengthUnit } from "../../units/length.ts";
import { implausible } from "../dimension/plausible.ts";
import { SetupError } from "../problem.ts";
import type { Setup } from "../setup.ts";
import { jsonBreak } from "./jsonBreak.ts";
import { plainJsonProblems } from "./plainJson.ts";
import { schemaProblems } from "./schemaProblems.ts";
import { setupOfShape } from "./setupOfShape.ts";

const longestText = 10_000_000;

/**
 * The setup in the text of a file.
 *
 * @throws {SetupError} with the line and column where the text stops being JSON, or as `readSetup`.
 */
export function readSetupText(text: string): Setup {
  const refuse = (message: string) => new SetupError([{ path: "", value: text.slice(0, 200), message }]);
  if (text.length > longestText)
    throw refuse("the file is too large for a setup; give at most 10 million characters");
  // Some editors put a byte order mark in front, which JSON does not allow.
  const bare = text.replace(/^\uFEFF/, "");
  let json: unknown;
  try {
    json = JSON.parse(bare);
  } catch {
    const { line, column, found } = jsonBreak(bare);
    throw refuse(`not JSON: ${found} at line ${line}, column ${column}`);
  }
  return readSetup(json);
}

/**
 * The setup in a parsed file, all lengths in mm, deeply frozen.
 *
 * @param spoken unit in which what is wrong is told; the file's own if absent
 * @throws {SetupError} with everything that is wrong with it.
 */
export const readSetup = (json: unknown, spoken?: LengthUnit): Setup => readWhole(json, spoken, implausible);

/**
 * As `readSetup`, but also a setup that can be no instrument, as one that was kept when the limits were wider: `flawsOf` says
 * what is wrong with it, and no model is asked about it.
 */
export const readKeptSetup = (json: unknown, spoken?: LengthUnit): Setup => readWhole(json, spoken, () => []);

function readWhole(json: unknown, spoken: LengthUnit | undefined, refusing: typeof implausible): Setup {
  const notPlain = plainJsonProblems(json);
  if (notPlain.length > 0) throw new SetupError(notPlain);
  return setupOfShape(json, { spoken, refusing, problems: schemaProblems(json) });
}
